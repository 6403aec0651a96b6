import type { Predictive } from '../family/predictive.ts';
import { knownNoise, type NoiseOptions } from '../surface/choose-noise.ts';
import { stepOf } from '../surface/fit-reed.ts';
import { caneOf, type ExplainedPass } from './cane.ts';
import { describeFaults, describeOdd } from './describe-faults.ts';
import { driftOfFirst } from './first-drift.ts';
import { oddInFamily } from './first-of-family.ts';
import { oddFirstReadings } from './first-pass.ts';
import { asExplained } from './explained-pass.ts';
import type { JudgedPass, Noise } from './explanation.ts';
import type { Fault, PassFaults } from './fault.ts';
import { withPass, type KnownCane } from './known-cane.ts';
import { judgePass, type Judgement } from './judge-pass.ts';
import { isDig, oddReadings } from './single-readings.ts';

/** What a further finding must gain to be worth its complication, as log-likelihood. */
const FINDING_COST = 4;
/** An entered length agrees with a clip found before when it is this near, mm. */
const LENGTH_U_MM = 0.15;

/** What is known of gauge and hand, and of the maker's other reeds. */
export interface FaultOptions extends NoiseOptions {
  readonly families?: readonly Predictive[];
}

/**
 * Faults of a reed's passes, each judged against those before it as they were explained; the first has nothing to be
 * judged against. Nothing is put right here: a remedy is the maker's to accept.
 *
 * @param passes In order, remedies already accepted applied.
 */
export function findFaults(passes: readonly JudgedPass[], options: FaultOptions = {}): PassFaults[] {
  const search = faultSearch(passes, options);
  for (;;) {
    const step = search.next();
    if (step.done) return step.value;
  }
}

/** The same search with a pause after each pass, to leave room for keys and pictures. */
export function* faultSearch(
  passes: readonly JudgedPass[],
  options: FaultOptions = {},
): Generator<undefined, PassFaults[]> {
  const stepMm = options.stepMm ?? stepOf(passes);
  const { seatingMm, alongMm } = knownNoise(options, stepMm).noise;
  const { families = [] } = options;
  const gauge = { stepMm, seatingMm, placementMm: alongMm, families };
  let judged = NOTHING_JUDGED;
  for (const pass of passes) {
    judged = judgeNext(judged, pass, gauge);
    if (judged.found.length > 1) yield;
  }
  return [...judged.found];
}

/** What passes so far have shown. */
export interface JudgedSoFar {
  readonly found: readonly PassFaults[];
  readonly settled: readonly ExplainedPass[];
  /** What the settled passes' stations tell of the cane; absent before the first of them. */
  readonly known?: KnownCane;
  readonly carried?: CarriedClip;
}

export const NOTHING_JUDGED: JudgedSoFar = { found: [], settled: [] };

/** The noise of readings, the step in which they are shown, mm, and what the maker's other reeds lead to expect. */
interface Gauge extends Noise {
  readonly stepMm: number;
  readonly families?: readonly Predictive[];
}

/** One pass more. */
export function judgeNext(
  { found, settled, known, carried }: JudgedSoFar,
  pass: JudgedPass,
  gauge: Gauge,
): JudgedSoFar {
  if (!known) {
    const { stepMm, families = [] } = gauge;
    const odd = oddInFamily(pass, gauge, stepMm, families) ?? oddFirstReadings(pass, gauge, stepMm);
    const told = describeOdd(pass.index, odd);
    const first = {
      found: [...found, { ...told, faults: [...driftOfFirst(pass, gauge), ...told.faults] }],
      settled,
    };
    return pass.readings.length > 0 ? settle(first, asExplained(pass, gauge, undefined, odd), gauge) : first;
  }
  const cane = caneOf(settled, known);
  const { judgement, judged, was } = judgeLengths(pass, carried, (one) => judgePass(one, cane, gauge));
  const odd = oddReadings(judgement.explanation, gauge.stepMm).filter(
    (one) => !(pass.accident && isDig(one)),
  );
  const isSure = judgement.findings.every(({ grade }) => grade === 'named');
  const clip = carriedClip(pass, judged, isSure ? judgement : undefined);
  const next = {
    found: [
      ...(was ? found.with(-1, settleLength(found.at(-1)!, was)) : found),
      describeFaults(pass.index, judgement, odd),
    ],
    settled,
    known,
    ...(clip && { carried: clip }),
  };
  return isSure ? settle(next, asExplained(judged, gauge, judgement.explanation, odd), gauge) : next;
}

/** A pass that is explained tells of the cane. */
function settle(judged: JudgedSoFar, pass: ExplainedPass, { placementMm }: Gauge): JudgedSoFar {
  const known = pass.stations.length > 0 ? withPass(judged.known, pass.stations, placementMm) : judged.known;
  return { ...judged, settled: [...judged.settled, pass], ...(known && { known }) };
}

/** A clip that an earlier pass may have left out of its length, and so this one too. */
interface CarriedClip {
  readonly clipMm: number;
  /** Length that was entered with it. */
  readonly overallLengthMm: number;
}

interface JudgedLength {
  readonly judged: JudgedPass;
  readonly judgement: Judgement;
  /** What the pass before had, now that this one tells. */
  readonly was?: 'clip' | 'shifted';
}

/** Judges a pass by the length written for it and, after a clip that was not entered, by the shorter one. */
function judgeLengths(
  pass: JudgedPass,
  carried: CarriedClip | undefined,
  judge: (pass: JudgedPass) => Judgement,
): JudgedLength {
  const written = { judged: pass, judgement: judge(pass) };
  if (!carried) return written;
  const shorter = { ...pass, overallLengthMm: pass.overallLengthMm - carried.clipMm };
  const without = { judged: shorter, judgement: judge(shorter) };
  const gain = worthOf(without.judgement) - worthOf(written.judgement);
  if (gain >= FINDING_COST) return { ...without, was: 'clip' };
  if (gain > -FINDING_COST) return written;
  const enteredMm = carried.overallLengthMm - pass.overallLengthMm;
  return { ...written, was: enteredMm > carried.clipMm - LENGTH_U_MM ? 'clip' : 'shifted' };
}

function worthOf({ explanation, findings }: Judgement): number {
  return explanation.logLikelihood - FINDING_COST * findings.length;
}

function carriedClip(
  { overallLengthMm }: JudgedPass,
  judged: JudgedPass,
  judgement: Judgement | undefined,
): CarriedClip | undefined {
  const shift = judgement?.findings.find(
    ({ suspicion }) => suspicion.kind === 'shifted' && suspicion.blade === 'both',
  );
  const shiftMm = shift?.amount ?? 0;
  const clipMm = overallLengthMm - judged.overallLengthMm + Math.max(shiftMm, 0);
  return clipMm > 0 ? { clipMm, overallLengthMm } : undefined;
}

/** Keeps one of the two faults of length that explained a pass equally well. */
function settleLength(pass: PassFaults, kept: 'clip' | 'shifted'): PassFaults {
  const dropped = kept === 'clip' ? 'shifted' : 'clip';
  const faults = pass.faults.flatMap(({ orElse = [], ...fault }): Fault[] => {
    if (orElse.includes(kept) && fault.kind === dropped) return [];
    const left = orElse.filter((kind) => kind !== dropped);
    return [left.length > 0 ? { ...fault, orElse: left } : fault];
  });
  return { ...pass, faults };
}
