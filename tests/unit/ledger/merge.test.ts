import fc from 'fast-check';
import { expect, it } from 'vitest';
import { FormatError } from '../../../shared/errors.ts';
import { canonicalJson } from '../../../src/ledger/canonical.ts';
import { inOrder, planMerge, type Holdings } from '../../../src/ledger/merge.ts';
import { compareVersions } from '../../../src/ledger/versions.ts';
import { EMPTY, idOf, mergeHoldings, notesOf, reedOf, threeLibraries } from './random-libraries.ts';

function same(a: Holdings, b: Holdings): void {
  expect(canonicalJson(a)).toBe(canonicalJson(b));
}
const merge = mergeHoldings;
const A = idOf(900);
const B = idOf(901);
const runs = { numRuns: 300, seed: 4 };

it('gives one result whichever library is taken into which', () => {
  fc.assert(
    fc.property(threeLibraries, ([a, b]) => {
      same(merge(a, b), merge(b, a));
    }),
    runs,
  );
});

it('gives one result in whatever order three libraries come together', () => {
  fc.assert(
    fc.property(threeLibraries, ([a, b, c]) => {
      same(merge(merge(a, b), c), merge(a, merge(b, c)));
    }),
    runs,
  );
});

it('adds nothing when a library comes a second time', () => {
  fc.assert(
    fc.property(threeLibraries, ([a, b]) => {
      same(merge(a, a), inOrder(a));
      same(merge(merge(a, b), b), merge(a, b));
    }),
    runs,
  );
});

it('keeps every version that no other has seen, and every act', () => {
  fc.assert(
    fc.property(threeLibraries, ([a, b]) => {
      const merged = merge(a, b);
      const all = [...a.documents, ...b.documents];
      for (const one of all) {
        const isReplaced = all.some(
          (other) => other.id === one.id && compareVersions(other.versions, one.versions) === 'newer',
        );
        const isThere = merged.documents.some((kept) => canonicalJson(kept) === canonicalJson(one));
        expect(isThere).toBe(!isReplaced);
      }
      const ids = (holdings: Holdings) => holdings.acts.map(({ id }) => id);
      expect(new Set(ids(merged))).toEqual(new Set([...ids(a), ...ids(b)]));
      const notChosen = (holdings: Holdings) => (holdings.notChosen ?? []).map(canonicalJson);
      expect(new Set(notChosen(merged))).toEqual(new Set([...notChosen(a), ...notChosen(b)]));
    }),
    runs,
  );
});

it('tells before and after versions apart, and versions written side by side', () => {
  // The cases of Parker et al. 1983, section IV: equal, dominated both ways, in conflict.
  expect(compareVersions({ [A]: 2, [B]: 1 }, { [A]: 2, [B]: 1 })).toBe('same');
  expect(compareVersions({ [A]: 2, [B]: 1 }, { [A]: 2 })).toBe('newer');
  expect(compareVersions({ [A]: 1 }, { [A]: 2 })).toBe('older');
  expect(compareVersions({ [A]: 3 }, { [A]: 2, [B]: 1 })).toBe('apart');
});

it('counts what is new, newer, the same and apart', () => {
  const here = [
    reedOf(1, { [A]: 1 }, 'as it was'),
    reedOf(2, { [A]: 1 }, 'as it was'),
    reedOf(3, { [A]: 2 }, 'changed here'),
  ];
  const documents = [
    reedOf(1, { [A]: 1 }, 'as it was'),
    reedOf(2, { [A]: 1, [B]: 1 }, 'changed there'),
    reedOf(3, { [A]: 1, [B]: 2 }, 'changed there'),
    reedOf(4, { [B]: 3 }, 'made there'),
  ];
  const { report } = planMerge(
    (id) => here.filter((document) => document.id === id),
    () => undefined,
    { documents, acts: [] },
  );
  expect(report.documents).toEqual({ new: 1, newer: 1, same: 1, apart: 1 });
  expect(report.disagreements.map(notesOf)).toEqual([['changed there', 'changed here']]);
});

it('keeps both of two documents with one version vector and different content, as a copied profile makes them', () => {
  const one = { documents: [reedOf(1, { [A]: 2 }, 'laptop')], acts: [] };
  const two = { documents: [reedOf(1, { [A]: 2 }, 'copy of the laptop')], acts: [] };
  expect(merge(one, two).documents).toHaveLength(2);
});

it('refuses a library in which an id names another thing', () => {
  const round = { ...reedOf(1, { [A]: 1 }, ''), kind: 'lot', code: 'M' } as never;
  const reed = { documents: [reedOf(1, { [A]: 1 }, '')], acts: [] };
  expect(() => merge(reed, { documents: [round], acts: [] })).toThrow(FormatError);
  expect(() => merge(reed, { documents: [round], acts: [] })).toThrow(
    'documents.0: has the id of a reed but is a lot',
  );
  expect(merge(reed, EMPTY).documents).toHaveLength(1);
});
