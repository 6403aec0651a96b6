import { describe, expect, it } from 'vitest';
import type { HabitDocument } from '../../../shared/habit.ts';
import { STARTING_STYLES } from '../../../src/blade/starting-styles.ts';
import { mapGrid } from '../../../src/figures/surface-map.ts';
import { STARTING_HABITS } from '../../../src/plan/habits.ts';
import { ownHabits, whoSays } from '../../../src/plan/own-habits.ts';
import { habitsFor, sayOrder, seeReed } from '../../../src/plan/signs.ts';
import { targetFromReed } from '../../../src/plan/target.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const writing = { unit: 'hundredths', decimal: 'point' } as const;
const k117 = { benched: scenarioReed('K-117'), pass: 0 };
const m142 = { benched: scenarioReed('M-142'), pass: 3 };
const target = targetFromReed(k117, mapGrid(23, 51, 31));
const besideFavourite = seeReed(m142, target);
const stamp = {
  kind: 'habit' as const,
  formatVersion: 1 as const,
  id: '019a0000-0000-7000-8000-000000000001',
  versions: {},
  createdAt: '2026-01-01T10:00:00+01:00',
  updatedAt: '2026-01-01T10:00:00+01:00',
};
const rowsOf = (seen: typeof besideFavourite, documents: readonly HabitDocument[] = []) =>
  habitsFor(ownHabits(documents), seen, writing);
const rowOf = (key: string, seen = besideFavourite, documents: readonly HabitDocument[] = []) =>
  rowsOf(seen, documents).find(({ habit }) => habit.key === key)!;
const wordsOf = (key: string, seen = besideFavourite) => rowOf(key, seen).shown.map(({ words }) => words);

describe('what to try on M-142, brought to K-117', () => {
  it('names what this reed shows at each place, with its doubt', () => {
    expect(wordsOf('low-notes-late').find((words) => words.startsWith('Blend'))).toMatch(
      /^Blend: mean \d+\.\d\s±\d\.\d hundredths, \d\.\d\s±\d\.\d over K-117$/,
    );
    expect(wordsOf('dull').find((words) => words.startsWith('Corners'))).toMatch(
      /no sure difference from K-117$/,
    );
    expect(wordsOf('two-sounds')[0]).toMatch(
      /^Heart sides: .* less .*±\d\.\d hundredths, can(not)? be told apart/,
    );
  });

  it('puts first the rows that its figures speak for, in the order of the table, and says so', () => {
    const rows = rowsOf(besideFavourite);
    const count = rows.filter(({ speaks }) => speaks).length;
    expect(rows.slice(0, count).every(({ speaks }) => speaks)).toBe(true);
    expect(rows).toHaveLength(STARTING_HABITS.length);
    const order = (some: typeof rows) =>
      some.map(({ habit }) => STARTING_HABITS.findIndex(({ key }) => key === habit.key));
    for (const part of [rows.slice(0, count), rows.slice(count)])
      expect(order(part)).toEqual([...order(part)].sort((a, b) => a - b));
    expect(sayOrder(rows)).toMatch(new RegExp(`^${count} rows come first because the figures`));
  });

  it('speaks for what is over, not for what would have to be under', () => {
    // Its blend, spine and rails are thicker than the favourite's, its heart too.
    for (const key of ['low-notes-late', 'stuffy', 'too-resistant']) expect(rowOf(key).speaks).toBe(true);
    for (const key of ['collapses', 'notes-sag', 'dead-tomorrow']) expect(rowOf(key).speaks).toBe(false);
  });

  it('says nothing of floors where every reading is above its own', () => {
    // B reads 0.35 at 10 mm, right, where the floor is 0.34.
    expect(rowOf('too-closed').speaks).toBe(false);
    expect(wordsOf('too-closed')[0]).not.toMatch(/floor/);
  });
});

describe('what to try on M-139, brought to nothing', () => {
  const alone = seeReed({ benched: scenarioReed('M-139'), pass: 0 });

  it('counts readings under their floors as thin', () => {
    expect(rowOf('too-closed', alone).speaks).toBe(true);
    expect(wordsOf('too-closed', alone)[0]).toMatch(
      /^Windows: mean \d+\.\d\s±\d\.\d hundredths, a reading under its floor$/,
    );
  });

  it('tells its sides apart, for its cane was gouged uneven', () => {
    const { speaks, shown } = rowOf('two-sounds', alone);
    expect(speaks).toBe(true);
    expect(shown.some(({ words }) => /side 1 less side 2 .*can be told apart$/.test(words))).toBe(true);
  });

  it('calls nothing too thick', () => {
    expect(rowOf('stuffy', alone).speaks).toBe(false);
    expect(wordsOf('stuffy', alone)[0]).toMatch(/^Heart sides: mean \d+\.\d\s±\d\.\d hundredths$/);
  });
});

it('speaks for nothing on a favourite beside itself but what it is uneven in', () => {
  const rows = rowsOf(seeReed(k117, target)).filter(({ speaks }) => speaks);
  for (const { shown } of rows)
    for (const { words, speaks } of shown) if (speaks) expect(words).toMatch(/can be told apart$|floor$/);
});

describe('a row of the maker', () => {
  const own: HabitDocument = {
    ...stamp,
    key: 'own-1',
    symptom: 'Whistles in the cold',
    lookAt: 'the blend',
    action: 'warm it first',
    signs: [{ zone: 'blend', is: 'over' }],
    whoSays: 'an invented teacher',
  };

  it('is joined by the figures that the maker chose for it', () => {
    expect(rowOf('own-1', besideFavourite, [own]).speaks).toBe(true);
    const other = { ...own, signs: [{ zone: 'blend', is: 'under' as const }] };
    expect(rowOf('own-1', besideFavourite, [other]).speaks).toBe(false);
    expect(whoSays(rowOf('own-1', besideFavourite, [own]).habit)).toBe('So says an invented teacher.');
  });

  it('in the place of a starting row keeps the figures of that row until others are chosen', () => {
    const { signs: _, ...plain } = { ...own, key: 'stuffy' };
    expect(rowOf('stuffy', besideFavourite, [plain]).habit.symptom).toBe('Whistles in the cold');
    expect(rowOf('stuffy', besideFavourite, [plain]).speaks).toBe(true);
    expect(rowOf('stuffy', besideFavourite, [{ ...plain, signs: [] }]).speaks).toBe(false);
  });

  it('that is switched off is left out', () => {
    expect(rowOf('own-1', besideFavourite, [{ ...own, off: true }])).toBeUndefined();
  });
});

it('asks only for zones that a starting style has', () => {
  const names = new Set(STARTING_STYLES.flatMap(({ zones }) => zones.map(({ name }) => name)));
  for (const { signs = [] } of STARTING_HABITS) for (const { zone } of signs) expect(names).toContain(zone);
});
