import * as z from 'zod';
import {
  documentSchema,
  notChosenSchema,
  type LibraryDocument,
  type NotChosen,
} from '../../shared/library.ts';
import { sha256Schema } from '../../shared/photo.ts';
import { actSchema, type Act } from '../../shared/round.ts';
import { canonicalJson } from '../ledger/canonical.ts';
import type { Holdings } from '../ledger/merge.ts';
import { packDocument, unpackRecord } from '../ledger/packed-document.ts';
import { sha256 } from '../ledger/sha256.ts';
import { slicesOf } from '../ledger/slices.ts';
import { heldActs, heldDocument, type Held } from './sent.ts';
import { packLog, unpackLog } from './packed-log.ts';

/** The version of the shape in which a library is carried. Raised when an older bench could not read it. */
export const CARRIED_VERSION = 1;

/** Acts that go together: more than a round has. Our own number. */
const ACTS_TOGETHER = 1000;
/** The longest record that is taken in, characters: a pass of 800 readings has a tenth of it. Our own number. */
const MAX_CHARS = 2e6;

/**
 * One thing of a library on its way through a shared case: a side of a document, some acts of one round's log, a side
 * that was not chosen, or that a picture lies beside it. Named by its content and never altered: which came first, what
 * came twice and what was lost on the way makes no difference, since the ledger's own merge is a union.
 */
export interface Carried {
  readonly _id: string;
  readonly format: 'hundredths';
  readonly version: typeof CARRIED_VERSION;
  /** The name under which it was first sent. */
  readonly by: string;
  readonly of: keyof typeof RECORDS;
  readonly record: unknown;
}

const logSchema = z.strictObject({ acts: z.array(actSchema).min(1).max(ACTS_TOGETHER) });
const pictureSchema = z.strictObject({ sha256: sha256Schema });

/** What a record may be, by what it is of, and the letter that its name begins with. */
const RECORDS = {
  document: { letter: 'd', schema: documentSchema },
  log: { letter: 'l', schema: logSchema },
  notChosen: { letter: 'n', schema: notChosenSchema },
  picture: { letter: 'p', schema: pictureSchema },
} as const;

const envelopeSchema = z.object({
  _id: z.string().max(80),
  format: z.literal('hundredths'),
  version: z.int().min(1),
  by: z.string().max(80),
  of: z.enum(['document', 'log', 'notChosen', 'picture']),
  record: z.unknown(),
});

const textOf = (record: unknown) => new TextEncoder().encode(canonicalJson(record));

/** Half of the hash tells records apart: two of 2^64 would have to meet. */
const nameOf = async (of: Carried['of'], record: unknown) =>
  `${RECORDS[of].letter}-${(await sha256(textOf(record))).slice(0, 32)}`;

async function carried(of: Carried['of'], record: unknown, by: string): Promise<Carried> {
  return { _id: await nameOf(of, record), format: 'hundredths', version: CARRIED_VERSION, by, of, record };
}

/** Some holdings as they are carried, in a fixed order. */
export async function carriedOf(
  { documents, acts, notChosen = [] }: Holdings,
  by: string,
): Promise<Carried[]> {
  const rounds = new Map<string, Act[]>();
  for (const act of acts) rounds.set(act.roundId, [...(rounds.get(act.roundId) ?? []), act]);
  const logs = [...rounds.values()].flatMap((log) => [
    ...slicesOf(
      log.sort((a, b) => a.seq - b.seq || (a.id < b.id ? -1 : 1)),
      ACTS_TOGETHER,
    ),
  ]);
  return Promise.all([
    ...documents.map((one) => carried('document', packDocument(one), by)),
    ...logs.map((log) => carried('log', packLog(log), by)),
    ...notChosen.map(({ at, side }) => carried('notChosen', { at, side: packDocument(side) }, by)),
  ]);
}

export const carriedPicture = (hash: string, by: string) => carried('picture', { sha256: hash }, by);

/** What came down and is not taken in. */
export interface Refused {
  readonly id: string;
  /** One sentence. */
  readonly why: string;
}

/** What a carried document holds, once it was looked at. */
export type Unwrapped = { readonly id: string; readonly by: string } & (
  | { readonly of: 'document'; readonly record: LibraryDocument }
  | { readonly of: 'log'; readonly record: { readonly acts: readonly Act[] } }
  | { readonly of: 'notChosen'; readonly record: NotChosen }
  | { readonly of: 'picture'; readonly record: { readonly sha256: string } }
);

/** A name that is fit to be printed. */
const printable = (id: unknown) =>
  typeof id === 'string' ? id.replace(/[^\x20-\x7e]+/g, ' ').slice(0, 40) : 'no name';

const unpacked = (of: Carried['of'], record: unknown): unknown => {
  if (of === 'log') return unpackLog(record);
  if (of !== 'notChosen' || typeof record !== 'object' || record === null || !('side' in record))
    return unpackRecord(record);
  return { ...record, side: unpackRecord(record.side) };
};

/** What one that was made here holds. */
export function heldIn({ of, record }: Carried): Held | undefined {
  if (of === 'log') return heldActs((unpackLog(record) as z.infer<typeof logSchema>).acts);
  return of === 'document' ? heldDocument(record as LibraryDocument) : undefined;
}

/** Looks at one document of a shared case. Nothing that it says of itself is believed before. */
export async function unwrap(document: unknown): Promise<Unwrapped | Refused> {
  const { success, data } = envelopeSchema.safeParse(document);
  if (!success) {
    const id = typeof document === 'object' && document !== null && '_id' in document ? document._id : '';
    return { id: printable(id), why: 'It is not of a case of reeds.' };
  }
  const { _id, version, by, of, record } = data;
  const refused = (why: string): Refused => ({ id: printable(_id), why });
  if (version > CARRIED_VERSION) return refused('It was sent by a newer version of the bench.');
  const text = textOf(record);
  if (text.length > MAX_CHARS) return refused(`It is larger than ${MAX_CHARS / 1e6} MB.`);
  if ((await nameOf(of, record)) !== _id) return refused('It is not what its name says: it was altered.');
  const sound = RECORDS[of].schema.safeParse(unpacked(of, record));
  if (!sound.success) {
    const [first] = sound.error.issues;
    return refused(`${first?.path.map(String).join('.') || 'record'}: ${first?.message ?? 'not sound'}`);
  }
  return { id: _id, by, of, record: sound.data } as Unwrapped;
}

export const isRefused = (one: Unwrapped | Refused): one is Refused => 'why' in one;
