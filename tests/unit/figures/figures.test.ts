import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LONG_SCRAPE, SHORT_SCRAPE } from '../../../src/blade/starting-styles.ts';
import { floorAt } from '../../../src/blade/floors.ts';
import { placeZones, rectangleZone } from '../../../src/blade/zones.ts';
import { centreLine, crossing } from '../../../src/figures/crossing.ts';
import { combine, estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { ratio } from '../../../src/figures/ratio.ts';
import { meanRemovedOver, removedAt } from '../../../src/figures/removed.ts';
import { meanOver, zoneArea } from '../../../src/figures/zone-mean.ts';
import { zoneFigures } from '../../../src/figures/zone-figures.ts';
import { mapGrid, mirroredMap, onMap, removedMap, thicknessMap } from '../../../src/figures/surface-map.ts';
import { measurable } from '../../../src/figures/measurable.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import { figuresOf } from '../../../src/surface/posterior-figures.ts';
import { fitPlainly } from '../../../src/surface/plain-model.ts';
import type { FitPass, FitReading, ReedModel } from '../../../src/surface/reed-model.ts';
import { readSample } from '../../read-sample.ts';

const plain = readSample('plain').passes.slice(0, 2);
const model = fitReed(plain);
const zone = rectangleZone('heart', 5.5, 8.5);

const changed = (change: (reading: FitReading) => FitReading): FitPass[] =>
  plain.map((pass) => ({ ...pass, readings: pass.readings.map(change) }));
const contrasts = (of: typeof model) => zoneFigures(of, 1, zone).balance!;

describe('balance', () => {
  it('turns the blade and side contrasts round when the blades are swapped, and keeps the hand', () => {
    const swapped = fitReed(changed((reading) => ({ ...reading, blade: reading.blade === 'A' ? 'B' : 'A' })));
    const [before, after] = [contrasts(model), contrasts(swapped)];
    expect(after.blade.valueMm).toBeCloseTo(-before.blade.valueMm, 9);
    expect(after.side.valueMm).toBeCloseTo(-before.side.valueMm, 9);
    expect(after.hand.valueMm).toBeCloseTo(before.hand.valueMm, 9);
  });

  it('turns the hand and side contrasts round when both blades are mirrored', () => {
    const mirrored = fitReed(changed((reading) => ({ ...reading, across: 0 - reading.across })));
    const [before, after] = [contrasts(model), contrasts(mirrored)];
    expect(after.blade.valueMm).toBeCloseTo(before.blade.valueMm, 5);
    expect(after.side.valueMm).toBeCloseTo(-before.side.valueMm, 5);
    expect(after.hand.valueMm).toBeCloseTo(-before.hand.valueMm, 5);
  });

  it('does not feel an unsure zero, which the mean feels in full', () => {
    const single = fitReed(plain.slice(0, 1));
    const unsure = fitReed(plain.slice(0, 1), { shared: { zeroMm: 0.02, swelling: 0.005, lengthMm: 0.05 } });
    const [sure, doubtful] = [single, unsure].map((of) => zoneFigures(of, 0, zone));
    expect(doubtful!.mean!.uMm).toBeGreaterThan(0.0199);
    expect(sure!.mean!.uMm).toBeLessThan(0.004);
    expect(doubtful!.balance!.hand.uMm).toBeCloseTo(sure!.balance!.hand.uMm, 4);
  });
});

describe('zone means', () => {
  it('add up when a zone is split', () => {
    const whole = zoneArea(zone, model.passes[1]!);
    const parts = [rectangleZone('one', 5.5, 6.7), rectangleZone('two', 6.7, 8.5)].map((part) =>
      zoneArea(part, model.passes[1]!),
    );
    const joined = combine(
      parts.map((part) => [part.areaMm2 / whole.areaMm2, meanOver(model, 'A', 1, part)!]),
    );
    const expected = estimate(model, meanOver(model, 'A', 1, whole)!);
    expect(whole.areaMm2).toBeCloseTo(parts[0]!.areaMm2 + parts[1]!.areaMm2, 9);
    expect(estimate(model, joined).valueMm).toBeCloseTo(expected.valueMm, 5);
    expect(estimate(model, joined).uMm).toBeCloseTo(expected.uMm, 4);
  });

  it('have the area of a trapezium whose width narrows from the tip', () => {
    // Width 7 - 0.09 y: exact integral from 5.5 to 8.5.
    expect(zoneArea(zone, model.passes[1]!).areaMm2).toBeCloseTo(
      (7 * 3 - (0.09 * (8.5 ** 2 - 5.5 ** 2)) / 2) / 1,
      9,
    );
  });
});

it('adds up what several passes took', () => {
  const { passes } = readSample('clip');
  const many = fitReed(passes);
  const last = passes.length - 1;
  const area = zoneArea(rectangleZone('back', 10, 16), many.passes[last]!);
  const whole = estimate(many, meanRemovedOver(many, { before: 0, after: last }, 'B', area)!);
  const sum = Array.from({ length: last }, (_, before) => {
    const moved = passes[before + 1]!.overallLengthMm - passes[last]!.overallLengthMm;
    const nodes = area.nodes.map((node) => ({ ...node, x: node.x + moved }));
    return estimate(many, meanRemovedOver(many, { before, after: before + 1 }, 'B', { ...area, nodes })!)
      .valueMm;
  }).reduce((total, value) => total + value, 0);
  expect(sum).toBeCloseTo(whole.valueMm, 9);
});

it('gives back a plane that the readings lie on', () => {
  const plane = (y: number, u: number) => 0.2 + 0.012 * y - 0.03 * u;
  const passes = changed((r) => ({ ...r, thicknessMm: plane(r.fromTipMm, r.across) })).slice(0, 1);
  const flat = fitReed(passes, { stepMm: 0.001, seating: { sdMm: 0.0005, from: 'declared' } });
  fc.assert(
    fc.property(
      fc.double({ min: 0.5, max: 20, noNaN: true }),
      fc.double({ min: -0.8, max: 0.8, noNaN: true }),
      (y, u) => {
        const at = pointFunctional(flat, { blade: 'A', pass: 0, fromTipMm: y, across: u });
        expect(Math.abs(estimate(flat, at).valueMm - plane(y, u))).toBeLessThan(0.002);
      },
    ),
  );
});

describe('few readings', () => {
  it('give a flat-ish surface with wide bands', () => {
    const five = plain[0]!.readings.filter((_, i) => [0, 22, 37, 52, 69].includes(i));
    const poor = fitReed([{ ...plain[0]!, readings: five }]);
    for (let y = 0; y <= 22; y += 2) {
      const { valueMm, uMm } = estimate(
        poor,
        pointFunctional(poor, { blade: 'A', pass: 0, fromTipMm: y, across: 0.5 }),
      );
      expect(valueMm).toBeGreaterThan(-0.1);
      expect(valueMm).toBeLessThan(0.8);
      expect(uMm).toBeGreaterThan(0.01);
    }
    expect(poor.blades.B).toBeUndefined();
  });

  it('are refused when there are none', () => {
    expect(() => fitReed([{ ...plain[0]!, readings: [] }])).toThrow('passes: must hold readings');
  });
});

describe('lines and ratios', () => {
  it('finds where the centre passes 0.30 and agrees with the thickness there', () => {
    const found = crossing(model, 1, centreLine(model), 0.3)!;
    const there = combine(
      (['A', 'B'] as const).map((blade) => [
        0.5,
        pointFunctional(model, { blade, pass: 1, fromTipMm: found.valueMm, across: 0 }),
      ]),
    );
    expect(estimate(model, there).valueMm).toBeCloseTo(0.3, 9);
    expect(found.uMm).toBeGreaterThan(0);
    expect(crossing(model, 1, centreLine(model), 0.9)).toBeUndefined();
  });

  it('makes the ratio of a figure to itself exactly one, without doubt', () => {
    const figure = meanOver(model, 'A', 1, zoneArea(zone, model.passes[1]!))!;
    const { value, u } = ratio(model, figure, figure);
    expect(value).toBe(1);
    expect(u).toBeLessThan(1e-9);
  });

  it('gives the impedance of the GUM’s example H.2 with its uncertainty', () => {
    // Potential difference 4.9990 V, u 0.0032; current 19.6610 mA, u 0.0095; correlation -0.36 (values from memory).
    const [uV, uI] = [0.0032, 0.0095];
    const together = -0.36 * uV * uI;
    const posterior = {
      mean: Float64Array.of(4.999, 19.661),
      covariance: Float64Array.of(uV * uV, together, together, uI * uI),
      loadings: new Float64Array(0),
    };
    const pair: ReedModel = {
      ...model,
      blades: { A: posterior },
      together: (_, figures) =>
        figuresOf(
          posterior,
          figures.map(([term]) => term!.weights),
        ),
      sharedCovariance: new Float64Array(0),
    };
    const of = (...weights: number[]) => ({ A: [{ pass: 0, weights: Float64Array.from(weights) }] });
    const { value, u } = ratio(pair, of(1, 0), of(0, 1));
    // 254.26 ohm, u 0.236: half of the last printed digit, and for u as much again for the correlation's.
    expect(Math.abs(1000 * value - 254.26)).toBeLessThan(0.005);
    expect(Math.abs(1000 * u - 0.236)).toBeLessThan(0.001);
  });
});

describe('maps', () => {
  const grid = mapGrid(20, 11, 9);

  const at = (fromTipMm: number, across: number, pass: number) => ({
    blade: 'B' as const,
    pass,
    fromTipMm,
    across,
  });
  const plainModel = fitPlainly(plain[0]!);
  const clipped = fitReed(readSample('clip').passes.slice(0, 2));
  const mirror = (of: ReedModel, y: number, u: number) =>
    combine([
      [1, pointFunctional(of, at(y, u, 0))],
      [-1, pointFunctional(of, at(y, -u, 0))],
    ]);

  it.each([
    [
      'thickness',
      thicknessMap(model, 'B', 1, grid),
      (y: number, u: number) => pointFunctional(model, at(y, u, 1)),
      model,
    ],
    [
      'plain thickness',
      thicknessMap(plainModel, 'B', 0, grid),
      (y: number, u: number) => pointFunctional(plainModel, at(y, u, 0)),
      plainModel,
    ],
    [
      'removal after a clip',
      removedMap(clipped, 'B', 0, 1, grid),
      (y: number, u: number) => removedAt(clipped, { before: 0, after: 1 }, 'B', y, u),
      clipped,
    ],
    [
      'left against right',
      mirroredMap(model, 'B', 0, grid),
      (y: number, u: number) => mirror(model, y, u),
      model,
    ],
  ])('of %s hold the same values as single places', (_, map, functional, of) => {
    grid.ysMm.forEach((y, i) =>
      grid.us.forEach((u, j) => {
        const expected = estimate(of, functional(y, u));
        // Only the order of the sums differs; next to nothing is left of the doubt on the mirror's own line.
        expect(map.valuesMm[i * 9 + j]).toBeCloseTo(expected.valueMm, 12);
        expect(map.uMm[i * 9 + j]! ** 2).toBeCloseTo(expected.uMm ** 2, 14);
      }),
    );
  });

  it('are read between their places, and at their edge beyond it', () => {
    const plane = { ...grid, valuesMm: new Float64Array(99), uMm: new Float64Array(99).fill(0.002) };
    grid.ysMm.forEach((y, i) =>
      grid.us.forEach((u, j) => (plane.valuesMm[i * 9 + j] = 0.1 + 0.02 * y - 0.05 * u)),
    );
    expect(onMap(plane, 7.3, -0.41).valueMm).toBeCloseTo(0.1 + 0.02 * 7.3 + 0.05 * 0.41, 12);
    expect(onMap(plane, 20, 1).valueMm).toBeCloseTo(0.45, 12);
    expect(onMap(plane, 25, -1.2).valueMm).toBeCloseTo(0.55, 12);
    expect(onMap(plane, 3, 0.2).uMm).toBeCloseTo(0.002, 12);
  });

  it('are odd across when mirrored, and nothing is measurable on the centre line', () => {
    const map = mirroredMap(model, 'A', 1, grid);
    expect(map.valuesMm[9 + 1]).toBeCloseTo(-map.valuesMm[9 + 7]!, 12);
    expect(measurable(map)[9 + 4]).toBe(0);
    for (let row = 0; row < map.ysMm.length; row++) expect(map.valuesMm[9 * row + 4]).toBe(0);
    expect(map.factor()).toBeGreaterThan(2.5);
  });
});

describe('zones of a style', () => {
  it('keep their distance from the tip of each pass, and only the end of the scrape stays with the cane', () => {
    const clipped = [LONG_SCRAPE, SHORT_SCRAPE].flatMap((style) => {
      const frame = { lengths: style.lengths, overallLengthMm: 70.9 };
      const [before, after] = [70.9, 70.5].map((mm) => placeZones(style, frame, mm));
      return before!.flatMap(({ outlines }, zone) =>
        outlines.flatMap((outline, o) =>
          outline.map(([y], corner) => ({
            isBeyond: y >= style.lengths.scrapeEndMm,
            movedMm: after![zone]!.outlines[o]![corner]![0] - y,
          })),
        ),
      );
    });
    for (const { isBeyond, movedMm } of clipped) expect(movedMm).toBeCloseTo(isBeyond ? -0.4 : 0, 9);
    // Spine and rails of a long scrape, catch and bark of a short one: 2 + 4 and 2 + 4 corners.
    expect(clipped.filter(({ isBeyond }) => isBeyond)).toHaveLength(12);
  });

  it('stretch with the lengths of the reed', () => {
    const longer = { lengths: { tipMm: 5, heartEndMm: 11, scrapeEndMm: 21 }, overallLengthMm: 70 };
    const heart = placeZones(LONG_SCRAPE, longer, 70).find(({ name }) => name === 'heart')!;
    expect(heart.outlines[0]![3]![0]).toBeCloseTo(11, 9);
  });

  it('have floors where there is something to guard', () => {
    expect(floorAt(LONG_SCRAPE.floors, 10, 0.4)).toBeCloseTo(0.34, 9);
    expect(floorAt(LONG_SCRAPE.floors, 7, 0)).toBeCloseTo(0.4, 9);
    expect(floorAt(LONG_SCRAPE.floors, 4.5, 0)).toBeUndefined();
    expect(floorAt(SHORT_SCRAPE.floors, 12, 0)).toBeUndefined();
  });
});
