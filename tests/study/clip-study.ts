import type { Fault } from '../../src/faults/fault.ts';
import { findFaults } from '../../src/faults/find-faults.ts';
import { faultOptions } from '../../src/faults/judged-passes.ts';
import {
  familyHalfWidthMm,
  familyReed,
  FAMILY_GAUGES,
  type FamilyPass,
  type FamilyReed,
  type FamilySettings,
} from '../generator/family-reed.ts';
import { seededRandom } from '../seeded-random.ts';
import { drawsFrom } from './generated-cane.ts';

/** What sound passes are off by, one standard deviation. */
const LENGTH_MM = 0.05;
const SWELLING = 0.004;

/** The clip that is offered for a last pass that was read after one that nobody entered; undefined where none is. */
export function forgottenClip(settings: FamilySettings, clipMm: number): Fault | undefined {
  const reed = familyReed(settings);
  const passes = reed.passes.with(-1, readAfterClip(reed, clipMm));
  const { stepMm } = FAMILY_GAUGES[reed.gauge];
  const found = findFaults(passes, faultOptions({ passes, options: { stepMm } }));
  return found.at(-1)!.faults.find(({ kind }) => kind === 'clip');
}

function readAfterClip(reed: FamilyReed, clipMm: number): FamilyPass {
  const { gauge, handMm, seed } = reed;
  const { seatingMm, stepMm, zeroMm } = FAMILY_GAUGES[gauge];
  const { normal } = drawsFrom(seededRandom(seed + 5_000_000));
  const last = reed.passes.at(-1)!;
  const [zero, short, swollen] = [normal(zeroMm), normal(LENGTH_MM), normal(SWELLING)];
  const readings = last.readings.map((reading) => {
    const y = reading.fromTipMm + clipMm + short + normal(handMm);
    const u = reading.across + normal(handMm / 3) / familyHalfWidthMm(reading.fromTipMm);
    const cane = reed.thicknessMm(reading.blade, reed.passes.length - 1, y, u);
    const met = cane * (1 + swollen) + zero + normal(seatingMm);
    return { ...reading, thicknessMm: Math.max(1, Math.round(met / stepMm)) * stepMm };
  });
  return { ...last, readings };
}
