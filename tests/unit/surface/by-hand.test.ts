import { describe, expect, it } from 'vitest';
import { effectsOn, errorsUpTo, sharedErrors } from '../../../src/surface/shared-errors.ts';
import { slopesByRow } from '../../../src/surface/slopes-by-row.ts';
import { warpBend, warped, warpRate } from '../../../src/surface/warp.ts';

describe('a coordinate that runs faster at a ridge', () => {
  const warp = { ridgeMm: 50, widthMm: 2, strength: 0.5 };

  it('is z at the ridge, and half as fast again there', () => {
    expect([warped(warp, 50), warpRate(warp, 50), warpBend(warp, 50)]).toEqual([50, 1.5, -0]);
  });

  it('has run ahead by calculus one half-width on, and as much behind before', () => {
    // 2 + 0.5 x 2 / root 2; 1 + 0.5 / 2 root 2; -3 x 0.5 / (2 x 4 root 2).
    expect(warped(warp, 52)).toBeCloseTo(52 + Math.SQRT1_2, 12);
    expect(warped(warp, 48)).toBeCloseTo(48 - Math.SQRT1_2, 12);
    expect(warpRate(warp, 52)).toBeCloseTo(1 + 0.25 * Math.SQRT1_2, 12);
    expect(warpBend(warp, 52)).toBeCloseTo(-1.5 / (8 * Math.SQRT2), 12);
    expect(warpBend(warp, 48)).toBeCloseTo(1.5 / (8 * Math.SQRT2), 12);
  });
});

describe('errors that readings share', () => {
  const sizes = { zeroMm: 0.002, swelling: 0.005, lengthMm: 0.05 };

  it('are a zero for every pass, swelling and length against the first', () => {
    expect(sharedErrors(2, sizes).map(({ kind, pass, variance }) => [kind, pass, variance])).toEqual([
      ['zero', 0, 4e-6],
      ['swelling', 0, 0],
      ['length', 0, 0],
      ['zero', 1, 4e-6],
      ['swelling', 1, expect.closeTo(2.5e-5, 15)],
      ['length', 1, expect.closeTo(2.5e-3, 15)],
    ]);
  });

  it('have the zero that is known of a pass, and what a question leaves open', () => {
    const open = { zeroMm: 0.01959964, swelling: 0, lengthMm: 0.1959964, driftMm: 0.02 };
    const errors = sharedErrors(2, sizes, [0.01], [undefined as never, open]);
    expect(errors[0]!.variance).toBeCloseTo(1e-4, 15);
    const [zero, swelling, length, drift] = errors.slice(3);
    expect(zero!.variance).toBeCloseTo(4e-6 + 0.01959964 ** 2, 12);
    // An interval of 95 % reaches from one answer to the other: a hundredth is one standard error.
    expect(zero!.openVariance).toBeCloseTo(1e-4, 12);
    expect(swelling).toEqual({ kind: 'swelling', pass: 1, variance: expect.closeTo(2.5e-5, 15) as number });
    expect(length!.variance).toBeCloseTo(2.5e-3, 12);
    expect(length!.openVariance).toBeCloseTo(0.01, 12);
    expect(drift).toMatchObject({ kind: 'drift', pass: 1, variance: expect.closeTo(4e-4, 15) as number });
    expect(drift!.openVariance).toBeCloseTo((0.02 / 1.959964) ** 2, 12);
  });

  it('have labels that were taken for each other, and what then went unread, where that is asked', () => {
    const open = { zeroMm: 0, swelling: 0, lengthMm: 0, labels: 1, unreadMm: 0.012 };
    const [zero, , , labels] = sharedErrors(1, sizes, [], [open]);
    // The doubt alone grows by what went unread: the readings say nothing of it.
    expect(zero!.variance).toBeCloseTo(4e-6, 15);
    expect(zero!.openVariance).toBeCloseTo(0.012 ** 2, 12);
    expect(labels).toMatchObject({ kind: 'labels', pass: 0, variance: 1 });
    expect(labels!.openVariance).toBeCloseTo(1 / 1.959964 ** 2, 12);
  });

  it('move the readings of their own pass, each kind by what it is', () => {
    const errors = [
      ...sharedErrors(1, sizes),
      { kind: 'drift', pass: 1, variance: 1 },
      { kind: 'length', pass: 1, variance: 1 },
      { kind: 'swelling', pass: 1, variance: 1 },
      { kind: 'zero', pass: 1, variance: 1 },
      { kind: 'zero', variance: 1 },
      { kind: 'common', variance: 1 },
      { kind: 'labels', pass: 1, variance: 1 },
    ] as const;
    const place = { thicknessMm: 0.4, time: 0.25, slopeAlong: 0.03, mislabelledMm: 0.02 };
    expect([...effectsOn(errors, 1, place)]).toEqual([0, 0, 0, 0.25, 0.03, 0.4, 1, 1, 0, 0.02]);
    expect([...effectsOn(errors, 0, place, 4)]).toEqual([1, 0.4, 0.03, 0]);
  });

  it('are counted up to a pass', () => {
    const errors = sharedErrors(3, sizes);
    expect([0, 1, 2].map((pass) => errorsUpTo(errors, pass))).toEqual([3, 6, 9]);
    expect(errorsUpTo([{ kind: 'common', variance: 1 }], 0)).toBe(1);
    expect(errorsUpTo([], 0)).toBe(0);
  });
});

it('takes the slope of a row between the middle readings of the rows beside it', () => {
  const row = (fromTipMm: number, ...mm: number[]) => mm.map((thicknessMm) => ({ fromTipMm, thicknessMm }));
  const slopes = slopesByRow([...row(7, 0.46), ...row(5, 0.4), ...row(6, 0.9, 0.42, 0.1)]);
  for (const [at, slope] of [
    [5, 0.02],
    [6, 0.03],
    [7, 0.04],
  ] as const)
    expect(slopes.get(at), String(at)).toBeCloseTo(slope, 12);
  expect(slopesByRow(row(5, 0.4)).get(5)).toBe(0);
});
