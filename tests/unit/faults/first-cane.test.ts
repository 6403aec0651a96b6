import { expect, it } from 'vitest';
import { leftOut } from '../../../src/faults/first-cane.ts';
import { LOG_PLACEMENT_SD } from '../../../src/surface/noise-from-pairs.ts';
import type { FitReading } from '../../../src/surface/reed-model.ts';
import { middlesByRow, slopesByRow } from '../../../src/surface/slopes-by-row.ts';

// A twin by other means: each reading by all others, one system of equations for each; slopes from differences; how likely
// a hand is from readings one after the other.
const readings = [2, 4, 7, 9, 12].flatMap((fromTipMm, row) =>
  [0, 0.5].flatMap((across, k) =>
    (['A', 'B'] as const).map((blade, b): FitReading => {
      const wave = 0.012 * Math.sin(7 * row + 3 * k + 5 * b);
      const thicknessMm = 0.5 * (1 - Math.exp(-fromTipMm / 4)) - 0.1 * across ** 2 + wave;
      return { blade, fromTipMm, across, thicknessMm, noiseFactor: 1 + b, repeats: 1 + 3 * k };
    }),
  ),
);
const n = readings.length;
const PRIOR_MM = 0.3;
const bend = (y: number) => (y > 8 ? 4 + y / 2 : y);
const grown = readings.map(({ fromTipMm }) => Math.max(0.05, middlesByRow(readings).get(fromTipMm)!) / 0.3);
/** Matérn 5/2. */
const near = (by: number, range: number) => {
  const a = (Math.sqrt(5) * Math.abs(by)) / range;
  return (1 + a + a ** 2 / 3) * Math.exp(-a);
};
/** What the cane at a reading's place, moved along by so much, has in common with another reading. */
function together(i: number, j: number, byMm = 0): number {
  const [a, b] = [readings[i]!, readings[j]!];
  const along = bend(a.fromTipMm + byMm) - bend(b.fromTipMm);
  const part = (sd: number, range: number, across: number) =>
    sd ** 2 * near(along, range) * near(a.across - b.across, across);
  const grows = grown[i]! * grown[j]!;
  const own = grows * (part(0.015, 4, 0.9) + part(0.008, 1, 0.35));
  return part(0.18, 3, 4) + grows * part(0.03, 2, 0.3) + (a.blade === b.blade ? own : 0);
}
const off = readings.map(({ thicknessMm }) => thicknessMm - PRIOR_MM);
/** Solves by elimination. */
function solve(rows: readonly (readonly number[])[], right: readonly number[]): number[] {
  const m = rows.map((row, i) => [...row, right[i]!]);
  m.forEach((pivot, i) => {
    m.forEach((row, j) => {
      if (i === j) return;
      const share = row[i]! / pivot[i]!;
      row.forEach((_, k) => (row[k]! -= share * pivot[k]!));
    });
  });
  return m.map((row, i) => row[m.length]! / row[i]!);
}
type Noise = readonly number[];
/** A reading by some others, mm from the prior, and the variance of that. */
function by(i: number, others: readonly number[], noise: Noise, byMm = 0) {
  const rows = others.map((a) => others.map((b) => together(a, b) + (a === b ? noise[a]! : 0)));
  const shared = others.map((j) => together(i, j, byMm));
  const [w, v] = [
    solve(
      rows,
      others.map((j) => off[j]!),
    ),
    solve(rows, shared),
  ];
  const dot = (x: readonly number[]) => shared.reduce((sum, one, k) => sum + one * x[k]!, 0);
  return { mm: dot(w), variance: together(i, i) + noise[i]! - dot(v) };
}
const without = (i: number) => [...readings.keys()].filter((j) => j !== i);
const HANDS = [1 / 3, 0.6, 1, 5 / 3, 7 / 3];
function likeliest(slopesSquared: readonly number[], seatingMm: number, placementMm: number): Noise {
  const tried = HANDS.map((factor) => {
    const noise = readings.map(
      ({ noiseFactor, repeats }, i) =>
        (seatingMm * noiseFactor) ** 2 / repeats + (placementMm * factor) ** 2 * slopesSquared[i]!,
    );
    const cost = readings.reduce(
      (sum, _, i) => {
        const { mm, variance } = by(i, [...Array(i).keys()], noise);
        return sum + 5 * Math.log(1 + (off[i]! - mm) ** 2 / variance / 4) + Math.log(variance);
      },
      (Math.log(factor) / LOG_PLACEMENT_SD) ** 2,
    );
    return { noise, cost };
  });
  return tried.reduce((best, one) => (one.cost < best.cost ? one : best)).noise;
}

it.each([
  [0.005, 0],
  [0.005, 0.15],
  [0.002, 0.1],
  [0.004, 0.4],
])(
  'a reading is expected as all others lead to, by a twin: seating %d mm, placement %d',
  (seatingMm, placementMm) => {
    const ofRow = readings.map(({ fromTipMm }) => slopesByRow(readings).get(fromTipMm)! ** 2);
    const first = likeliest(ofRow, seatingMm, placementMm);
    const atPlace = readings.map((_, i) => {
      const [up, down] = [1e-4, -1e-4].map((mm) => by(i, without(i), first, mm).mm);
      return ((up! - down!) / 2e-4) ** 2 + 0.2 * ofRow[i]!;
    });
    const noise = likeliest(atPlace, seatingMm, placementMm);
    const found = leftOut(readings, { seatingMm, placementMm });
    expect(found).toHaveLength(n);
    found.forEach(({ reading, offMm, uMm, sds }, i) => {
      const { mm, variance } = by(i, without(i), noise);
      expect(reading).toBe(readings[i]);
      expect(offMm).toBeCloseTo(off[i]! - mm, 5);
      expect(uMm).toBeCloseTo(Math.sqrt(variance), 5);
      expect(sds).toBeCloseTo(offMm / uMm, 9);
    });
  },
);
