import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Reading } from '../../shared/reading.ts';
import { shownMm } from '../../src/gauge/correct-readings.ts';
import { assembleReed } from '../../src/reed/assemble.ts';
import type { ReadGauge } from '../../src/reed/pass-gauge.ts';

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

  it('is taken as it stands where its gauge is not known', () => {
    expect(thickness([{ ...gauge, id: 'other' as ReadGauge['id'] }])).toBeCloseTo(1.02, 12);
  });
});
