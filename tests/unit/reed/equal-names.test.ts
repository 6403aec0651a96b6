import { expect, it } from 'vitest';
import type { PassHead } from '../../../shared/pass.ts';
import type { Reed } from '../../../shared/reed.ts';
import { equalLabels, equalNumbers, freeLabel, renumbered } from '../../../src/reed/equal-names.ts';

const stamp = (id: string, day: number) => ({
  formatVersion: 1 as const,
  id,
  versions: { a: 1 },
  createdAt: `2026-03-${String(day).padStart(2, '0')}T09:00:00Z`,
  updatedAt: '2026-03-30T09:00:00Z',
});
const reed = (id: string, label: string, day = 1): Reed => ({
  ...stamp(id, day),
  kind: 'reed',
  label,
  styleId: 'long',
  state: 'scraping',
  tags: [],
});
const pass = (id: string, index: number, day: number): PassHead => ({
  ...stamp(id, day),
  kind: 'pass',
  reedId: 'r',
  index,
  remedies: [],
  readingCount: 70,
});

it('finds reeds of one label, the one made first first, invented ones and others apart', () => {
  const reeds = [
    reed('a', 'K-1', 5),
    reed('b', 'k-1', 3),
    reed('c', 'K-2'),
    { ...reed('d', 'K-2'), invented: true as const },
  ];
  expect(equalLabels(reeds)).toMatchObject([{ of: 'label', key: 'a b', reeds: [{ id: 'b' }, { id: 'a' }] }]);
});

it('finds passes of one number', () => {
  const passes = [pass('x', 0, 1), pass('y', 1, 4), pass('z', 1, 3)];
  expect(equalNumbers(reed('r', 'K-1'), passes)).toMatchObject([
    { of: 'number', passes: [{ id: 'z' }, { id: 'y' }] },
  ]);
  expect(equalNumbers(reed('r', 'K-1'), passes.slice(0, 2))).toEqual([]);
});

it('numbers equal passes by when they were read, and moves on no more of the later ones than is needed', () => {
  const passes = [pass('a', 0, 1), pass('b', 1, 6), pass('c', 1, 5), pass('d', 2, 7), pass('e', 9, 8)];
  expect(renumbered(passes).map(({ id, index }) => [id, index])).toEqual([
    ['b', 2],
    ['d', 3],
  ]);
  expect(renumbered([passes[0]!, passes[1]!])).toEqual([]);
});

it('offers a label that no reed has', () => {
  expect(freeLabel('K-1', new Set(['K-1']))).toBe('K-1 (2)');
  expect(freeLabel('K-1', new Set(['K-1', 'K-1 (2)']))).toBe('K-1 (3)');
});
