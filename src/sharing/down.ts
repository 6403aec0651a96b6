import { MAX_PHOTO_BYTES } from '../../shared/photo.ts';
import { canonicalJson } from '../ledger/canonical.ts';
import type { StoredAttachment } from '../ledger/database.ts';
import type { Ledger } from '../ledger/ledger-face.ts';
import { mediaTypeOf } from '../ledger/photos.ts';
import { sha256 } from '../ledger/sha256.ts';
import type { Refused, Unwrapped } from './carried.ts';
import { CarrierError, type CarriedRow, type CarriedRows, type Carrier } from './carrier.ts';
import type { Chosen } from './chosen.ts';
import { heldActs, heldDocument, type Held, type SentMemory } from './sent.ts';
import { lookAt, takeIn, takePictures } from './take-in.ts';

export interface Downward {
  readonly ledger: Ledger;
  readonly carrier: Carrier;
  readonly chosen: Chosen;
  /** Names of what is on both sides, and of acts that are. */
  readonly known: Set<string>;
  readonly signal: AbortSignal;
  readonly memory: SentMemory;
  /** The name under which this device sends. */
  readonly by: string;
}

/** The way from the shared case into the library. */
export interface Down {
  readonly next: (since: string) => Promise<CarriedRows>;
  /** @returns What was refused. @throws CarrierError when it sends without end, or nothing but nonsense. */
  readonly take: (rows: CarriedRows, since: string) => Promise<readonly Refused[]>;
}

const AT_ONCE = 200;
/** So much of what is there already, or of nonsense, is borne in one session. Our own numbers. */
const MOST = { again: 2000, refused: 1000 };

const endless = () => new CarrierError('hostile', 'It goes on sending, and there is nothing new in it.');
const nonsense = () =>
  new CarrierError('hostile', `More than ${MOST.refused} of its documents are none of a case of reeds.`);

async function pictureOf(
  { id, record }: Extract<Unwrapped, { of: 'picture' }>,
  { carrier }: Downward,
): Promise<StoredAttachment | Refused> {
  const bytes = await carrier.picture(id);
  if (bytes.length > MAX_PHOTO_BYTES) return { id, why: `It is larger than ${MAX_PHOTO_BYTES / 1e6} MB.` };
  if (!mediaTypeOf(bytes)) return { id, why: 'It is no JPEG, PNG or WebP picture.' };
  if ((await sha256(bytes)) !== record.sha256)
    return { id, why: 'The picture is not the one that it is named for.' };
  return { sha256: record.sha256, bytes };
}

/** The pictures among what came that are not here. */
async function picturesIn(sound: readonly Unwrapped[], down: Downward) {
  const pictures: StoredAttachment[] = [];
  const refused: Refused[] = [];
  if (!down.chosen.photos) return { pictures, refused };
  for (const one of sound) {
    if (one.of !== 'picture' || (await down.ledger.photoBytes(one.record.sha256))) continue;
    const picture = await pictureOf(one, down);
    if ('why' in picture) refused.push(picture);
    else pictures.push(picture);
  }
  return { pictures, refused };
}

/** Lost revisions of what came: read, taken in like the rest, and closed there. */
async function closeBranches(rows: readonly CarriedRow[], down: Downward): Promise<Refused[]> {
  const { carrier, chosen } = down;
  const lost = rows.flatMap(({ id, conflicts }) => conflicts.map((rev) => ({ id, rev })));
  if (lost.length === 0) return [];
  const { sound, refused } = await lookAt(await carrier.branches(lost));
  const left = await takeIn(down, sound);
  // What was not taken in stays where it is.
  const kept = new Set([...refused, ...left].map(({ id }) => id));
  const closing = lost.filter(({ id }) => !kept.has(id));
  if (chosen.role !== 'guest' && closing.length > 0) await carrier.close(closing);
  return [...refused, ...left];
}

/** What of the library or of a log is there by now, and whole: a version that lacks a note which is here is not. */
async function heldThere(one: Unwrapped, ledger: Ledger): Promise<Held[]> {
  if (one.of === 'log') return [heldActs(one.record.acts)];
  if (one.of !== 'document') return [];
  const here = await ledger.get(one.record.id);
  return canonicalJson(here ?? null) === canonicalJson(one.record) ? [heldDocument(one.record)] : [];
}

/**
 * Takes out what this device has sent, where one that came has all of it and more: of a class, one of its own name
 * only, since whoever sent it may take it out again.
 */
async function takeOutHeld(
  sound: readonly Unwrapped[],
  { ledger, carrier, chosen, memory, by }: Downward,
): Promise<void> {
  if (chosen.role === 'guest' || memory.isEmpty) return;
  const trusted = sound.filter((one) => chosen.role === 'own' || one.by === by);
  const held = await Promise.all(trusted.map((one) => heldThere(one, ledger)));
  const out = memory.supersededBy(held.flat());
  if (out.length > 0) await carrier.close(out);
  await memory.change([], out);
}

export function makeDown(down: Downward): Down {
  const { carrier, known, signal } = down;
  const came = new Set<string>();
  let again = 0;
  let bad = 0;
  return {
    next: (since) => carrier.changes(since, AT_ONCE, signal),
    async take({ rows, last }, since) {
      if (rows.length > 0 && last === since) throw endless();
      const fresh = rows.filter(({ id, document }) => document !== undefined && !known.has(id));
      // What is taken out is told of once more.
      const told = rows.map(({ id, document }) => `${id} ${document !== undefined}`);
      again += told.filter((one) => came.has(one)).length;
      for (const one of told) came.add(one);
      if (again > MOST.again) throw endless();
      const { sound, refused: unsound } = await lookAt(fresh.map(({ document }) => document));
      const { pictures, refused: noPictures } = await picturesIn(sound, down);
      await takePictures(down, pictures);
      const left = await takeIn(down, sound);
      const branches = await closeBranches(rows, down);
      for (const { id } of fresh) known.add(id);
      for (const one of sound) if (one.of === 'log') for (const { id } of one.record.acts) known.add(id);
      const refused = new Set(left.map(({ id }) => id));
      await takeOutHeld(
        sound.filter(({ id }) => !refused.has(id)),
        down,
      );
      const all = [...unsound, ...noPictures, ...left, ...branches];
      bad += all.length;
      if (bad > MOST.refused) throw nonsense();
      return all;
    },
  };
}
