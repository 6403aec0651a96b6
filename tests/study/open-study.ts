import { BLADES } from '../../shared/blade.ts';
import { rectangleZone } from '../../src/blade/zones.ts';
import type { Fault, PassFaults } from '../../src/faults/fault.ts';
import { findFaults } from '../../src/faults/find-faults.ts';
import { faultOptions } from '../../src/faults/judged-passes.ts';
import { whileOpen } from '../../src/faults/open-questions.ts';
import { estimate } from '../../src/figures/functional.ts';
import { meanRemovedOver } from '../../src/figures/removed.ts';
import { shareOver, unreadBetween, withUnread } from '../../src/figures/unread.ts';
import { zoneArea } from '../../src/figures/zone-mean.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import type { FitReading } from '../../src/surface/reed-model.ts';
import {
  familyReed,
  FAMILY_GAUGES,
  type FamilyPass,
  type FamilyReed,
  type FamilySettings,
} from '../generator/family-reed.ts';

type Wrong = (reading: FitReading, reed: FamilyReed, pass: number) => FitReading;

const thicker = (reading: FitReading, byMm: number): FitReading => ({
  ...reading,
  thicknessMm: reading.thicknessMm + byMm,
});
/** Read nearer the cork end than it says. */
const elsewhere =
  (byMm: number): Wrong =>
  (reading, { thicknessMm }, pass) => {
    const { blade, fromTipMm, across } = reading;
    const there = thicknessMm(blade, pass, fromTipMm + byMm, across);
    return thicker(reading, there - thicknessMm(blade, pass, fromTipMm, across));
  };

/** What may be wrong with a last pass, with the kinds of fault that tell it. */
const FAULTS: Readonly<Record<string, { readonly told: readonly Fault['kind'][]; readonly wrong: Wrong }>> = {
  'zero +0.02 mm': { told: ['zero'], wrong: (reading) => thicker(reading, 0.02) },
  'zero -0.02 mm': { told: ['zero'], wrong: (reading) => thicker(reading, -0.02) },
  'swelling 3 %': { told: ['swelling'], wrong: (reading) => thicker(reading, 0.03 * reading.thicknessMm) },
  'shift 0.5 mm': { told: ['shifted'], wrong: elsewhere(0.5) },
  'clip 0.3 mm': { told: ['clip'], wrong: elsewhere(0.3) },
  swap: { told: ['swapped'], wrong: (reading) => ({ ...reading, blade: reading.blade === 'A' ? 'B' : 'A' }) },
  mirror: { told: ['mirrored'], wrong: (reading) => ({ ...reading, across: 0 - reading.across }) },
};

/** Removed zones and what their 95 % intervals hold. */
export interface Covered {
  zones: number;
  within: number;
}

/** A fault planted in one reed. */
export interface OpenCase {
  readonly fault: string;
  readonly isTold: boolean;
  /** As it is shown while the question is open, and as it would be if nothing were asked. */
  readonly open: Covered;
  readonly asWritten: Covered;
}

export interface OpenStudy {
  readonly cases: readonly OpenCase[];
  /** What is found in each clean pass. */
  readonly clean: readonly (readonly Fault[])[];
}

const ZONES_MM = [
  [0.3, 3.6],
  [5.5, 8.5],
  [10.5, 17],
] as const;

/** Reeds as they were read, and with each fault in their last pass. */
export function studyOpen(
  settings: Omit<FamilySettings, 'seed'>,
  firstSeed: number,
  reeds: number,
): OpenStudy {
  const cases: OpenCase[] = [];
  const clean: Fault[][] = [];
  for (let seed = firstSeed; seed < firstSeed + reeds; seed++) {
    const reed = familyReed({ ...settings, seed });
    const found = foundIn(reed.passes, settings);
    clean.push(...found.map(({ faults }) => [...faults]));
    const last = reed.passes.length - 1;
    for (const [fault, { told, wrong }] of Object.entries(FAULTS).filter(([f]) =>
      ['swap', 'mirror'].includes(f),
    )) {
      const readings = reed.passes[last]!.readings.map((one) => wrong(one, reed, last));
      const passes = reed.passes.with(last, { ...reed.passes[last]!, readings });
      const found = foundIn(passes, settings);
      const isTold = found[last]!.faults.some(({ kind }) => told.includes(kind));
      const options = { stepMm: FAMILY_GAUGES[settings.gauge].stepMm };
      const open = whileOpen(passes, found, options);
      cases.push({
        ...{ fault, isTold },
        open: covered(reed, passes, fitReed(open.passes, open.options)),
        asWritten: covered(reed, passes, fitReed(passes, options)),
      });
    }
  }
  return { cases, clean };
}

function foundIn(passes: readonly FamilyPass[], { gauge }: Pick<FamilySettings, 'gauge'>): PassFaults[] {
  const { stepMm } = FAMILY_GAUGES[gauge];
  return findFaults(passes, faultOptions({ passes, options: { stepMm } }));
}

/** What the last pass took of zones that were read by its labels, beside the truth. */
function covered(
  reed: FamilyReed,
  passes: readonly FamilyPass[],
  model: ReturnType<typeof fitReed>,
): Covered {
  const last = passes.length - 1;
  const pair = { before: last - 1, after: last };
  const sum = { zones: 0, within: 0 };
  for (const blade of BLADES)
    for (const [from, to] of ZONES_MM) {
      const area = zoneArea(rectangleZone('zone', from, to), reed.passes[last]!);
      const unread = shareOver(area, unreadBetween(passes, pair, blade));
      if (unread > 0.5) continue;
      const taken = withUnread(estimate(model, meanRemovedOver(model, pair, blade, area)!), unread);
      const trueMm = area.nodes.reduce(
        (mm, { x, y, area: part }) => mm + (part / area.areaMm2) * reed.removedMm(blade, last, x, y),
        0,
      );
      sum.zones += 1;
      sum.within += Number(Math.abs(taken.valueMm - trueMm) <= 1.96 * taken.uMm);
    }
  return sum;
}
