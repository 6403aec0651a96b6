import { expect, it } from 'vitest';
import * as z from 'zod';
import { documentSchema, type LibraryDocument } from '../../../shared/library.ts';
import { planMerge } from '../../../src/ledger/merge.ts';
import { lacksNotes, withAllNotes, withoutNotes } from '../../../src/ledger/notes.ts';
import { idOf, reedOf } from './random-libraries.ts';

const [A, B] = [idOf(901), idOf(902)] as const;
const reed = (
  versions: Record<string, number>,
  note: string | undefined,
  edits?: LibraryDocument['edits'],
) => {
  const { note: _, ...rest } = reedOf(1, versions, '') as Extract<LibraryDocument, { kind: 'reed' }>;
  return { ...rest, ...(note !== undefined && { note }), ...(edits && { edits }) };
};
const SECRET = 'words of the maker';

interface Shape {
  readonly maxLength?: number;
  readonly properties?: Readonly<Record<string, Shape>>;
  readonly items?: Shape;
  readonly oneOf?: readonly Shape[];
  readonly anyOf?: readonly Shape[];
  readonly additionalProperties?: Shape | boolean;
}

/** Values of every shape, in which one text after the other that is longer than a name is `SECRET`. */
function* secretsIn(shape: Shape): Generator<unknown> {
  // Names and words of the trade have 120 characters at most.
  if ((shape.maxLength ?? 0) > 120) yield SECRET;
  for (const one of [...(shape.oneOf ?? []), ...(shape.anyOf ?? [])]) yield* secretsIn(one);
  for (const [key, inner] of Object.entries(shape.properties ?? {}))
    for (const value of secretsIn(inner)) yield { [key]: value };
  if (shape.items) for (const value of secretsIn(shape.items)) yield [value];
  if (typeof shape.additionalProperties === 'object')
    for (const value of secretsIn(shape.additionalProperties)) yield { any: value };
}

it('leaves out every text of a document that is longer than a name, of every kind', () => {
  // The maker's table of habits is words throughout and stays here whole; settings have how a line is to be read.
  const kinds = documentSchema.options.filter(
    ({ shape }) => !['habit', 'settings'].includes(shape.kind.value),
  );
  const shapes = kinds.map((kind) => z.toJSONSchema(kind) as Shape);
  const all = shapes.flatMap((shape) => [...secretsIn(shape)]);
  expect(all.length).toBeGreaterThan(15);
  for (const one of all)
    expect(JSON.stringify(withoutNotes(one as LibraryDocument)), JSON.stringify(one)).not.toContain(SECRET);
});

it('leaves notes of music, and everything else, as it is', () => {
  const trial = { peep: { note: 'C6' }, pitchCents: [{ note: 'A4', cents: 3 }], words: SECRET } as unknown;
  expect(withoutNotes(trial as LibraryDocument)).toEqual({
    peep: { note: 'C6' },
    pitchCents: [{ note: 'A4', cents: 3 }],
  });
  const bare = reed({ [A]: 1 }, undefined);
  expect(withoutNotes(bare)).toBe(bare);
});

const merged = (here: readonly LibraryDocument[], comes: LibraryDocument) =>
  planMerge(
    () => here,
    () => undefined,
    { documents: [comes], acts: [] },
  );

it('takes no note away where a version comes that went out without it, in whatever order both come', () => {
  const first = reed({ [A]: 1 }, SECRET);
  const edited = { ...withoutNotes(first), tags: ['long gouge'], versions: { [A]: 1, [B]: 1 } };
  const later = { ...edited, edits: { base: { [A]: 1 }, fields: { tags: { [B]: 1 } } } } as LibraryDocument;
  expect(merged([first], withoutNotes(first)).documents).toEqual([]);
  for (const [here, comes] of [
    [first, later],
    [later, first],
  ] as const)
    expect(merged([here], comes).documents[0]?.sides).toEqual([{ ...later, note: SECRET }]);
  expect(merged([withoutNotes(first)], first).documents[0]?.sides).toEqual([first]);
  expect(lacksNotes(first, later)).toBe(false);
});

it('lets a note be taken away, or written anew, by whoever wrote it', () => {
  const first = reed({ [A]: 1 }, SECRET);
  for (const note of [undefined, 'other words']) {
    const later = reed({ [A]: 2 }, note, { base: { [A]: 1 }, fields: { note: { [A]: 2 } } });
    expect(merged([first], later).documents[0]?.sides).toEqual([later]);
    // Where nobody else has seen it, that is told by who asks.
    expect(lacksNotes(first, later)).toBe(true);
  }
});

it('fills the same whatever comes first, and nothing a second time', () => {
  const sides = [reed({ [A]: 1 }, undefined), reed({ [A]: 1 }, SECRET), reed({ [B]: 1 }, 'theirs')];
  const once = withAllNotes(sides);
  expect(once.map((side) => 'note' in side && side.note)).toEqual([SECRET, SECRET, 'theirs']);
  expect(withAllNotes(once)).toEqual(once);
  expect(withAllNotes([...sides].reverse())).toEqual([...once].reverse());
});
