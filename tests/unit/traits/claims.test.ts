import { describe, expect, it } from 'vitest';
import { claimsOf } from '../../../src/traits/claims.ts';
import type { KnownReed } from '../../../src/traits/columns.ts';
import type { Relation } from '../../../src/traits/relations.ts';
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

it('a way of varying is named by what it is', () => {
  const largest = { fromTipMm: 8, across: 0.8, valueMm: 0.02 };
  const way = { largest } as Parameters<typeof wayName>[0];
  expect(wayName(way, { unit: 'hundredths', decimal: 'point' })).toBe(
    'Thicker or thinner at 8\u00a0mm, at the edges',
  );
});
