import { amountEstimate, type Amount } from './amount-estimate.ts';
import {
  amountOf,
  explain,
  type Cane,
  type Explanation,
  type JudgedPass,
  type Noise,
} from './explanation.ts';
import { growthEvidence } from './growth.ts';
import { isNew, suspicionsOf, type Suspicion } from './suspicion.ts';
import { untouchedMoved } from './untouched-cane.ts';

/** Named: growth that scraping cannot make, or untouched cane that moved. Asked: explains the numbers clearly better. */
export type Grade = 'named' | 'asked';

/** With the amount of an offset; 0 for labels. */
export interface Found extends Amount {
  readonly suspicion: Suspicion;
  readonly grade: Grade;
  /** Gain in log-likelihood over the best explanation without it. */
  readonly evidence: number;
}

export interface Finding extends Found {
  /** What explains the pass nearly as well: one of them all, not several. */
  readonly rivals: readonly Found[];
}

export interface Judgement {
  readonly findings: readonly Finding[];
  /** The pass under all findings. */
  readonly explanation: Explanation;
}

/** Least evidence by kind: asked from the first, named from the second. Chosen on generated reeds. */
const THRESHOLDS = {
  zero: { asked: 1, named: 4 },
  drift: { asked: 4, named: 6 },
  shifted: { asked: 1.3, named: 5 },
  swelling: { asked: 4, named: 5 },
  labels: { asked: 3.6, named: 6 },
} as const;
/** A loss alone is scraping: least evidence to ask about one. */
const LOSS_ASKED = 4;
/** Offsets smaller than this are left to the doubt of the pass. */
const LEAST_AMOUNT = { zero: 0.008, drift: 0.01, shifted: 0.14, swelling: 0.01 } as const;
/** Evidence of growth that a finding must clear away to be named, and evidence of moved controls instead. */
const NAMED_GROWTH = 2.5;
const NAMED_CONTROLS = 1.5;
/** An amount on one blade alone is rarer, and so is one blade mirrored, or two labels at once: what they cost. */
const PARTIAL_COST = 5;
const LABEL_COST = 1.5;
/** A zero is checked before and after a pass; a clip is forgotten more easily. */
const ZERO_COST = 1;
/** A moved zero and a moved tip are told apart by this much evidence, or twice as much of it, or not at all. */
const RIVAL_WITHIN = 8;
const MOST_FINDINGS = 3;
/** Nuisances of a sound pass stay within this many of their standard deviations. */
const SOUND_BOUND = 1.5;

/** What is wrong with a pass, the likeliest first: faults are taken on one by one while the evidence asks for them. */
export function judgePass(pass: JudgedPass, cane: Cane, noise: Noise): Judgement {
  let explanation = explain(pass, cane, noise, []);
  const findings: Finding[] = [];
  while (findings.length < MOST_FINDINGS) {
    const before = explanation;
    const candidates = suspicionsOf(pass, before.suspicions).map((suspicion): Candidate => {
      const after = explain(pass, cane, noise, [...before.suspicions, suspicion], { from: before });
      return { suspicion, after, evidence: after.logLikelihood - before.logLikelihood - costOf(suspicion) };
    });
    const [best, ...others] = candidates.filter(isWorthAsking).sort((a, b) => b.evidence - a.evidence);
    if (!best) break;
    const sound = explain(pass, cane, noise, before.suspicions, { from: before, bound: SOUND_BOUND });
    const rivals = rivalsOf(best, others).map((rival) => ({
      ...found(rival, before, sound),
      ...amountUnder(rival.after, rival.suspicion),
    }));
    findings.push({ ...found(best, before, sound), rivals });
    explanation = best.after;
  }
  const moved = untouchedMoved(pass, cane, noise, explanation);
  if (moved) {
    const { suspicion, evidence } = moved;
    explanation = moved.explanation;
    findings.push({ suspicion, ...NO_AMOUNT, grade: 'named', evidence, rivals: [] });
  }
  return { findings: findings.map(settled), explanation };

  function amountUnder(under: Explanation, suspicion: Suspicion): Amount {
    return suspicion.kind === 'labels' ? NO_AMOUNT : amountEstimate(pass, cane, noise, under, suspicion);
  }

  /** A finding with its amount under all findings, and without rivals that were found beside it. */
  function settled(finding: Finding): Finding {
    return {
      ...finding,
      ...amountUnder(explanation, finding.suspicion),
      rivals: finding.rivals.filter(({ suspicion }) => isNew(explanation.suspicions, suspicion)),
    };
  }
}

const NO_AMOUNT: Amount = { amount: 0, u: 0 };

function rivalsOf(best: Candidate, others: readonly Candidate[]): Candidate[] {
  const takesPart = ({ suspicion }: Candidate) => suspicion.kind === 'zero' || suspicion.kind === 'shifted';
  if (!takesPart(best)) return [];
  return others.filter(
    (rival) =>
      takesPart(rival) &&
      rival.suspicion.kind !== best.suspicion.kind &&
      rival.evidence > Math.max(best.evidence - RIVAL_WITHIN, best.evidence / 2),
  );
}

function costOf(suspicion: Suspicion): number {
  if (suspicion.kind !== 'labels')
    return (suspicion.blade === 'both' ? 0 : PARTIAL_COST) + (suspicion.kind === 'zero' ? ZERO_COST : 0);
  const { swapped, mirrored } = suspicion.labelling;
  return (mirrored.length === 1 ? LABEL_COST : 0) + (swapped && mirrored.length > 0 ? LABEL_COST : 0);
}

interface Candidate {
  readonly suspicion: Suspicion;
  readonly after: Explanation;
  readonly evidence: number;
}

function isWorthAsking({ suspicion, after, evidence }: Candidate): boolean {
  const { kind } = suspicion;
  if (evidence < THRESHOLDS[kind].asked) return false;
  if (kind === 'labels') return true;
  const amount = amountOf(after, suspicion);
  return Math.abs(amount) >= LEAST_AMOUNT[kind] && (amount > 0 || evidence >= LOSS_ASKED);
}

function found({ suspicion, after, evidence }: Candidate, before: Explanation, sound: Explanation): Found {
  const amount = amountOf(after, suspicion);
  const growth = growthEvidence(sound.changes) - growthEvidence(after.changes);
  const grew = suspicion.kind === 'labels' ? growth >= NAMED_GROWTH : amount > 0;
  const moved = after.ofControls - before.ofControls >= NAMED_CONTROLS;
  const isSure = evidence >= THRESHOLDS[suspicion.kind].named && (grew || moved);
  return { suspicion, amount, u: 0, evidence, grade: isSure ? 'named' : 'asked' };
}
