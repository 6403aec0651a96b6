import { describe, expect, it } from 'vitest';
import { rectangleZone } from '../../../src/blade/zones.ts';
import { estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { leastPlace } from '../../../src/figures/least-place.ts';
import { meanAlong, taperAlong } from '../../../src/figures/lines.ts';
import { residualsMm, roughness } from '../../../src/figures/roughness.ts';
import { zoneArea } from '../../../src/figures/zone-mean.ts';
import { normalPairs } from '../../../src/numerics/normal-draws.ts';
import { fitPlainly } from '../../../src/surface/plain-model.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import { readSample } from '../../read-sample.ts';
import { seededRandom } from '../../seeded-random.ts';

const pass = readSample('plain').passes[1]!;
const model = fitPlainly(pass);
const at = (fromTipMm: number) =>
  estimate(model, pointFunctional(model, { blade: 'A', pass: 0, fromTipMm, across: 0 })).valueMm;

describe('a stretch of a blade', () => {
  const stretch = { blade: 'A', pass: 0, across: 0, fromMm: 9, toMm: 17 } as const;

  it('has the mean of its places', () => {
    const fine = Array.from({ length: 4000 }, (_, i) => at(9 + (8 * (i + 0.5)) / 4000));
    const mean = fine.reduce((sum, value) => sum + value, 0) / fine.length;
    expect(estimate(model, meanAlong(model, stretch)).valueMm).toBeCloseTo(mean, 7);
  });

  it('tapers by the difference of its ends', () => {
    const { valueMm } = estimate(model, taperAlong(model, { ...stretch, fromMm: 0.5, toMm: 3.5 }));
    expect(valueMm).toBeCloseTo((at(3.5) - at(0.5)) / 3, 12);
  });
});

describe('the thinnest place', () => {
  const area = zoneArea(rectangleZone('heart', 5.5, 8.5), pass);

  it('is the lowest of the likeliest surface, and repeats for a seed', () => {
    const found = leastPlace(model, 'A', 0, area, seededRandom(1));
    const values = area.nodes.map(
      ({ x, y }) =>
        estimate(model, pointFunctional(model, { blade: 'A', pass: 0, fromTipMm: x, across: y })).valueMm,
    );
    expect(found.valueMm).toBeCloseTo(Math.min(...values), 12);
    expect(leastPlace(model, 'A', 0, area, seededRandom(1))).toEqual(found);
  });

  it('is as unsure as the place itself where there is only one', () => {
    const joint = fitReed([pass]);
    const one = { nodes: area.nodes.slice(0, 1), areaMm2: 1 };
    const { x, y } = one.nodes[0]!;
    const place = { blade: 'A', pass: 0, fromTipMm: x, across: y } as const;
    for (const of of [model, joint]) {
      const { uMm } = estimate(of, pointFunctional(of, place));
      const found = leastPlace(of, 'A', 0, one, seededRandom(2));
      // 300 draws give a standard deviation to 4 %: three of these.
      expect(Math.abs(found.uMm / uMm - 1)).toBeLessThan(0.125);
      expect(found.fromTipUMm).toBe(0);
    }
  });

  it('needs an area', () => {
    expect(() => leastPlace(model, 'A', 0, { nodes: [], areaMm2: 0 }, seededRandom(1))).toThrow('area');
  });
});

describe('roughness', () => {
  it('has the heights of ISO 25178-2', () => {
    // By hand: heights -1, 0, 0, 1 (times 0.01) about their mean.
    const { saMm, sqMm, szMm } = roughness([0.01, 0.02, 0.02, 0.03]);
    expect(saMm).toBeCloseTo(0.005, 15);
    expect(sqMm).toBeCloseTo(0.01 * Math.sqrt(0.5), 15);
    expect(szMm).toBeCloseTo(0.02, 15);
    expect(() => roughness([])).toThrow('at least one');
  });

  it('of the residuals is near the noise that the fit found', () => {
    const readings = pass.readings.filter(({ blade }) => blade === 'A');
    const { sqMm } = roughness(residualsMm(model, 0, readings));
    expect(sqMm).toBeLessThan(model.noiseMm.A!);
    expect(sqMm).toBeGreaterThan(model.noiseMm.A! / 2);
  });
});

it('draws normal numbers', () => {
  const draws = normalPairs(seededRandom(3), 20_001);
  const mean = draws.reduce((sum, x) => sum + x, 0) / draws.length;
  const variance = draws.reduce((sum, x) => sum + x * x, 0) / draws.length;
  // Four standard errors of 20 000 draws.
  expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(draws.length));
  expect(Math.abs(variance - 1)).toBeLessThan(4 * Math.sqrt(2 / draws.length));
});
