import { describe, expect, it } from 'vitest';
import { rectangleZone } from '../../src/blade/zones.ts';
import { findFaults } from '../../src/faults/find-faults.ts';
import { faultOptions } from '../../src/faults/judged-passes.ts';
import { whileOpen } from '../../src/faults/open-questions.ts';
import { estimate } from '../../src/figures/functional.ts';
import { meanRemovedOver } from '../../src/figures/removed.ts';
import { zoneArea } from '../../src/figures/zone-mean.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import type { ReedPosterior } from '../../src/surface/reed-posterior.ts';
import { familyReed, type FamilyReed } from '../generator/family-reed.ts';

const ZONES_MM = [
  [0.3, 3.6],
  [5.5, 8.5],
  [10.5, 17],
] as const;
const options = { stepMm: 0.01 };
const reeds = (['usual', 'slow', 'mixed'] as const).map((family, k) =>
  familyReed({ family, gauge: 'dial', handMm: 0.1, extent: 'full', seed: 41_010 + k, count: 2 }),
);

/** What the second pass took from three zones of both blades, beside the truth. */
function removedZones(reed: FamilyReed, model: ReedPosterior) {
  return ZONES_MM.flatMap(([from, to]) =>
    (['A', 'B'] as const).map((blade) => {
      const area = zoneArea(rectangleZone('zone', from, to), reed.passes[1]!);
      const trueMm = area.nodes.reduce(
        (sum, { x, y, area: share }) => sum + (share / area.areaMm2) * reed.removedMm(blade, 1, x, y),
        0,
      );
      return { ...estimate(model, meanRemovedOver(model, { before: 0, after: 1 }, blade, area)!), trueMm };
    }),
  );
}

describe.each([0.02, -0.02])('a zero that adds %d mm to a pass, while it is asked', (addedMm) => {
  const told = reeds.map((reed) => {
    const [first, second] = reed.passes;
    const readings = second!.readings.map((one) => ({ ...one, thicknessMm: one.thicknessMm + addedMm }));
    const passes = [first!, { ...second!, readings }];
    const found = findFaults(passes, faultOptions({ passes, options }));
    const open = whileOpen(passes, found, options);
    return { reed, passes, found, model: fitReed(open.passes, open.options) };
  });

  it('is found', () => {
    for (const { found } of told) expect(found[1]!.faults.map(({ kind }) => kind)).toContain('zero');
  });

  it('leaves removed zones covered in nine of ten, which as written are mostly not', () => {
    const share = (of: readonly ReturnType<typeof removedZones>[number][]) =>
      of.filter(({ valueMm, uMm, trueMm }) => Math.abs(valueMm - trueMm) <= 1.96 * uMm).length / of.length;
    const asWritten = told.flatMap(({ reed, passes }) => removedZones(reed, fitReed(passes, options)));
    expect(share(told.flatMap(({ reed, model }) => removedZones(reed, model)))).toBeGreaterThanOrEqual(0.9);
    expect(share(asWritten)).toBeLessThan(0.5);
  });

  it('makes figures as wide as its two answers lie apart, and settling it narrows them again', () => {
    for (const { reed, model, found } of told) {
      const value = found[1]!.faults.find(({ kind }) => kind === 'zero')!.valueMm!;
      const settled = fitReed(reed.passes, options);
      removedZones(reed, model).forEach(({ uMm }, i) => {
        const narrow = removedZones(reed, settled)[i]!.uMm;
        // Other passes' readings hold a part of it back.
        expect(1.96 * uMm).toBeGreaterThan(0.5 * Math.abs(value));
        expect(narrow).toBeLessThan(uMm / 1.5);
      });
    }
  });
});
