import { expect, it } from 'vitest';
import type { JudgedPass } from '../../../src/faults/explanation.ts';
import { findFaults } from '../../../src/faults/find-faults.ts';
import { seededRandom } from '../../seeded-random.ts';

/** A reed by a formula, mm, steep at the tip: what it reads when its true tip is further on than is written by so much. */
const read = (blade: string, y: number, across: number) =>
  0.08 + 0.5 * (1 - Math.exp(-y / 5)) - 0.08 * across ** 2 + (blade === 'A' ? 0.06 : -0.03) * across;
function pass(index: number, overallLengthMm: number, shiftMm: number): JudgedPass {
  const random = seededRandom(index + 3);
  const error = () => 0.004 * (Array.from({ length: 12 }, random).reduce((sum, r) => sum + r) - 6);
  const rows = Array.from({ length: 14 }, (_, k) => k + 1);
  const readings = rows.flatMap((fromTipMm) =>
    [-0.4, 0, 0.4].flatMap((across) =>
      (['A', 'B'] as const).map((blade) => ({
        ...{ blade, fromTipMm, across, noiseFactor: 1, repeats: 1 },
        thicknessMm: Math.round(100 * (read(blade, fromTipMm + shiftMm, across) + error())) / 100,
      })),
    ),
  );
  return { index, overallLengthMm, readings, controls: [] };
}
const kinds = (...passes: JudgedPass[]) =>
  findFaults(passes, { stepMm: 0.01 }).map(({ faults }) => faults.map(({ kind, orElse }) => [kind, orElse]));
const either = [
  ['clip', ['shifted']],
  ['shifted', ['clip']],
];

it('a pass that reads as from 0.6 mm further on was clipped, or its stop slipped', () => {
  expect(kinds(pass(0, 70, 0), pass(1, 70, 0.6))).toEqual([[], either]);
});

it.each([
  // The next pass reads as the first did, at the same length: nothing was cut.
  [70, 0, 'shifted'],
  // The next pass has the length that the clip left, or was written with the old one again.
  [69.4, 0.6, 'clip'],
  [70, 0.6, 'clip'],
])('the pass after, written %d mm long, tells which: %d mm further on is %s', (lengthMm, shiftMm, kept) => {
  expect(kinds(pass(0, 70, 0), pass(1, 70, 0.6), pass(2, lengthMm, shiftMm))).toEqual([
    [],
    [[kept, undefined]],
    [],
  ]);
});
