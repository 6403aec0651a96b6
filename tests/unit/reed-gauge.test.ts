import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Reading } from '../../shared/reading.ts';
import { BLADES, type Blade } from '../../shared/blade.ts';
import { rectangleZone } from '../../src/blade/zones.ts';
import { combine, estimate } from '../../src/figures/functional.ts';
import { meanOver, zoneArea, type Side } from '../../src/figures/zone-mean.ts';
import { sharedGaugeError, shownMm } from '../../src/gauge/correct-readings.ts';
import { assembleReed } from '../../src/reed/assemble.ts';
import type { ReadGauge } from '../../src/reed/pass-gauge.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';

const reading = (thicknessMm: number, fromTipMm = 7): Reading => ({
  blade: 'A',
  fromTipMm,
  across: 0,
  repeat: 0,
  flag: 'ok',
  role: 'station',
  thicknessMm,
});
const gauge: ReadGauge = {
  id: 'g1' as ReadGauge['id'],
  stepMm: 0.001,
  tongueMm: 0.6,
  checks: [],
  repeatStudies: [],
};
const known = (nominalMm: number, shown: number) => ({ nominalMm, nominalUMm: 0.0005, shownMm: [shown] });
const checked: ReadGauge = {
  ...gauge,
  checks: [{ takenAt: '2026-01-01T10:00:00Z', known: [known(0.1, 0.102), known(0.5, 0.51)] }],
};
const assembled = (gauges: readonly ReadGauge[], pass = {}) =>
  assembleReed({
    reed: { label: 'invented', styleId: 'long-scrape' },
    gauges,
    passes: [{ index: 0, remedies: [], readings: [reading(1.02)], gaugeId: gauge.id, ...pass }],
  });
const thickness = (...of: Parameters<typeof assembled>) =>
  assembled(...of).passes[0]!.readings[0]!.thicknessMm;

describe('a pass read with a gauge that is known', () => {
  it('is freed of zero, tongue and the slope of the calibration line', () => {
    expect(thickness([])).toBeCloseTo(1.02, 12);
    expect(thickness([gauge])).toBeCloseTo(0.42, 12);
    expect(thickness([gauge], { zeroBeforeMm: 0.01, zeroAfterMm: 0.01 })).toBeCloseTo(0.41, 12);
    // Through (0.1, 0.102) and (0.5, 0.51): what shows 0.42 is 0.42 / 1.02.
    expect(thickness([checked])).toBeCloseTo(0.42 / 1.02, 12);
  });

  it('shows again what it was corrected from', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 0.7, noNaN: true }),
        fc.double({ min: -0.05, max: 0.05, noNaN: true }),
        (thicknessMm, zeroBeforeMm) => {
          const state = assembled([checked]).gauges[0]!;
          const shown = shownMm(thicknessMm, { zeroBeforeMm }, state);
          expect(thickness([checked], { readings: [reading(shown)], zeroBeforeMm })).toBeCloseTo(
            thicknessMm,
            12,
          );
        },
      ),
    );
  });

  it('takes its scatter from repeats, then a study, then what is declared, and says which', () => {
    const from = (...of: Parameters<typeof assembled>) => assembled(...of).options.seating?.from;
    const declared = { ...gauge, seatingSdMm: 0.004 };
    const stations = Array.from({ length: 6 }, (_, i) => [0.4, 0.402, 0.399 + i / 1000]);
    const studied = { ...declared, repeatStudies: [{ takenAt: '2026-01-01T10:00:00Z', stations }] };
    const repeated = Array.from({ length: 12 }, (_, i) => [
      reading(1 + i / 100, i + 1),
      { ...reading(1.003 + i / 100, i + 1), repeat: 1 },
    ]).flat();
    expect(from([gauge])).toBeUndefined();
    expect(from([declared])).toBe('declared');
    expect(from([studied])).toBe('study');
    expect(from([studied], { readings: repeated })).toBe('repeats');
  });

  it('is as unsure as its zero and the calibration line, where they are known', () => {
    const zeroOf = (...of: Parameters<typeof assembled>) => assembled(...of).options.zerosMm![0];
    expect(zeroOf([gauge])).toBeUndefined();
    const { zeroVarianceMm2 } = sharedGaugeError({ zeroBeforeMm: 0, zeroAfterMm: 0.01 }, { stepMm: 0.001 });
    expect(zeroOf([gauge], { zeroBeforeMm: 0, zeroAfterMm: 0.01 })).toBe(Math.sqrt(zeroVarianceMm2));
    // Two checks of 0.0005 and the rounding of what was shown: between them the line is surer than either.
    const set = { zeroBeforeMm: 0, zeroAfterMm: 0 };
    const byLine = zeroOf([checked], set)! ** 2 - zeroOf([gauge], set)! ** 2;
    expect(byLine).toBeGreaterThan(0);
    expect(byLine).toBeLessThan(0.0005 ** 2 + 0.001 ** 2 / 12);
  });

  it('leaves the mean of a zone as unsure as its zero, and left against right sure, as readings grow without end', () => {
    const set = { zeroBeforeMm: 0.02, zeroAfterMm: 0.03 };
    const { passes, options } = assembled([gauge], set);
    const rows = [0.5, 2, 3.5, 4.5, 5.5, 6.5, ...Array.from({ length: 13 }, (_, i) => 8 + i)];
    const readings = BLADES.flatMap((blade) =>
      rows.flatMap((fromTipMm) =>
        Array.from({ length: 11 }, (_, j) => ({
          blade,
          fromTipMm,
          across: -1 + j / 5,
          thicknessMm: 0.3 + 0.01 * fromTipMm,
          // As good as without end.
          repeats: 1e6,
          noiseFactor: 1,
        })),
      ),
    );
    const pass = { ...passes[0]!, readings };
    const model = fitReed([pass], { ...options, seating: { sdMm: 0.005, from: 'study' } });
    const zone = rectangleZone('back', 10.5, 17);
    const mean = (blade: Blade, side: Side) => meanOver(model, blade, 0, zoneArea(zone, pass, side))!;
    const hand = combine([
      [0.5, mean('A', 'right')],
      [0.5, mean('B', 'right')],
      [-0.5, mean('A', 'left')],
      [-0.5, mean('B', 'left')],
    ]);
    const { zeroVarianceMm2 } = sharedGaugeError(set, { stepMm: 0.001 });
    expect(estimate(model, mean('A', 'both')).uMm / Math.sqrt(zeroVarianceMm2)).toBeCloseTo(1, 2);
    expect(estimate(model, hand).uMm).toBeLessThan(0.0001);
  });

  it('is taken as it stands where its gauge is not known', () => {
    expect(thickness([{ ...gauge, id: 'other' as ReadGauge['id'] }])).toBeCloseTo(1.02, 12);
  });
});
