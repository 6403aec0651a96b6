import type { Fault } from '../../src/faults/fault.ts';
import { judgeNext, NOTHING_JUDGED, type JudgedSoFar } from '../../src/faults/find-faults.ts';
import { knownNoise } from '../../src/surface/choose-noise.ts';
import { generatedReed, SETTINGS, type GeneratedReed } from './generated-reed.ts';
import { DIFFERENCES } from './invented-cane.ts';
import { labellingSizeMm, lastWithFault, PLANTED, PLANTED_SIZE, type Planted } from './planted-faults.ts';

/** Blades or sides that differ by less are not told apart by their readings, mm. */
const LEAST_DIFFERENCE_MM = 0.01;
const GAUGE = {
  stepMm: SETTINGS.stepMm,
  seatingMm: knownNoise({}, SETTINGS.stepMm).noise.seatingMm,
  placementMm: SETTINGS.placementAlongMm,
};

/** How often something was found in a number of cases. */
export interface Count {
  cases: number;
  named: number;
  /** Named or asked. */
  found: number;
}

/** What was found in generated reeds as they are, and in their last passes with faults planted. */
export interface FaultStudy {
  readonly settings: typeof STUDY_SETTINGS;
  readonly clean: Count;
  /** Of labels, only reeds whose blades or sides differ by 0.01 mm or more; only the kinds that were asked for. */
  readonly planted: Partial<
    Record<Planted, Readonly<Record<'all' | GeneratedReed['extent'][number], Count>>>
  >;
}

/** The generator's settings, to be printed with what was found. */
const STUDY_SETTINGS = {
  ...SETTINGS,
  differencesMm: DIFFERENCES,
  planted: PLANTED_SIZE,
  leastDifferenceMm: LEAST_DIFFERENCE_MM,
};

const none = (): Count => ({ cases: 0, named: 0, found: 0 });

/** Studies the reeds of some seeds, one after the other, as they are and with faults of some kinds. */
export function studyFaults(
  firstSeed: number,
  reeds: number,
  kinds: readonly Planted[] = PLANTED,
): FaultStudy {
  const clean = none();
  const planted: FaultStudy['planted'] = Object.fromEntries(
    kinds.map((kind) => [kind, { all: none(), full: none(), ragged: none(), partial: none() }]),
  );
  for (let seed = firstSeed; seed < firstSeed + reeds; seed++) {
    const reed = generatedReed(seed);
    const before = reed.passes.slice(0, -1).reduce(judged, NOTHING_JUDGED);
    const { found } = judged(before, reed.passes.at(-1)!);
    for (const { faults } of found.slice(1)) count(clean, faults);
    for (const kind of kinds) {
      if (isLabel(kind) && labellingSizeMm(reed, kind) < LEAST_DIFFERENCE_MM) continue;
      const { faults } = judged(before, lastWithFault(reed, kind)).found.at(-1)!;
      const right = faults.filter((fault) => isThe(fault, kind));
      for (const which of ['all', reed.extent.at(-1)!] as const) count(planted[kind]![which], right);
    }
  }
  return { settings: STUDY_SETTINGS, clean, planted };
}

function judged(before: JudgedSoFar, pass: GeneratedReed['passes'][number]): JudgedSoFar {
  return judgeNext(before, pass, GAUGE);
}

function count(to: Count, faults: readonly Fault[]): void {
  to.cases += 1;
  if (faults.some(({ grade }) => grade === 'named')) to.named += 1;
  if (faults.length > 0) to.found += 1;
}

function isLabel(kind: Planted): boolean {
  return kind === 'swapped' || kind.startsWith('mirrored');
}

function isThe({ kind, blade }: Fault, planted: Planted): boolean {
  const [plantedKind, plantedBlade = 'both'] = planted.split(' ');
  return kind === plantedKind && blade === plantedBlade;
}
