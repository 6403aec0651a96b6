import { InputError } from '../../shared/errors.ts';

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
}

/**
 * Share of reeds that last longer than each duration, with reeds that did not end (or not for a cause that counts)
 * leaving the count without ending it.
 *
 * Source: Kaplan & Meier 1958, doi 10.1080/01621459.1958.10501452; standard error by Greenwood 1926.
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
    steps.push({ duration, atRisk, ended, surviving, u: surviving * Math.sqrt(greenwood) });
  }
  return steps;
}

/** The first duration at which no more than half last, or undefined while more than half do. */
export function medianLifetime(curve: readonly SurvivalStep[]): number | undefined {
  return curve.find(({ surviving }) => surviving <= 0.5)?.duration;
}

/** Growing share of reeds that one cause has ended, where others compete with it. */
export interface IncidenceStep {
  readonly duration: number;
  readonly share: number;
}

/**
 * Share ended by each cause up to each duration; the shares of all causes and of the survivors add up to one.
 *
 * Source: Aalen & Johansen 1978; equals one less Kaplan-Meier only where there is a single cause.
 *
 * @throws InputError naming the index of a duration that is negative or not finite.
 */
export function endingsByCause(lifetimes: readonly Lifetime[]): Map<string, IncidenceStep[]> {
  const sorted = sortedLifetimes(lifetimes);
  const shares = new Map<string, IncidenceStep[]>();
  let surviving = 1;
  for (const { duration, atRisk, ended, causes } of endings(sorted)) {
    for (const [cause, count] of causes) {
      const steps = shares.get(cause) ?? [];
      steps.push({ duration, share: (steps.at(-1)?.share ?? 0) + (surviving * count) / atRisk });
      shares.set(cause, steps);
    }
    surviving *= 1 - ended / atRisk;
  }
  return shares;
}

function sortedLifetimes(lifetimes: readonly Lifetime[]): Lifetime[] {
  lifetimes.forEach(({ duration }, i) => {
    if (!(Number.isFinite(duration) && duration >= 0)) {
      throw new InputError(`lifetimes[${i}].duration: must be 0 or more, got ${duration}`);
    }
  });
  return [...lifetimes].sort((a, b) => a.duration - b.duration);
}

function* endings(sorted: readonly Lifetime[]) {
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
