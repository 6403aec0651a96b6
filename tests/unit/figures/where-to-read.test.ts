import { describe, expect, it } from 'vitest';
import { rectangleZone } from '../../../src/blade/zones.ts';
import { estimate, pointFunctional, valueMm } from '../../../src/figures/functional.ts';
import { meanOver, zoneArea } from '../../../src/figures/zone-mean.ts';
import { readablePlaces, whereToRead, type ReadingPlace } from '../../../src/figures/where-to-read.ts';
import { addReading } from '../../../src/surface/add-reading.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import type { ReedPosterior } from '../../../src/surface/reed-posterior.ts';
import { readSample } from '../../read-sample.ts';

const { passes } = readSample('plain');
/** A pass of few places, as a maker reads between two strokes. */
const quick = {
  ...passes[0]!,
  readings: passes[0]!.readings.filter(
    ({ fromTipMm, across }) => [1, 3, 6, 12, 18].includes(fromTipMm) && [-0.4, 0.4].includes(across),
  ),
};
const model = fitReed([quick]);
const figureOf = (of: ReedPosterior) =>
  meanOver(of, 'A', 0, zoneArea(rectangleZone('heart', 5.5, 8.5), quick))!;
const candidates = readablePlaces(model, 0, 20);

/** The model once a place reads what it is expected to: only the doubt changes. */
function read(of: ReedPosterior, { blade, fromTipMm, across }: ReadingPlace): ReedPosterior {
  const thicknessMm = valueMm(of, pointFunctional(of, { blade, pass: 0, fromTipMm, across }));
  return addReading(of, 0, { blade, fromTipMm, across, thicknessMm, repeats: 1, noiseFactor: 1 })!;
}

describe('where to read next', () => {
  const worth = whereToRead(model, 0, figureOf(model), candidates, 4);

  it('promises the doubt that there is once the places are read', () => {
    let after = model;
    for (const place of worth) {
      after = read(after, place);
      // The rank-one step of one more reading is checked against conditioning elsewhere; here rounding alone differs.
      expect(estimate(after, figureOf(after)).uMm).toBeCloseTo(place.uMm, 9);
    }
  });

  it('names the best of all places, each after those before it', () => {
    const doubts = (of: ReedPosterior) =>
      candidates.map((place) => {
        const after = read(of, place);
        return estimate(after, figureOf(after)).uMm;
      });
    expect(worth[0]!.uMm).toBeCloseTo(Math.min(...doubts(model)), 9);
    expect(worth[1]!.uMm).toBeCloseTo(Math.min(...doubts(read(model, worth[0]!))), 9);
  });

  it('gets as sure with a few places as with many that were not chosen', () => {
    const rest = passes[0]!.readings.filter(
      ({ blade, fromTipMm, across }) =>
        !quick.readings.some((r) => r.blade === blade && r.fromTipMm === fromTipMm && r.across === across),
    );
    const regular = rest.filter((_, i) => i % 6 === 0);
    const many = regular.reduce((of: ReedPosterior, place) => read(of, place), model);
    expect(regular.length).toBeGreaterThanOrEqual(20);
    expect(worth.at(-1)!.uMm).toBeLessThan(estimate(many, figureOf(many)).uMm);
  });

  it('gets as sure of a zone with thirty places as with seventy on each blade', () => {
    const whole = passes[0]!.readings;
    expect(whole.length).toBeGreaterThanOrEqual(140);
    const rest = whole.filter((place) => !quick.readings.includes(place));
    const all = rest.reduce((of: ReedPosterior, place) => read(of, place), model);
    const chosen = whereToRead(model, 0, figureOf(model), candidates, 30 - quick.readings.length);
    const doubt = estimate(all, figureOf(all)).uMm;
    expect(estimate(model, figureOf(model)).uMm).toBeGreaterThan(1.2 * doubt);
    // A whole pass reads its own zero no better, so that what is left is nearly the zero's.
    expect(chosen.at(-1)!.uMm).toBeLessThan(1.05 * doubt);
  });

  it('looks at the blade that the figure is of', () => {
    expect(new Set(worth.map(({ blade }) => blade))).toEqual(new Set(['A']));
  });

  it('needs candidates', () => {
    expect(() => whereToRead(model, 0, figureOf(model), [], 1)).toThrow('candidates');
  });
});
