import { describe, expect, it } from 'vitest';
import type { Fault, PassFaults } from '../../../src/faults/fault.ts';
import { isOpen, whileOpen } from '../../../src/faults/open-questions.ts';
import type { FitReading } from '../../../src/surface/reed-model.ts';

const reading = (blade: 'A' | 'B', fromTipMm: number, across: number, thicknessMm: number): FitReading => ({
  ...{ blade, fromTipMm, across, thicknessMm, noiseFactor: 1, repeats: 1 },
});
const readings = [
  reading('A', 5, 0.4, 0.5),
  reading('A', 5, -0.4, 0.44),
  reading('A', 5, 0, 0.6),
  reading('B', 5, 0.4, 0.41),
  reading('A', 8, 0.4, 0.55),
];
const pass = { index: 1, bladeLengthMm: 24, overallLengthMm: 70, halfWidthMm: () => 3, readings };
const fault = (kind: Fault['kind'], blade: Fault['blade'], more: Partial<Fault> = {}): Fault => ({
  ...{ kind, blade, grade: 'asked', evidence: 5, ...more },
});
const found = (faults: readonly Fault[], readAgain: PassFaults['readAgain'] = []): PassFaults => ({
  ...{ index: 1, faults, readAgain },
});
const whileAsked = (one: PassFaults) => whileOpen([pass], [one], { stepMm: 0.01 });

/** A seating of 0.004 mm, and a step of 0.01 mm shown. */
const SEATING_MM = Math.hypot(0.004, 0.01 / Math.sqrt(12));
/** How far off each reading may be, mm, from how much noisier it became. */
const apart = (one: PassFaults) =>
  whileAsked(one).passes[0]!.readings.map(({ noiseFactor }) =>
    Number((SEATING_MM * Math.sqrt(noiseFactor ** 2 - 1)).toFixed(9)),
  );

describe('a reading that may be another', () => {
  it('weighs as little as it differs from that of the facing blade, where blades may be swapped', () => {
    expect(apart(found([fault('swapped', 'both')]))).toEqual([0.09, 0, 0, 0.09, 0]);
  });

  it('weighs as little as it differs from that of the other side, where a blade may be mirrored', () => {
    expect(apart(found([fault('mirrored', 'A')]))).toEqual([0.06, 0.06, 0, 0, 0]);
    expect(apart(found([fault('mirrored', 'both')]))).toEqual([0.06, 0.06, 0, 0, 0]);
    expect(apart(found([fault('mirrored', 'B')]))).toEqual([0, 0, 0, 0, 0]);
  });

  it('weighs as little as what was meant, or else expected, lies apart from it', () => {
    const place = { fromTipMm: 5, across: 0.4 };
    expect(apart(found([fault('digits', 'A', { place, valueMm: 0.53, expectedMm: 0.7 })]))).toEqual([
      0.03, 0, 0, 0, 0,
    ]);
    expect(apart(found([fault('digits', 'B', { place, expectedMm: 0.61 })]))).toEqual([0, 0, 0, 0.2, 0]);
    expect(apart(found([fault('increase', 'A', { place, valueMm: 0.2 })]))).toEqual([0, 0, 0, 0, 0]);
  });

  it('weighs less where it is low with no knife before it; a dig weighs in full', () => {
    const low = { blade: 'A', fromTipMm: 5, across: -0.4, readMm: 0.44, expectedMm: 0.52 } as const;
    expect(apart(found([], [{ ...low, inDoubt: true }]))).toEqual([0, 0.08, 0, 0, 0]);
    expect(apart(found([], [low]))).toEqual([0, 0, 0, 0, 0]);
    expect([isOpen([found([], [{ ...low, inDoubt: true }])]), isOpen([found([], [low])])]).toEqual([
      true,
      false,
    ]);
  });

  it('weighs as little as the widest of its answers', () => {
    const both = [fault('swapped', 'both'), fault('mirrored', 'A')];
    expect(apart(found(both))).toEqual([0.09, 0.06, 0, 0.09, 0]);
  });
});

it('what all readings of a pass share is as unsure as the largest question', () => {
  const shared = (...faults: Fault[]) => whileAsked(found(faults)).options.openErrors;
  const nothing = { zeroMm: 0, driftMm: 0, swelling: 0, lengthMm: 0 };
  expect(shared()).toEqual([nothing]);
  expect([isOpen([found([])]), isOpen([found([fault('zero', 'A')])])]).toEqual([false, true]);
  expect(
    shared(
      ...[fault('zero', 'A', { valueMm: 0.02 }), fault('zero', 'B', { valueMm: -0.03 })],
      ...[fault('drift', 'both', { valueMm: -0.025 }), fault('swelling', 'both', { factor: 0.98 })],
      ...[fault('clip', 'both', { valueMm: 0.4 }), fault('shifted', 'both', { valueMm: -0.5 })],
      fault('increase', 'A', { valueMm: 0.9 }),
    ),
  ).toEqual([{ zeroMm: 0.03, driftMm: 0.025, swelling: expect.closeTo(0.02, 12) as number, lengthMm: 0.5 }]);
  expect(shared(fault('swelling', 'both'), fault('zero', 'A'))).toEqual([nothing]);
});
