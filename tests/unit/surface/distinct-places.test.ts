import { expect, it } from 'vitest';
import { addBetween, distinctPlaces, throughPlaces } from '../../../src/surface/distinct-places.ts';
import { removalPrior, removalRow, removalSpace } from '../../../src/surface/removal-space.ts';
import type { FitReading } from '../../../src/surface/reed-model.ts';

const at = (pass: number, zMm: number, across: number) => ({
  pass,
  zMm,
  reading: {
    blade: 'A',
    fromTipMm: 70 - zMm,
    across,
    thicknessMm: 0.4,
    repeats: 1,
    noiseFactor: 1,
  } as FitReading,
});
// The first place is read in both passes, the others in one.
const readings = [at(0, 65, 0), at(0, 62, 0.4), at(1, 65, 0), at(1, 63.5, -0.8)];
const space = removalSpace(50, 70);
const size = space.along.count * space.across.count;
const prior = removalPrior(space, new Float64Array(size).fill(1e-5));

it('gives each reading the covariance of its place, worked out once for each', () => {
  const places = distinctPlaces(readings);
  expect([...places.of]).toEqual([0, 1, 0, 2]);
  const rows = places.last.map((i) => removalRow(space, readings[i]!.zMm, readings[i]!.reading.across));
  const block = throughPlaces(places, rows, prior, -1, { columns: size, firstRow: 2, offset: 0 });
  const k = new Float64Array(16);
  addBetween(k, places, rows, block, -1);
  const dense = readings.map(({ zMm, reading }) => {
    const { index, weight } = removalRow(space, zMm, reading.across);
    const row = new Float64Array(size);
    index.forEach((column, w) => (row[column]! += weight[w]!));
    return row;
  });
  const times = dense.map((row) =>
    Float64Array.from({ length: size }, (_, j) =>
      row.reduce((sum, w, i) => sum + w * prior[i * size + j]!, 0),
    ),
  );
  for (let i = 0; i < 4; i++) {
    for (let c = 0; c < size; c++)
      expect(block.values[i * size + c]).toBeCloseTo(i < 2 ? 0 : -times[i]![c]!, 15);
    for (let j = 0; j <= i; j++) {
      const expected = times[i]!.reduce((sum, w, c) => sum + w * dense[j]![c]!, 0);
      expect(k[i * 4 + j]).toBeCloseTo(j < 2 ? 0 : expected, 15);
    }
  }
});
