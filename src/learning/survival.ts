import { InputError } from '../../shared/errors.ts';

/** Standard errors in a 95 % interval. */
const COVERAGE_FACTOR = 1.959964;

/** How long one reed lasted, and how it ended; no cause means that it was still alive when last seen. */
export interface Lifetime {
  /** Hours played, or days: any unit, kept in the answer. */
  readonly duration: number;
  /** Absent for a reed alive, given away or lost: its true end is unknown, later than `duration`. */
  readonly cause?: string;
}

/** One step of a survival curve. */
export interface SurvivalStep {
  readonly duration: number;
  readonly atRisk: number;
  readonly ended: number;
  /** Share that lasts longer than `duration`. */
  readonly surviving: number;
  /** Standard error of `surviving` by Greenwood's formula. */
  readonly u: number;
  /** 95 %, of log(-log surviving): it never leaves 0 to 1. Both ends are 0 once nothing survives. */
  readonly interval: readonly [low: number, high: number];
}

/**
 * Share of reeds that last longer than each duration, with reeds that did not end (or not for a cause that counts)
 * leaving the count without ending it.
 *
 * Source: Kaplan & Meier 1958, doi 10.1080/01621459.1958.10501452; standard error by Greenwood 1926; interval by
 * Kalbfleisch & Prentice 1980, from memory.
 *
 * @param lifetimes Durations of 0 or more, in any order.
 * @returns One step for each duration at which a reed ended, in rising order; empty when none did.
 * @throws InputError naming the index of a duration that is negative or not finite.
 */
export function survivalCurve(lifetimes: readonly Lifetime[]): SurvivalStep[] {
  const sorted = sortedLifetimes(lifetimes);
  const steps: SurvivalStep[] = [];
  let surviving = 1;
  let greenwood = 0;
  for (const { duration, atRisk, ended } of endings(sorted)) {
    surviving *= 1 - ended / atRisk;
    greenwood += ended < atRisk ? ended / (atRisk * (atRisk - ended)) : 0;
    const interval = logLogInterval(surviving, greenwood);
    steps.push({ duration, atRisk, ended, surviving, u: surviving * Math.sqrt(greenwood), interval });
  }
  return steps;
}

function logLogInterval(surviving: number, greenwood: number): readonly [number, number] {
  if (surviving === 0) return [0, 0];
  const half = (COVERAGE_FACTOR * Math.sqrt(greenwood)) / Math.abs(Math.log(surviving));
  return [surviving ** Math.exp(half), surviving ** Math.exp(-half)];
}

/** Share that lasts longer than a duration: 1 before the first ending. */
export function survivingAt(curve: readonly SurvivalStep[], duration: number): number {
  return curve.findLast((step) => step.duration <= duration)?.surviving ?? 1;
}

/**
 * The duration that half of the reeds outlast: the first at which fewer than half last, or the middle of the stretch over
 * which exactly half do; undefined while more than half do.
 *
 * Source: the convention of Kaplan-Meier medians in the field's software, equal to the usual median where every reed has
 * ended; from memory.
 */
export function medianLifetime(curve: readonly SurvivalStep[]): number | undefined {
  return fallsToHalf(curve, ({ surviving }) => surviving);
}

/**
 * 95 % interval of the median lifetime: the durations at which the ends of the curve's interval pass a half. An end that
 * the reeds seen so far do not settle is undefined.
 *
 * Source: Brookmeyer & Crowley 1982.
 */
export function medianInterval(
  curve: readonly SurvivalStep[],
): readonly [low: number | undefined, high: number | undefined] {
  const end = (which: 0 | 1) => fallsToHalf(curve, ({ interval }) => interval[which]);
  return [end(0), end(1)];
}

/** A product of shares that is a half but for rounding is a half: a share of n reeds misses it by 1 / (2 n) at least. */
const HALF_WITHIN = 1e-9;

function fallsToHalf(
  curve: readonly SurvivalStep[],
  shareOf: (step: SurvivalStep) => number,
): number | undefined {
  const first = curve.find((step) => shareOf(step) <= 0.5 + HALF_WITHIN);
  if (!first || shareOf(first) < 0.5 - HALF_WITHIN) return first?.duration;
  const below = curve.find((step) => shareOf(step) < 0.5 - HALF_WITHIN);
  return below ? (first.duration + below.duration) / 2 : first.duration;
}

/** Growing share of reeds that one cause has ended, where others compete with it. */
export interface IncidenceStep {
  readonly duration: number;
  readonly share: number;
  /** Standard error of `share`. */
  readonly u: number;
}

/**
 * Share ended by each cause up to each duration; the shares of all causes and of the survivors add up to one.
 *
 * Source: Aalen & Johansen 1978; equals one less Kaplan-Meier only where there is a single cause. Standard error by the
 * delta method (Marubini & Valsecchi 1995, from memory), which is Greenwood's where there is a single cause.
 *
 * @throws InputError naming the index of a duration that is negative or not finite.
 */
export function endingsByCause(lifetimes: readonly Lifetime[]): Map<string, IncidenceStep[]> {
  const times = [...endings(sortedLifetimes(lifetimes))];
  const causes = new Set(times.flatMap((time) => [...time.causes.keys()]));
  return new Map([...causes].map((cause) => [cause, incidence(times, cause)]));
}

function incidence(times: readonly Ending[], cause: string): IncidenceStep[] {
  const steps: IncidenceStep[] = [];
  const seen: { share: number; total: number; own: number; cross: number }[] = [];
  let [surviving, share] = [1, 0];
  for (const { duration, atRisk, ended, causes } of times) {
    const count = causes.get(cause) ?? 0;
    share += (surviving * count) / atRisk;
    seen.push({
      share,
      total: ended < atRisk ? ended / (atRisk * (atRisk - ended)) : 0,
      own: (surviving ** 2 * count * (atRisk - count)) / atRisk ** 3,
      cross: (surviving * count) / atRisk ** 2,
    });
    surviving *= 1 - ended / atRisk;
    if (count === 0) continue;
    const variance = seen.reduce((sum, { share: before, total, own, cross }) => {
      const since = share - before;
      return sum + since ** 2 * total + own - 2 * since * cross;
    }, 0);
    steps.push({ duration, share, u: Math.sqrt(Math.max(0, variance)) });
  }
  return steps;
}

function sortedLifetimes(lifetimes: readonly Lifetime[]): Lifetime[] {
  lifetimes.forEach(({ duration }, i) => {
    if (!(Number.isFinite(duration) && duration >= 0)) {
      throw new InputError(`lifetimes[${i}].duration: must be 0 or more, got ${duration}`);
    }
  });
  return [...lifetimes].sort((a, b) => a.duration - b.duration);
}

interface Ending {
  readonly duration: number;
  readonly atRisk: number;
  readonly ended: number;
  readonly causes: ReadonlyMap<string, number>;
}

function* endings(sorted: readonly Lifetime[]): Generator<Ending> {
  for (let first = 0; first < sorted.length;) {
    const { duration } = sorted[first]!;
    let next = first;
    const causes = new Map<string, number>();
    while (next < sorted.length && sorted[next]!.duration === duration) {
      const { cause } = sorted[next]!;
      if (cause !== undefined) causes.set(cause, (causes.get(cause) ?? 0) + 1);
      next++;
    }
    const ended = [...causes.values()].reduce((total, count) => total + count, 0);
    if (ended > 0) yield { duration, atRisk: sorted.length - first, ended, causes };
    first = next;
  }
}
