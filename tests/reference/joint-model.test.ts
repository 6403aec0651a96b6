import { describe, expect, it } from 'vitest';
import { rectangleZone } from '../../src/blade/zones.ts';
import { combine, estimate, pointFunctional, valueMm } from '../../src/figures/functional.ts';
import { removedAt } from '../../src/figures/removed.ts';
import { meanOver, zoneArea } from '../../src/figures/zone-mean.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import { fitPlainly } from '../../src/surface/plain-model.ts';
import type { FitPass, ReedModel } from '../../src/surface/reed-model.ts';
import { familyReed, FAMILY_GAUGES } from '../generator/family-reed.ts';
import { readSample } from '../read-sample.ts';
import { seededRandom } from '../seeded-random.ts';

// Invented reeds whose truth stands beside them (tests/samples/passes): file by file, what fitting jointly must gain.
const share = (hits: readonly boolean[]) => hits.filter(Boolean).length / hits.length;
const rms = (errors: readonly number[]) =>
  Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length);
const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;
const median = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;

function stationHalves(model: ReedModel, passes: readonly FitPass[]): number[] {
  return passes.flatMap(({ readings }, pass) =>
    readings.map(({ blade, fromTipMm, across }) => {
      const point = pointFunctional(model, { blade, pass, fromTipMm, across });
      return 1.96 * estimate(model, point).uMm;
    }),
  );
}

describe('half-width of the 95 % interval at stations', () => {
  it.each([
    ['plain', 0.0095],
    ['clip', 0.0095],
    ['partial', 0.0095],
    ['fine', 0.004],
  ])('is narrow with one full pass of %s', (name, limit) => {
    const { passes, truth } = readSample(name);
    const model = fitReed(passes.slice(0, 1), { placementMm: truth.position_sd_mm });
    expect(median(stationHalves(model, passes.slice(0, 1)))).toBeLessThanOrEqual(limit);
  });
});

it.each(['plain', 'clip', 'partial', 'fine', 'zero', 'typo'])(
  'knows the noise of one reading in %s',
  (name) => {
    const { passes, truth } = readSample(name);
    expect(Math.abs(fitReed(passes).noiseMm.A! / truth.reading_noise_mm - 1)).toBeLessThan(0.15);
  },
);

const FILES = ['plain', 'clip', 'partial', 'fine'] as const;
type File = (typeof FILES)[number];
const fitted = new Map(
  FILES.map((name) => {
    const sample = readSample(name);
    return [name, { ...sample, model: fitReed(sample.passes) }];
  }),
);

/** What was taken off at a truth file's places, and what really was. */
function removedIn(name: File) {
  const { passes, truth, model } = fitted.get(name)!;
  return truth.passes.flatMap(({ samples_mm, scraped }, after) =>
    after === 0
      ? []
      : samples_mm.map(({ blade, y, u }) => {
          const fromFirstTip = passes[0]!.overallLengthMm - passes[after]!.overallLengthMm + y;
          const expected = scraped[blade].reduce(
            (sum, [cy, cu, ly, lu, deep]) =>
              sum + deep * Math.exp(-0.5 * (((fromFirstTip - cy) / ly) ** 2 + ((u - cu) / lu) ** 2)),
            0,
          );
          const { valueMm: value, uMm } = estimate(
            model,
            removedAt(model, { before: after - 1, after }, blade, y, u),
          );
          return { after, blade, y, u, expected, value, half: 1.96 * uMm, error: value - expected };
        }),
  );
}

type RemovedPlace = ReturnType<typeof removedIn>[number];
const isScraped = ({ expected }: RemovedPlace) => expected > 0.005;

describe.each(FILES)('what was taken off in %s', (name) => {
  const places = removedIn(name);

  it('is not shrunk where the knife was', () => {
    const scraped = places.filter(isScraped);
    const bias = mean(scraped.map(({ error }) => error)) / mean(scraped.map(({ expected }) => expected));
    expect(Math.abs(bias)).toBeLessThan(0.15);
    expect(share(scraped.map(({ error, half }) => Math.abs(error) < half))).toBeGreaterThanOrEqual(0.85);
  });

  it('is not called measurable where nothing went', () => {
    const untouched = places.filter(({ expected }) => expected < 0.0002);
    expect(share(untouched.map(({ value, half }) => Math.abs(value) > half))).toBeLessThanOrEqual(0.05);
  });
});

/** Root mean square error of subtracting two fits, at places of `removedIn`. */
function errorApart(name: File, fits: readonly ReedModel[], places: readonly RemovedPlace[]): number {
  const { passes } = fitted.get(name)!;
  const errors = places.map(({ after, blade, y, u, expected }) => {
    const clipped = passes[after - 1]!.overallLengthMm - passes[after]!.overallLengthMm;
    const at = (fit: ReedModel, fromTipMm: number) =>
      valueMm(fit, pointFunctional(fit, { blade, pass: 0, fromTipMm, across: u }));
    return at(fits[after - 1]!, y + clipped) - at(fits[after]!, y) - expected;
  });
  return rms(errors);
}

// Two fits that know nothing of each other: the same model pass by pass, or the plain smoother by restricted likelihood,
// which the reference files check against mgcv. In partial they know nothing of most places.
describe.each(['plain', 'clip'] as const)('beside two fits of single passes of %s', (name) => {
  const { passes, model } = fitted.get(name)!;
  const seating = { sdMm: model.noiseMm.A!, from: 'study' } as const;
  const placementMm = model.noise.alongMm;
  const alone = passes.map((pass) => fitReed([pass], { seating, placementMm }));
  const smoothed = passes.map(fitPlainly);
  const places = removedIn(name);
  const scraped = places.filter(isScraped);
  const jointly = (of: readonly RemovedPlace[]) => rms(of.map(({ error }) => error));

  it('what was taken off is nearer the truth by 13 % and more', () => {
    expect(jointly(places)).toBeLessThanOrEqual(0.87 * errorApart(name, alone, places));
    expect(jointly(places)).toBeLessThanOrEqual(0.87 * errorApart(name, smoothed, places));
  });

  it('it is no further from the truth than by plain fits where the knife was', () => {
    expect(jointly(scraped)).toBeLessThanOrEqual(errorApart(name, smoothed, scraped));
  });
});

// One file has few scraped places; six reeds of several families, by a fine gauge and sure hands, have hundreds.
it('what was taken off is nearer the truth than by two fits of single passes, of many reeds', () => {
  const families = ['usual', 'sharp', 'slow', 'short', 'mixed', 'place'] as const;
  const sums = { jointly: 0, alone: 0, smoothed: 0 };
  for (let k = 0; k < 6; k++) {
    const settings = { family: families[k % 6]!, gauge: 'fine', extent: 'full', count: 2 } as const;
    const reed = familyReed({ ...settings, handMm: [0.02, 0.05][k % 2]!, seed: 8900 + k });
    const options = { stepMm: FAMILY_GAUGES.fine.stepMm };
    const model = fitReed(reed.passes, options);
    const known = {
      ...options,
      seating: { sdMm: model.noiseMm.A!, from: 'study' },
      placementMm: model.noise.alongMm,
    } as const;
    const alone = reed.passes.map((pass) => fitReed([pass], known));
    const smoothed = reed.passes.map((pass) => fitPlainly(pass));
    const clipped = reed.passes[0]!.overallLengthMm - reed.passes[1]!.overallLengthMm;
    for (let y = 1; y < 19; y += 1.4)
      for (let across = -0.7; across < 0.8; across += 0.35) {
        const at = (fit: ReedModel, fromTipMm: number) =>
          valueMm(fit, pointFunctional(fit, { blade: 'A', pass: 0, fromTipMm, across }));
        const apart = (fits: readonly ReedModel[]) => at(fits[0]!, y + clipped) - at(fits[1]!, y);
        const trueMm = reed.removedMm('A', 1, y, across);
        const joint = estimate(model, removedAt(model, { before: 0, after: 1 }, 'A', y, across)).valueMm;
        sums.jointly += (joint - trueMm) ** 2;
        sums.alone += (apart(alone) - trueMm) ** 2;
        sums.smoothed += (apart(smoothed) - trueMm) ** 2;
      }
  }
  const times = (other: number) => Math.sqrt(sums.jointly / other);
  expect(times(sums.alone)).toBeLessThan(0.7);
  expect(times(sums.smoothed)).toBeLessThan(0.7);
});

const ROWS_MM = [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20];
const ACROSS = [-0.8, -0.4, 0, 0.4, 0.8];

/** A blade with tip, ridge, channels and spine; thickness in mm. Invented. */
function inventedThickness(y: number, u: number): number {
  const x = (y - 4.6 - 0.4 * u * u) / 0.9;
  const rise = (1 + x / Math.sqrt(1 + x * x)) / 2;
  const channel = y > 8 ? 0.05 / (1 + ((Math.abs(u) - 0.42) / 0.2) ** 2) : 0;
  return 0.08 + 0.03 * y * (1 - rise) + 0.37 * rise - 0.05 * u * u - channel;
}

function readPass(index: number, rows: readonly number[], columns: readonly number[], noise: () => number) {
  return {
    index,
    overallLengthMm: 70,
    bladeLengthMm: 23,
    halfWidthMm: (fromTipMm: number) => (7 - 0.09 * fromTipMm) / 2,
    readings: (['A', 'B'] as const).flatMap((blade) =>
      rows.flatMap((fromTipMm) =>
        columns.map((across) => ({
          blade,
          fromTipMm,
          across,
          thicknessMm: Math.round(100 * (inventedThickness(fromTipMm, across) + noise())) / 100,
          repeats: 1,
          noiseFactor: 1,
        })),
      ),
    ),
  };
}

it('covers zero where the knife never was: removal is not cut off at zero, so that its doubt stays symmetric', () => {
  const hits: boolean[] = [];
  const values: number[] = [];
  for (let seed = 1; seed <= 6; seed++) {
    const random = seededRandom(seed);
    // Sum of twelve uniforms: close to normal.
    const noise = () => 0.004 * (Array.from({ length: 12 }, random).reduce((a, b) => a + b, 0) - 6);
    const model = fitReed([0, 1, 2].map((index) => readPass(index, ROWS_MM, ACROSS, noise)));
    for (const after of [1, 2]) {
      for (const y of [1.5, 4.5, 7, 11, 15]) {
        for (const u of [-0.6, 0, 0.4]) {
          const { valueMm, uMm } = estimate(model, removedAt(model, { before: after - 1, after }, 'A', y, u));
          hits.push(Math.abs(valueMm) < 1.96 * uMm);
          values.push(valueMm);
        }
      }
    }
  }
  expect(share(hits)).toBeGreaterThanOrEqual(0.95);
  expect(Math.abs(mean(values))).toBeLessThan(0.001);
});

it('leaves the mean of a zone as unsure as the zero, and left against right sure, as readings grow without end', () => {
  const rows = [0.5, 2, 3.5, 4.5, 5.5, 6.5, ...Array.from({ length: 13 }, (_, i) => 8 + i)];
  const columns = Array.from({ length: 10 }, (_, j) => -1 + (2 * j) / 9);
  const pass = readPass(0, rows, columns, () => 0);
  const zero = 0.002;
  const doubts = [1, 1e6].map((repeats) => {
    const readings = pass.readings.map((reading) => ({
      ...reading,
      thicknessMm: inventedThickness(reading.fromTipMm, reading.across),
      repeats,
    }));
    const model = fitReed([{ ...pass, readings }], {
      stepMm: 0.01,
      seating: { sdMm: 0.005, from: 'study' },
      shared: { zeroMm: zero, swelling: 0, lengthMm: 0 },
    });
    const zone = rectangleZone('back', 10.5, 17);
    const side = (blade: 'A' | 'B', which: 'left' | 'right') =>
      meanOver(model, blade, 0, zoneArea(zone, pass, which))!;
    const hand = combine([
      [0.5, side('A', 'right')],
      [0.5, side('B', 'right')],
      [-0.5, side('A', 'left')],
      [-0.5, side('B', 'left')],
    ]);
    const whole = meanOver(model, 'A', 0, zoneArea(zone, pass))!;
    return { mean: estimate(model, whole).uMm, hand: estimate(model, hand).uMm };
  });
  expect(doubts[1]!.hand).toBeLessThan(doubts[0]!.hand / 5);
  expect(doubts[1]!.hand).toBeLessThan(0.0001);
  expect(doubts[1]!.mean / zero).toBeCloseTo(1, 2);
});

it('stays calm with five readings on a blade: near them, and unsure away from them', () => {
  const pass = readPass(0, [1], [0], () => 0);
  const readings = [
    [1, 0],
    [3, 0],
    [7, 0],
    [12, -0.4],
    [12, 0.4],
  ].map(([fromTipMm, across]) => ({
    ...pass.readings[0]!,
    fromTipMm: fromTipMm!,
    across: across!,
    thicknessMm: inventedThickness(fromTipMm!, across!),
  }));
  const model = fitReed([{ ...pass, readings }]);
  for (let y = 0; y <= 20; y += 2) {
    for (const u of [-1, 0, 1]) {
      const { valueMm, uMm } = estimate(
        model,
        pointFunctional(model, { blade: 'A', pass: 0, fromTipMm: y, across: u }),
      );
      expect(valueMm).toBeGreaterThan(-0.2);
      expect(valueMm).toBeLessThan(0.9);
      expect(Math.abs(valueMm - inventedThickness(y, u))).toBeLessThan(3 * uMm);
    }
  }
});
