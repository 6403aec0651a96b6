import { describe, expect, it } from 'vitest';
import { sayCompared } from '../../../src/plan/say-compared.ts';
import { hybridTarget, type Target } from '../../../src/plan/target.ts';

const writing = { unit: 'hundredths', decimal: 'point' } as const;
const zone = (title: string, valueMm: number, spreadMm = 0) => ({
  ...{ title, spreadMm, name: title.toLowerCase() },
  difference: { valueMm, uMm: 0.005 },
});
const said = (...zones: ReturnType<typeof zone>[]) =>
  sayCompared({ zones, crossings: [], notes: [], target: { name: 'K-117' } }, writing);

describe('a reed beside a favourite, zone by zone', () => {
  it('is thicker where one zone alone is, and thinner, which is said apart', () => {
    expect(said(zone('Heart', 0.03)).say).toBe('Thicker than K-117: heart by 3\u00a0hundredths.');
    expect(said(zone('Tip', -0.02))).toMatchObject({
      say: 'No zone is thicker than on K-117.',
      mind: 'Thinner, which cannot be put back: tip by 2\u00a0hundredths.',
    });
  });

  it('differs by no more than it can be told, or than favourites differ, where no zone stands out', () => {
    // 1.96 * 0.005 is 0.0098.
    expect(said(zone('Heart', 0.0097), zone('Tip', 0.03, 0.031)).say).toMatch(/^No zone differs from K-117/);
    expect(said(zone('Heart', 0.0099)).say).toMatch(/^Thicker/);
    expect(said(zone('Tip', 0.03, 0.029)).say).toMatch(/^Thicker/);
  });

  it('has the three largest of each, the largest first', () => {
    const { say } = said(zone('One', 0.02), zone('Two', 0.05), zone('Three', 0.03), zone('Four', 0.04));
    expect(say).toMatch(/two by .*four by .*three by/);
    expect(say).not.toMatch(/one by/);
  });
});

it('a part of a hybrid stands for the share of its target times the share of that target there', () => {
  const grid = { ysMm: [0, 10], us: [-1, 1] };
  const target = (name: string, share: number) =>
    ({ name, grid, blades: {}, parts: [{ share: () => share }] }) as unknown as Target;
  const { parts } = hybridTarget(target('tip', 0.5), target('back', 0.8), 6, 2);
  // Half way over, s = 1/2, s^2 (3 - 2 s) is 1/2; a quarter of the way 5/32.
  const shares = (y: number) => parts.map(({ share }) => share(y, 0, 'A'));
  expect(shares(6)).toEqual([0.25, 0.4]);
  expect(shares(5.5)[1]).toBeCloseTo((0.8 * 5) / 32, 12);
  expect(shares(5)).toEqual([0.5, 0]);
  expect(shares(7)).toEqual([0, 0.8]);
});
