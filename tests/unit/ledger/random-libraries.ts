import fc from 'fast-check';
import { makeId, type Id } from '../../../shared/ids.ts';
import type { LibraryDocument } from '../../../shared/library.ts';
import type { Act } from '../../../shared/round.ts';
import { inOrder, planMerge, type Holdings } from '../../../src/ledger/merge.ts';
import { joinVersions } from '../../../src/ledger/versions.ts';

export const idOf = (number: number): Id =>
  makeId(
    1_700_000_000_000 + number,
    Uint8Array.from({ length: 10 }, (_, i) => (number * 31 + i * 7) % 256),
  );

const AT = '2026-03-01T09:00:00.000+01:00';

/** Invented. */
export const reedOf = (number: number, versions: Record<Id, number>, note: string): LibraryDocument => ({
  kind: 'reed',
  formatVersion: 1,
  id: idOf(number),
  versions,
  createdAt: AT,
  updatedAt: AT,
  label: `M-${number}`,
  styleId: 'long',
  state: 'scraping',
  tags: [],
  note,
});

/** The notes of the sides of a reed. */
export const notesOf = (sides: readonly LibraryDocument[]) =>
  sides.map((side) => (side.kind === 'reed' ? side.note : undefined));

export const actOf = (device: number, seq: number, text: string): Act => ({
  act: 'noted',
  id: idOf(1e6 + device * 1e4 + seq),
  roundId: idOf(500),
  deviceId: idOf(900 + device),
  seq,
  at: AT,
  text,
});

const move = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.record({ do: fc.constant('write' as const), device: fc.nat(2), which: fc.nat(3) }),
  },
  {
    weight: 2,
    arbitrary: fc.record({ do: fc.constant('act' as const), device: fc.nat(2), which: fc.nat(9) }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ do: fc.constant('settle' as const), device: fc.nat(2), which: fc.nat(3) }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ do: fc.constant('take in' as const), device: fc.nat(2), which: fc.nat(2) }),
  },
);

/** Libraries of three devices that went through one random history of writing and taking each other in. */
export const threeLibraries: fc.Arbitrary<[Holdings, Holdings, Holdings]> = fc
  .array(move, { maxLength: 40 })
  .map((moves) => {
    const libraries: [Holdings, Holdings, Holdings] = [EMPTY, EMPTY, EMPTY];
    const writes = [0, 0, 0];
    moves.forEach((one, step) => {
      const mine = libraries[one.device]!;
      const write = (writes[one.device] = writes[one.device]! + 1);
      libraries[one.device] =
        one.do === 'take in'
          ? mergeHoldings(mine, libraries[one.which]!)
          : one.do === 'act'
            ? { ...mine, acts: [...mine.acts, actOf(one.device, write, `step ${step}`)] }
            : one.do === 'settle'
              ? settled(mine, one.which, idOf(900 + one.device), write)
              : written(mine, one.which, idOf(900 + one.device), write, `step ${step}`);
    });
    return libraries;
  });

export const EMPTY: Holdings = { documents: [], acts: [] };

/** One device chooses the side of a document that stands first. */
export function settled(library: Holdings, which: number, device: Id, write: number): Holdings {
  const sides = library.documents.filter(({ id }) => id === idOf(which));
  if (sides.length < 2) return library;
  const versions = { ...joinVersions(sides.map((side) => side.versions)), [device]: write };
  return {
    documents: [...library.documents.filter((one) => !sides.includes(one)), { ...sides[0]!, versions }],
    acts: library.acts,
    notChosen: [...(library.notChosen ?? []), ...sides.map((side) => ({ at: AT, side }))],
  };
}

/** One device writes one document, on the side of it that stands first. */
export function written(library: Holdings, which: number, device: Id, write: number, note: string): Holdings {
  const base = library.documents.find(({ id }) => id === idOf(which));
  const rest = library.documents.filter((document) => document !== base);
  const apart = rest.some(({ id }) => id === idOf(which));
  const versions = { ...base?.versions, ...(apart ? { [idOf(2000 + write)]: 1 } : { [device]: write }) };
  return { ...library, documents: [...rest, reedOf(which, versions, note)] };
}

/**
 * The union of two libraries. Commutative, associative and idempotent: libraries that have seen the same changes, in
 * any order and through any number of files, are equal.
 */
export function mergeHoldings(a: Holdings, b: Holdings): Holdings {
  const here = new Map<Id, LibraryDocument[]>();
  for (const one of a.documents) here.set(one.id, [...(here.get(one.id) ?? []), one]);
  const actsHere = new Map(a.acts.map((act) => [act.id, act]));
  const plan = planMerge(
    (id) => here.get(id) ?? [],
    (id) => actsHere.get(id),
    b,
  );
  for (const { id, sides } of plan.documents) here.set(id, [...sides]);
  return inOrder({
    documents: [...here.values()].flat(),
    acts: [...a.acts, ...plan.acts],
    notChosen: [...(a.notChosen ?? []), ...(b.notChosen ?? [])],
  });
}
