import { expect, it } from 'vitest';
import type { Gauge } from '../../shared/gauge.ts';
import { LONG_SCRAPE, STARTING_STYLES } from '../../src/blade/starting-styles.ts';
import { judgeGauge, zeroLimitMm } from '../../src/gauge/judge-gauge.ts';
import { zoneSlopes } from '../../src/gauge/zone-slopes.ts';
import { idOf } from './round/acts.ts';

const gauge: Gauge = {
  kind: 'gauge',
  formatVersion: 1,
  id: idOf(1),
  versions: {},
  createdAt: '2026-03-01T20:00:00+01:00',
  updatedAt: '2026-03-01T20:00:00+01:00',
  name: 'Dial',
  stepMm: 0.001,
  checks: [],
  repeatStudies: [],
};

it('finds the smallest believable change of each place within what makers expect', () => {
  // Common practice, no source: about 0.015 to 0.02 on the heart, 0.02 to 0.025 at the tip, 0.035 to 0.055 on the blend.
  const by = Object.fromEntries(judgeGauge(gauge).believable.map(({ name, changeMm }) => [name, changeMm]));
  expect(by['Heart']).toBeGreaterThan(0.015);
  expect(by['Heart']).toBeLessThan(0.02);
  expect(by['Tip']).toBeGreaterThan(0.02);
  expect(by['Tip']).toBeLessThan(0.025);
  expect(by['Blend']).toBeGreaterThan(0.035);
  expect(by['Blend']).toBeLessThan(0.055);
});

it('takes the scatter from repeats before anything declared', () => {
  const stations = [
    [0.45, 0.454, 0.448, 0.452, 0.446],
    [0.4, 0.406, 0.398, 0.404, 0.402],
  ];
  const judged = judgeGauge({
    ...gauge,
    seatingSdMm: 0.02,
    repeatStudies: [{ takenAt: '2026-03-01T20:00:00+01:00', stations }],
  });
  expect(judged.from).toBe('repeats');
  expect(judged.dof).toBe(8);
  // Pooled standard deviation of the ten readings about their own means: sqrt((0.00004 + 0.00004) / 8) = 0.0032.
  expect(judged.sdMm).toBeCloseTo(0.0032, 3);
  expect(judgeGauge({ ...gauge, seatingSdMm: 0.02 })).toMatchObject({ from: 'declared', sdMm: 0.02 });
});

it('splits what spoils a reading by cause, and the causes make up the bar', () => {
  const checks = [
    {
      takenAt: '2026-03-01T20:00:00+01:00',
      known: [0.1, 0.5].map((nominalMm) => ({ nominalMm, nominalUMm: 0.001, shownMm: [nominalMm] })),
    },
  ];
  const level = { title: 'Heart', slope: { along: 0.02, across: 0.01 }, thicknessMm: 0.45 };
  const [heart] = judgeGauge({ ...gauge, stepMm: 0.01, seatingSdMm: 0.005, checks }, [level]).believable;
  const { step, seating, placement, zero, line } = heart!.causes;
  // By hand: 0.01 / sqrt(12); sqrt(0.005^2 - step^2); 0.15 mm on 0.02 and 0.05 mm on 0.01.
  expect(step).toBeCloseTo(0.0028868, 7);
  expect(seating).toBeCloseTo(0.0040825, 7);
  expect(placement).toBeCloseTo(Math.hypot(0.003, 0.0005), 10);
  // Three drops of the ball, read once to the step.
  expect(zero).toBeCloseTo(Math.hypot(0.0028868, 0.0040825 / Math.sqrt(3)), 7);
  // Each point errs by hypot(0.001, step, 0.005) = 0.0058595; two of them 0.4 apart; 0.45 mm of cane.
  expect(line).toBeCloseTo(((0.0058595 * Math.SQRT2) / 0.4) * 0.45, 6);
  // Repeatability limit of ISO 5725-6 over all of them.
  const all = Math.sqrt([step, seating, placement, zero, line].reduce((sum, u) => sum + u * u, 0));
  expect(heart!.changeMm).toBeCloseTo(1.959964 * Math.SQRT2 * all, 9);
});

it('calls a zero odd beyond three of its standard uncertainties', () => {
  // By hand: step 0.0028868, seating 0.0040825 over three drops 0.0023570; together 0.0037268, three times 0.0111803.
  expect(zeroLimitMm(judgeGauge({ ...gauge, stepMm: 0.01, seatingSdMm: 0.005 }))).toBeCloseTo(0.0111803, 6);
});

it('judges every zone of a style by how steep its usual finished reed is there', () => {
  for (const style of STARTING_STYLES) {
    const judged = judgeGauge(gauge, zoneSlopes(style)).believable.map(({ name }) => name);
    expect([...judged].sort()).toEqual(style.zones.map(({ title }) => title).sort());
  }
});

it('takes a slope from the thickness that is usual in a zone', () => {
  // By hand from the long scrape's table: from 14 to 18 mm the middle rises 0.02 in 4 mm; between the middle and 0.4 of a half
  // width of 7 x 0.727 / 2 = 2.54 mm at 16.5 mm it falls by about 0.11.
  const outline = [14.5, 17.5].flatMap((fromTipMm, k) =>
    [0.3, -0.3].map((u) => ({ fromTipMm, across: k === 0 ? u : -u, hangsFrom: 'tip' as const })),
  );
  const [spine] = zoneSlopes({ ...LONG_SCRAPE, zones: [{ name: 'own', title: 'Own', outlines: [outline] }] });
  expect(spine!.slope.along).toBeCloseTo(0.005, 3);
  expect(spine!.slope.across).toBeCloseTo(0.11 / (0.4 * 2.6), 2);
  expect(spine!.thicknessMm).toBeGreaterThan(0.45);
  expect(spine!.thicknessMm).toBeLessThan(0.53);
});

it('leaves a zone out that has no area', () => {
  expect(zoneSlopes({ ...LONG_SCRAPE, zones: [{ name: 'none', title: 'None', outlines: [] }] })).toEqual([]);
});
