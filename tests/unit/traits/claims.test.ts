import { describe, expect, it } from 'vitest';
import { claimsOf } from '../../../src/traits/claims.ts';
import type { KnownReed } from '../../../src/traits/columns.ts';
import type { Relation } from '../../../src/traits/relations.ts';
import { PROFILE_GRID } from '../../../src/traits/reed-summary.ts';
import { wayName } from '../../../src/traits/trait-words.ts';
import { reed } from '../rotation/playing.ts';

const COUNT = 40;
const reeds = Array.from({ length: COUNT }, (_, k) => ({
  reed: reed({ label: `C-${k}` }),
})) as unknown as KnownReed[];
/** Figures rise by a hundredth from reed to reed; the twenty from the tenth on were called concert reeds. */
const rising = Array.from({ length: COUNT }, (_, k) => 0.3 + k / 100);
const verdicts = Array.from({ length: COUNT }, (_, k) => (k >= 10 && k < 30 ? 4 : 2));

function relation(figure: string, outcome: string, own: Partial<Relation> = {}): Relation {
  return {
    figure: { name: figure, title: `more ${figure}`, values: rising },
    outcome: { name: outcome, title: outcome, values: verdicts },
    rho: 0.5,
    n: COUNT,
    p: 1e-6,
    q: 1e-4,
    said: true,
    interval: [0.3, 0.7],
    ...own,
  };
}
const claims = (...relations: Relation[]) => claimsOf({ relations, reeds });

describe('claims with their reeds', () => {
  it('are three at most, of what is sure, none of a figure or an outcome told before', () => {
    const told = claims(
      relation('heart', 'verdict', { said: false }),
      relation('heart', 'response'),
      relation('heart', 'stability'),
      relation('tip', 'response'),
      relation('tip', 'failed'),
      relation('tip', 'stability'),
      relation('blend-place', 'verdict'),
      relation('sides', 'full'),
    );
    expect(told.map(({ relation: { figure, outcome } }) => [figure.name, outcome.name])).toEqual([
      ['heart', 'response'],
      ['tip', 'stability'],
      ['blend-place', 'verdict'],
    ]);
  });

  it('hold eight in ten good reeds in their band, and count how many others lie there', () => {
    const [{ band, points }] = claims(relation('heart', 'verdict')) as [ReturnType<typeof claims>[number]];
    expect(points.filter(({ isGood }) => isGood)).toHaveLength(20);
    // Of twenty, two are left out at each end: the twelfth to the twenty-seventh reed.
    expect([band!.low, band!.high]).toEqual([rising[12], rising[27]]);
    const inside = points.filter(({ x, isGood }) => isGood && x >= band!.low && x <= band!.high);
    expect(inside).toHaveLength(16);
    // None of the twenty others lies there: Wilson 1927, 0 to 1.96^2 / (20 + 1.96^2).
    expect(band!.others.share).toBe(0);
    expect(band!.others.upper).toBeCloseTo(3.8415 / 23.8415, 4);
  });

  it('have no band with few good reeds, and leave out what is not known', () => {
    const few = verdicts.map((value, k) => (k < 14 ? value : NaN));
    const [one] = claims(
      relation('heart', 'verdict', { outcome: { name: 'verdict', title: 'verdict', values: few } }),
    );
    expect(one).not.toHaveProperty('band');
    expect(one!.points).toHaveLength(14);
  });
});

describe('a way of varying', () => {
  const { us, ysMm } = PROFILE_GRID;
  const writing = { unit: 'hundredths', decimal: 'point' } as const;
  /** Moves of the mean of both blades, mm, by a rule. */
  const named = (rule: (fromTipMm: number, across: number) => number, fromTipMm: number, across: number) =>
    wayName(
      {
        largest: { fromTipMm, across, valueMm: rule(fromTipMm, across) },
        oneSdMm: ysMm.flatMap((y) => us.map((u) => rule(y, u))),
      },
      writing,
    );

  it('is named by what it is: one place', () => {
    expect(named((y, u) => (y === 8 && u === 0.8 ? 0.02 : 0.001), 8, 0.8)).toBe(
      'Thicker or thinner at 8\u00a0mm, at the edges',
    );
  });

  it('all over, where most of the blade moves with it', () => {
    expect(named((y) => (y === 5 ? 0.02 : 0.015), 5, 0)).toBe(
      'Thicker or thinner all over, most at 5\u00a0mm, in the middle',
    );
  });

  it('two places, where one gains as the other loses', () => {
    const tilt = (y: number, u: number) => (u !== 0 ? 0 : y === 5 ? -0.02 : y === 14 ? 0.008 : 0);
    expect(named(tilt, 5, 0)).toBe('Thicker at 5\u00a0mm and thinner at 14\u00a0mm, in the middle');
    const apart = (y: number, u: number) => (y === 5 && u === 0 ? 0.02 : y === 16 && u === 0.8 ? -0.01 : 0);
    expect(named(apart, 5, 0)).toBe(
      'Thicker at 5\u00a0mm, in the middle, and thinner at 16\u00a0mm, at the edges',
    );
  });
});
