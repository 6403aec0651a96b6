import type { Fault } from '../../src/faults/fault.ts';
import { findFaults } from '../../src/faults/find-faults.ts';
import { generatedReed, SETTINGS, type GeneratedReed } from './generated-reed.ts';
import { DIFFERENCES } from './invented-cane.ts';
import { labellingSizeMm, PLANTED, PLANTED_SIZE, withFault, type Planted } from './planted-faults.ts';

/** Blades or sides that differ by less are not told apart by their readings, mm. */
const LEAST_DIFFERENCE_MM = 0.01;

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
  /** Of labels, only reeds whose blades or sides differ by 0.01 mm or more. */
  readonly planted: Readonly<
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

/** Studies the reeds of some seeds, one after the other. */
export function studyFaults(firstSeed: number, reeds: number): FaultStudy {
  const clean = none();
  const planted = Object.fromEntries(
    PLANTED.map((kind) => [kind, { all: none(), full: none(), ragged: none(), partial: none() }]),
  ) as FaultStudy['planted'];
  for (let seed = firstSeed; seed < firstSeed + reeds; seed++) {
    const reed = generatedReed(seed);
    for (const { faults } of findFaults(reed.passes, SETTINGS).slice(1)) count(clean, faults);
    for (const kind of PLANTED) {
      if (isLabel(kind) && labellingSizeMm(reed, kind) < LEAST_DIFFERENCE_MM) continue;
      const { faults } = findFaults(withFault(reed, kind), SETTINGS).at(-1)!;
      const right = faults.filter((fault) => isThe(fault, kind));
      for (const which of ['all', reed.extent.at(-1)!] as const) count(planted[kind][which], right);
    }
  }
  return { settings: STUDY_SETTINGS, clean, planted };
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
