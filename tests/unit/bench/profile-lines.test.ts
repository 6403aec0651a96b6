import { describe, expect, it } from 'vitest';
import { bladeLines, favouritesBand, floorLine, passLines } from '../../../components/bench/profile-lines.ts';
import { estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const reed = scenarioReed('m-142');
const at = { benched: reed, pass: 3 };
const thickness = (blade: 'A' | 'B', pass: number, fromTipMm: number, across: number) =>
  estimate(reed.model!, pointFunctional(reed.model!, { blade, pass, fromTipMm, across })).valueMm;

describe('a profile', () => {
  it('runs down each blade at its own place across, with the readings that stand there', () => {
    const [a, b] = bladeLines(at, { kind: 'down', across: 0.4 });
    for (const [line, blade] of [
      [a, 'A'],
      [b, 'B'],
    ] as const) {
      const k = line!.at.length - 10;
      expect(line!.thicknessMm[k]).toBeCloseTo(thickness(blade, 3, line!.at[k]!, 0.4), 12);
    }
    expect(b!.readings!.find(({ at: y }) => y === 10)!.thicknessMm).toBe(0.35);
  });

  it('cut across shows under each place of A what faces it on B', () => {
    const [a, b] = bladeLines(at, { kind: 'across', fromTipMm: 10 });
    expect(a!.at[0]).toBe(-1);
    expect(a!.thicknessMm[8]).toBeCloseTo(thickness('A', 3, 10, a!.at[8]!), 12);
    expect(b!.thicknessMm[8]).toBeCloseTo(thickness('B', 3, 10, -b!.at[8]!), 12);
    // The dig of B's right window faces A's left.
    expect(b!.readings!.find(({ thicknessMm }) => thicknessMm === 0.35)!.at).toBeCloseTo(-0.4, 12);
  });

  it('puts earlier passes on the same cane: a clip is cane beyond the tip', () => {
    const [first, , last] = passLines(at, { kind: 'down', across: 0 }, 'A', [1, 2]);
    expect(first!.look).toBe('before');
    expect(first!.age).toBe(2);
    expect(last!.look).toBe('after');
    const clippedMm = reed.assembled.passes[1]!.overallLengthMm - reed.assembled.passes[3]!.overallLengthMm;
    expect(clippedMm).toBeCloseTo(0.4, 9);
    expect(first!.at[0]).toBeCloseTo(-clippedMm, 12);
    expect(first!.thicknessMm[20]).toBeCloseTo(thickness('A', 1, first!.at[20]! + clippedMm, 0), 12);
  });

  it('has the floor where the style sets one', () => {
    const [floor] = floorLine(at, { kind: 'down', across: 0 });
    expect(floor!.look).toBe('floor');
    expect(Array.from(floor!.thicknessMm).some((value) => value > 0.3)).toBe(true);
  });
});

describe('the band of favourites', () => {
  const other = { benched: scenarioReed('k-117'), pass: 0 };

  it('holds both blades of every one of them, and nothing for a single one', () => {
    const line = { kind: 'down', across: 0 } as const;
    expect(favouritesBand([at], line)).toBeUndefined();
    const band = favouritesBand([at, other], line)!;
    for (const { at: ys, thicknessMm } of bladeLines(at, line)) {
      const k = 40;
      const near = Array.from(band.at).findIndex((y) => Math.abs(y - ys[k]!) < 0.1);
      // Places of the two lists differ by less than 0.1 mm, 0.01 mm of thickness at the steepest.
      expect(thicknessMm[k]).toBeGreaterThan(band.lowMm[near]! - 0.01);
      expect(thicknessMm[k]).toBeLessThan(band.highMm[near]! + 0.01);
    }
    Array.from(band.lowMm).forEach((low, k) => expect(low).toBeLessThanOrEqual(band.highMm[k]!));
  });
});
