import { FormatError } from '../../shared/errors.ts';
import type { LibraryDocument, NotChosen } from '../../shared/library.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Reading } from '../../shared/reading.ts';
import { canonicalJson } from '../ledger/canonical.ts';
import type { Ledger } from '../ledger/ledger-face.ts';
import { lacksNotes, withoutNotes } from '../ledger/notes.ts';
import { compareVersions } from '../ledger/versions.ts';
import type { Incoming } from '../ledger/whole-library.ts';
import { isPrivate, type Chosen } from './chosen.ts';
import { isRefused, unwrap, type Refused, type Unwrapped } from './carried.ts';
import { noteRead } from './guest.ts';
import { keepRoundNotes } from './round-notes.ts';

/** Where what comes is taken in, and what of it others have. */
export interface Into {
  readonly ledger: Ledger;
  readonly chosen: Chosen;
}

/** What came down, looked at. */
export interface LookedAt {
  readonly sound: readonly Unwrapped[];
  readonly refused: readonly Refused[];
}

export async function lookAt(documents: readonly unknown[]): Promise<LookedAt> {
  const all = await Promise.all(documents.map(unwrap));
  return { sound: all.filter((one): one is Unwrapped => !isRefused(one)), refused: all.filter(isRefused) };
}

/** What some records are as a library. Pictures are none yet: their bytes are fetched by themselves. */
export function incomingOf(sound: readonly Unwrapped[]): Incoming {
  return {
    documents: sound.flatMap((one) => (one.of === 'document' ? [one.record] : [])),
    acts: sound.flatMap((one) => (one.of === 'log' ? one.record.acts : [])),
    notChosen: sound.flatMap((one) => (one.of === 'notChosen' ? [one.record] : [])),
  };
}

const readingsOf = ({ readings, replaced = [] }: Pass): readonly Reading[] => [
  ...readings,
  ...replaced.flatMap(({ was }) => was),
];
const numberIn = ({ blade, fromTipMm, across, thicknessMm }: Reading) =>
  canonicalJson([blade, fromTipMm, across, thicknessMm]);

/** Whether a pass that comes has not all the numbers that were read for the one that is here. */
function lacksReadings(here: LibraryDocument, comes: LibraryDocument): boolean {
  if (here.kind !== 'pass' || comes.kind !== 'pass') return false;
  const there = new Set(readingsOf(comes).map(numberIn));
  return readingsOf(here).some((reading) => !there.has(numberIn(reading)));
}

/**
 * Passes of this library that would be replaced by one without some of their readings, and documents whose notes nobody
 * else has seen: they are kept beside it as not chosen, whoever has sent it, so that no number that was read here, and
 * no note, is ever lost by what comes from elsewhere.
 */
async function displaced(
  { ledger, chosen }: Into,
  documents: readonly LibraryDocument[],
): Promise<NotChosen[]> {
  const coming = documents.filter(({ kind }) => kind === 'pass' || !chosen.notes);
  const { portions } = await ledger.portions({ ids: coming.map(({ id }) => id), rounds: [] });
  const found: NotChosen[] = [];
  for await (const portion of portions)
    for (const here of portion.documents) {
      const isLost = (comes: LibraryDocument) =>
        compareVersions(comes.versions, here.versions) === 'newer' &&
        (lacksReadings(here, comes) || (!chosen.notes && lacksNotes(here, comes)));
      if (coming.some((comes) => comes.id === here.id && isLost(comes)))
        found.push({ at: here.updatedAt, side: here });
    }
  return found;
}

/** What was not chosen is here already with its notes, where it comes without. */
async function unknownSides({ ledger, chosen }: Into, notChosen: readonly NotChosen[]): Promise<NotChosen[]> {
  if (chosen.notes || notChosen.length === 0) return [...notChosen];
  const textOf = ({ at, side }: NotChosen) => canonicalJson({ at, side: withoutNotes(side) });
  const here = new Set((await ledger.notChosen()).map(textOf));
  return notChosen.filter((one) => !here.has(textOf(one)));
}

/** Takes in the bytes of pictures, looked at already. */
export async function takePictures(
  { ledger }: Into,
  attachments: NonNullable<Incoming['attachments']>,
): Promise<void> {
  if (attachments.length > 0)
    await ledger.merge({ documents: [], acts: [], attachments }, { isShared: true });
}

/** What a device takes of what came: choices of one maker are none for others. */
function concerning({ role }: Chosen, { documents, notChosen = [], ...incoming }: Incoming): Incoming {
  const goes = ({ kind }: LibraryDocument) => role === 'own' || !isPrivate(kind);
  return {
    ...incoming,
    documents: documents.filter(goes),
    notChosen: notChosen.filter(({ side }) => goes(side)),
  };
}

async function mergeSafely(into: Into, came: Incoming): Promise<void> {
  const incoming = concerning(into.chosen, came);
  if (into.chosen.role === 'guest')
    await noteRead(
      into.ledger,
      incoming.documents.map(({ id }) => id),
    );
  const before = await displaced(into, incoming.documents);
  const notChosen = [...(await unknownSides(into, incoming.notChosen ?? [])), ...before];
  await into.ledger.merge({ ...incoming, notChosen }, { isShared: true });
  if (!into.chosen.notes) await keepRoundNotes(into.ledger, incoming);
}

/**
 * Takes in what came down, all that is sound of it. What the ledger will not have (an id that names something else here)
 * is told apart one by one, and the rest is taken.
 *
 * @returns What was refused.
 */
export async function takeIn(into: Into, sound: readonly Unwrapped[]): Promise<Refused[]> {
  if (sound.length === 0) return [];
  try {
    await mergeSafely(into, incomingOf(sound));
    return [];
  } catch (error) {
    if (!(error instanceof FormatError)) throw error;
    const [one] = sound;
    if (sound.length === 1 && one)
      return [{ id: one.id, why: error.problems[0]?.what ?? 'It contradicts what is here.' }];
  }
  const half = Math.ceil(sound.length / 2);
  return [...(await takeIn(into, sound.slice(0, half))), ...(await takeIn(into, sound.slice(half)))];
}
