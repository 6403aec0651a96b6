import { explain, type Cane, type Explanation, type JudgedPass, type Noise } from './explanation.ts';
import { growthEvidence } from './growth.ts';
import { isNew, SUSPICIONS, type Suspicion } from './suspicion.ts';
import { untouchedMoved } from './untouched-cane.ts';

/** Named: growth that scraping cannot make, or untouched cane that moved. Asked: explains the numbers clearly better. */
export type Grade = 'named' | 'asked';

export interface Finding {
  readonly suspicion: Suspicion;
  readonly grade: Grade;
  /** Gain in log-likelihood over the best explanation without it. */
  readonly evidence: number;
}

export interface Judgement {
  readonly findings: readonly Finding[];
  /** The pass under all findings. */
  readonly explanation: Explanation;
}

/** Least evidence by kind: asked from the first, named from the second. Chosen on generated reeds. */
const THRESHOLDS = {
  zero: { asked: 4, named: 5 },
  shifted: { asked: 4, named: 4 },
  swelling: { asked: 4, named: 5 },
  labels: { asked: 3, named: 8 },
} as const;
/** Offsets smaller than this are left to the doubt of the pass. */
const LEAST_AMOUNT = { zero: 0.008, shifted: 0.1, swelling: 0.01 } as const;
/** Evidence of growth that a finding must clear away to be named, and evidence of moved controls instead. */
const NAMED_GROWTH = 2.5;
const NAMED_CONTROLS = 1.5;
/** A fault of one blade alone, or two labels at once, is rarer: what it costs. */
const PARTIAL_COST = 2;
const MOST_FINDINGS = 3;
/** Nuisances of a sound pass stay within this many of their standard deviations. */
const SOUND_BOUND = 1.5;

/** What is wrong with a pass, the likeliest first: faults are taken on one by one while the evidence asks for them. */
export function judgePass(pass: JudgedPass, cane: Cane, noise: Noise): Judgement {
  let explanation = explain(pass, cane, noise, []);
  const findings: Finding[] = [];
  while (findings.length < MOST_FINDINGS) {
    const held = explanation.suspicions;
    const sound = explain(pass, cane, noise, held, SOUND_BOUND);
    const candidates = SUSPICIONS.filter((suspicion) => isNew(held, suspicion)).map((suspicion) => {
      const after = explain(pass, cane, noise, [...held, suspicion]);
      return {
        suspicion,
        after,
        evidence: after.logLikelihood - explanation.logLikelihood - costOf(suspicion),
      };
    });
    const best = candidates.reduce((a, b) => (b.evidence > a.evidence ? b : a));
    const grade = gradeOf(best, explanation, sound);
    if (!grade) break;
    findings.push({ suspicion: best.suspicion, grade, evidence: best.evidence });
    explanation = best.after;
  }
  const moved = untouchedMoved(pass, cane, noise, explanation);
  if (!moved) return { findings, explanation };
  const { suspicion, evidence } = moved;
  return { findings: [...findings, { suspicion, grade: 'named', evidence }], explanation: moved.explanation };
}

function costOf(suspicion: Suspicion): number {
  if (suspicion.kind !== 'labels') return suspicion.blade === 'both' ? 0 : PARTIAL_COST;
  const { swapped, mirrored } = suspicion.labelling;
  return (mirrored.length === 1 ? PARTIAL_COST : 0) + (swapped && mirrored.length > 0 ? PARTIAL_COST : 0);
}

interface Candidate {
  readonly suspicion: Suspicion;
  readonly after: Explanation;
  readonly evidence: number;
}

function gradeOf(
  { suspicion, after, evidence }: Candidate,
  before: Explanation,
  sound: Explanation,
): Grade | undefined {
  const { kind } = suspicion;
  const { asked, named } = THRESHOLDS[kind];
  const amount = after.amounts.get(suspicion) ?? 0;
  if (evidence < asked || (kind !== 'labels' && Math.abs(amount) < LEAST_AMOUNT[kind])) return undefined;
  const growth = growthEvidence(sound.changes) - growthEvidence(after.changes);
  const grew = kind === 'labels' ? growth >= NAMED_GROWTH : amount > 0;
  const moved = after.ofControls - before.ofControls >= NAMED_CONTROLS;
  return evidence >= named && (grew || moved) ? 'named' : 'asked';
}
