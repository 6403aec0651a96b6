import { describe, expect, it } from 'vitest';
import { caneInTheWay, screenValue, throughput } from '../../components/lamp/light.ts';

const grid = (value: (u: number) => number) => ({
  ysMm: [0, 10],
  us: [-1, 0, 1],
  halfWidthMm: [3.5, 3],
  valuesMm: [-1, 0, 1, -1, 0, 1].map(value),
});

describe('throughput', () => {
  it('halves with each half-value layer', () => {
    // Beer-Lambert: ln 2 / mu of cane lets half of the light through.
    expect(throughput(3, Math.LN2 / 3)).toBeCloseTo(0.5, 12);
    expect(throughput(3, (2 * Math.LN2) / 3)).toBeCloseTo(0.25, 12);
    expect(throughput(3, 0)).toBe(1);
  });
});

describe('screenValue', () => {
  it('is the sRGB transfer', () => {
    // Source: IEC 61966-2-1. Code 128 of 255 stands for 0.21586; the straight part ends at 0.0031308, 0.04045.
    expect([0, 0.0031308, 0.21586, 1].map(screenValue)).toEqual([0, 10, 128, 255]);
  });
});

describe('caneInTheWay', () => {
  const A = grid((u) => 0.4 + 0.1 * u);
  const B = grid((u) => 0.3 + 0.05 * u);

  it('adds A to the place of B that faces it', () => {
    expect(caneInTheWay({ A, B }, 5, 0.5)).toBeCloseTo(0.45 + 0.275, 12);
    expect(caneInTheWay({ A, B }, 5, -1)).toBeCloseTo(0.3 + 0.35, 12);
  });

  it('cannot tell a habit of the hand: more on both rights is as dark on both sides', () => {
    const hand = { A: grid((u) => 0.4 + 0.02 * u), B: grid((u) => 0.4 + 0.02 * u) };
    expect(caneInTheWay(hand, 5, 0.7)).toBeCloseTo(caneInTheWay(hand, 5, -0.7), 12);
  });

  it('looks through one blade as it is seen from its bark', () => {
    expect(caneInTheWay({ B }, 5, 0.5)).toBeCloseTo(0.325, 12);
  });
});
