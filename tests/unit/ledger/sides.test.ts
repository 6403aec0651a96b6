import { expect, it } from 'vitest';
import type { LibraryDocument } from '../../../shared/library.ts';
import { mergeSides } from '../../../src/ledger/sides.ts';

const side = (label: string, versions: Record<string, number>, deletedAt?: string) =>
  ({ id: 'one', label, versions, ...(deletedAt && { deletedAt }) }) as unknown as LibraryDocument;
const labels = (...sides: LibraryDocument[]) =>
  mergeSides(sides).map((one) => (one as unknown as { label: string }).label);

it('shows a live side before a deleted one, however often that was written', () => {
  const deleted = side('deleted', { one: 9 }, '2024-05-01T10:00:00.000Z');
  const live = side('live', { two: 1 });
  expect(labels(deleted, live)).toEqual(['live', 'deleted']);
  expect(labels(live, deleted)).toEqual(['live', 'deleted']);
});

it('then the one that was written more, by all devices together, then by its text', () => {
  const often = side('b often', { one: 2, three: 2 });
  const once = side('a once', { two: 3 });
  expect(labels(once, often)).toEqual(['b often', 'a once']);
  expect(labels(side('b', { one: 1 }), side('a', { two: 1 }))).toEqual(['a', 'b']);
});

it('drops a side that another has seen, and one that is there twice', () => {
  expect(labels(side('old', { one: 1 }), side('new', { one: 2 }))).toEqual(['new']);
  expect(labels(side('same', { one: 1 }), side('same', { one: 1 }))).toEqual(['same']);
});
