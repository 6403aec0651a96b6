import { expect, it } from 'vitest';
import type { Pass } from '../../../shared/pass.ts';
import { olderReadings } from '../../../src/round/older-readings.ts';
import { idOf } from './acts.ts';

const pass = (index: number, overallLengthMm: number, readings: Pass['readings']): Pass => ({
  kind: 'pass',
  formatVersion: 1,
  id: idOf(index),
  versions: { [idOf(9)]: 1 },
  createdAt: '2026-03-01T20:00:00+01:00',
  updatedAt: '2026-03-01T20:00:00+01:00',
  reedId: idOf(8),
  index,
  overallLengthMm,
  remedies: [],
  readings,
});
const reading = (fromTipMm: number, thicknessMm: number, repeat = 0) => ({
  blade: 'A' as const,
  fromTipMm,
  across: 0,
  thicknessMm,
  repeat,
  flag: 'ok' as const,
  role: 'station' as const,
});

it('gives the latest earlier reading of each place, where it lies now', () => {
  const older = olderReadings(
    [
      pass(1, 70.5, [reading(4, 0.34), reading(4, 0.36, 1)]),
      pass(0, 70.9, [reading(4.4, 0.38), reading(8.4, 0.5), reading(0.2, 0.07)]),
    ],
    70.5,
  );
  expect(older.map(({ fromTipMm, thicknessMm, passIndex }) => [fromTipMm, thicknessMm, passIndex])).toEqual([
    [4, 0.34, 1],
    [8, 0.5, 0],
  ]);
});

it('takes lengths that differ by no more than they repeat for the same length', () => {
  expect(olderReadings([pass(0, 70.6, [reading(4, 0.3)])], 70.5)[0]?.fromTipMm).toBe(4);
  expect(olderReadings([pass(0, 70.6, [reading(4, 0.3)])], undefined)[0]?.fromTipMm).toBe(4);
});
