import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Reed } from '../../../shared/reed.ts';
import { findReeds, gatherReeds, SORTINGS, tagsOf, type Query } from '../../../src/rotation/find-reeds.ts';
import { shortened, SIGNS_ON_THREAD, threadNumbers } from '../../../src/rotation/thread-number.ts';
import { newId, reed, trial, use } from './playing.ts';

const lotId = newId();
const reeds = [
  reed({ label: 'T-10', tags: ['soft', 'tour'], lotId }),
  reed({ label: 'T-2', tags: ['tour'], styleId: 'short-scrape', note: 'sings in the hills' }),
  reed({
    label: 'T-3',
    state: 'retired',
    retirement: { on: '2026-02-01', cause: 'chipped', lesson: 'clip later' },
  }),
];
const [ten, two, three] = reeds as [(typeof reeds)[0], (typeof reeds)[0], (typeof reeds)[0]];
const gathered = gatherReeds({
  reeds,
  lots: [{ id: lotId, code: 'Q' } as never],
  passes: [],
  trials: [
    trial(ten.id, '2026-01-05T10:00:00.000+01:00', { verdict: 'not yet' }),
    trial(two.id, '2026-01-06T10:00:00.000+01:00', { verdict: 'concert', words: 'Everything speaks' }),
  ],
  uses: [
    use(ten.id, 3, '2026-01-09T10:00:00.000+01:00'),
    use(two.id, 1, '2026-01-08T10:00:00.000+01:00'),
    use(two.id, 1, '2026-01-07T10:00:00.000+01:00'),
  ],
});
const labels = (query: Partial<Query>) =>
  findReeds(gathered, { text: '', sort: 'label', ...query }).map(({ reed: { label } }) => label);

describe('finding reeds', () => {
  it('looks for every word in all that is written, whatever its case', () => {
    expect(labels({ text: 'SPEAKS every' })).toEqual(['T-2']);
    expect(labels({ text: 'lot q' })).toEqual(['T-10']);
    expect(labels({ text: 'clip later' })).toEqual(['T-3']);
    expect(labels({ text: 'tour hills' })).toEqual(['T-2']);
    expect(labels({ text: 'nowhere' })).toEqual([]);
  });

  it('filters by state, style and tag', () => {
    expect(labels({ state: 'alive' })).toEqual(['T-2', 'T-10']);
    expect(labels({ state: 'retired' })).toEqual(['T-3']);
    expect(labels({ styleId: 'short-scrape' })).toEqual(['T-2']);
    expect(labels({ tag: 'tour' })).toEqual(['T-2', 'T-10']);
    expect(labels({ favourites: true })).toEqual([]);
  });

  it('sorts numbers in labels as numbers, and by what was played and said', () => {
    expect(labels({})).toEqual(['T-2', 'T-3', 'T-10']);
    expect(labels({ sort: 'hours' })).toEqual(['T-10', 'T-2', 'T-3']);
    expect(labels({ sort: 'last played' })).toEqual(['T-10', 'T-2', 'T-3']);
    expect(labels({ sort: 'verdict' })).toEqual(['T-2', 'T-10', 'T-3']);
    expect(labels({ sort: 'newest' })[0]).toBe('T-10');
  });

  it('loses no reed in any order', () => {
    for (const sort of SORTINGS) expect(labels({ sort }).sort()).toEqual(['T-10', 'T-2', 'T-3']);
    expect(three.state).toBe('retired');
  });

  it('lists tags by how often they are used', () => {
    expect(tagsOf(reeds)).toEqual(['tour', 'soft']);
  });
});

describe('the number for a thread', () => {
  const numberOf = (one: Reed, all: readonly Reed[]) => threadNumbers(all).get(one.id)!;

  it('leaves out what a pen leaves out', () => {
    expect(shortened('K-117')).toBe('K117');
    expect(shortened('S-026')).toBe('S26');
    expect(shortened('26-031')).toBe('26031');
  });

  it('takes the own number where the label is too long, and says when there is none', () => {
    const long = reed({ label: 'a very long label' });
    expect(numberOf(long, [long])).toEqual({ none: 'too long' });
    expect(numberOf(long, [{ ...long, ownNumber: '7' }])).toEqual({ text: '7' });
  });

  it('never gives two living reeds the same number', () => {
    const one = reed({ label: 'S-026' });
    const other = reed({ label: 'S26' });
    expect(numberOf(one, [one, other])).toEqual({ none: 'taken', by: 'S26' });
    expect(numberOf(one, [one, { ...other, state: 'retired' }])).toEqual({ text: 'S26' });
  });

  it('is never longer than fits, for any labels', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.string({ minLength: 1, maxLength: 12 }), { maxLength: 12 }), (names) => {
        const all = names.map((label) => reed({ label }));
        const given = all.flatMap((one) => {
          const number = numberOf(one, all);
          return 'text' in number ? [number.text] : [];
        });
        expect(new Set(given).size).toBe(given.length);
        for (const text of given) expect(text.length).toBeLessThanOrEqual(SIGNS_ON_THREAD);
      }),
    );
  });
});
