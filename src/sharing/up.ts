import type { Id } from '../../shared/ids.ts';
import type { Ledger } from '../ledger/ledger-face.ts';
import { rest, type ProgressOptions } from '../ledger/patience.ts';
import type { Snapshot } from '../ledger/snapshot.ts';
import type { Changed, WholeLibrary } from '../ledger/whole-library.ts';
import { carriedOf, carriedPicture, type Carried, type Refused } from './carried.ts';
import type { Carrier, Sending } from './carrier.ts';
import { chosenOf, withBelongings, type Chosen } from './chosen.ts';
import type { Waiting } from './progress.ts';

export interface Upward {
  readonly ledger: Ledger;
  readonly carrier: Carrier;
  readonly chosen: Chosen;
  readonly by: string;
  /** Names of what is there, and of acts that are, as far as it was seen. */
  readonly known: Set<string>;
}

/** What came of sending. */
export interface SentUp {
  readonly sent: number;
  readonly refused: readonly Refused[];
}

/** So many, or so much of their text, go with one request. Our own numbers. */
const TOGETHER = { documents: 100, chars: 1e6 };
/** Fewer than these are sent without asking first whether they are there. */
const FEW = 20;

function* requestsOf(documents: readonly Carried[]): Generator<Carried[]> {
  let together: Carried[] = [];
  let chars = 0;
  for (const one of documents) {
    const { length } = JSON.stringify(one);
    if (together.length > 0 && (together.length >= TOGETHER.documents || chars + length > TOGETHER.chars)) {
      yield together;
      [together, chars] = [[], 0];
    }
    together.push(one);
    chars += length;
  }
  if (together.length > 0) yield together;
}

async function unsent(documents: readonly Carried[], { carrier, known }: Upward): Promise<Carried[]> {
  const fresh = documents.filter(({ _id }) => !known.has(_id));
  if (fresh.length < FEW) return fresh;
  const missing = await carrier.missing(fresh.map(({ _id }) => _id));
  for (const { _id } of fresh) if (!missing.has(_id)) known.add(_id);
  return fresh.filter(({ _id }) => missing.has(_id));
}

async function send(documents: readonly Sending[], { carrier, known }: Upward): Promise<SentUp> {
  const answers = await carrier.send(documents);
  for (const { id, is } of answers) if (is === 'there') known.add(id);
  const refused = answers.flatMap(({ id, is, why }) =>
    is === 'refused' ? [{ id, why: `The server has refused it${why ? `: ${why}` : '.'}` }] : [],
  );
  return { sent: documents.length, refused };
}

/** Hashes of the pictures that are shared. */
function picturesOf(snapshot: Snapshot, chosen: Chosen): ReadonlySet<string> {
  const { documents } = chosenOf({ documents: snapshot.live.photo, acts: [] }, snapshot, chosen);
  return new Set(documents.flatMap((one) => (one.kind === 'photo' ? [one.sha256] : [])));
}

/** The pictures of a portion, one a request. */
async function sendPictures(
  { attachments }: WholeLibrary,
  wanted: ReadonlySet<string>,
  upward: Upward,
): Promise<SentUp[]> {
  const done: SentUp[] = [];
  for (const { sha256, bytes } of attachments.filter((one) => wanted.has(one.sha256))) {
    const one = await carriedPicture(sha256, upward.by);
    if (upward.known.has(one._id)) continue;
    if ((await upward.carrier.missing([one._id])).size === 0) upward.known.add(one._id);
    else done.push(await send([{ ...one, bytes }], upward));
  }
  return done;
}

async function sendPortion(portion: WholeLibrary, snapshot: Snapshot, upward: Upward): Promise<SentUp[]> {
  const { known, chosen, by } = upward;
  const goes = chosenOf(portion, snapshot, chosen);
  const acts = goes.acts.filter(({ id }) => !known.has(id));
  const documents = await unsent(await carriedOf({ ...goes, acts }, by), upward);
  const done: SentUp[] = [];
  for (const some of requestsOf(documents)) done.push(await send(some, upward));
  for (const { id } of acts) known.add(id);
  return [...done, ...(await sendPictures(portion, picturesOf(snapshot, chosen), upward))];
}

const changedOf = async ({ ids, rounds }: Waiting, snapshot: Snapshot, chosen: Chosen): Promise<Changed> =>
  withBelongings({ ids: [...new Set<Id>(ids)], rounds }, snapshot, chosen);

/** Sends what waits, as it stands now. @throws CarrierError */
export async function sendUp(upward: Upward, waiting: Waiting, patience: ProgressOptions): Promise<SentUp> {
  const { ledger, chosen } = upward;
  if (chosen.role === 'guest') return { sent: 0, refused: [] };
  const snapshot = await ledger.read();
  const changed = waiting.all ? 'all' : await changedOf(waiting, snapshot, chosen);
  const { portions, length } = await ledger.portions(changed);
  const done: SentUp[] = [];
  let count = 0;
  for await (const portion of portions) {
    done.push(...(await sendPortion(portion, snapshot, upward)));
    count += 1;
    if (waiting.all) await rest(patience, Math.min(1, count / length));
    patience.signal?.throwIfAborted();
  }
  return {
    sent: done.reduce((sum, one) => sum + one.sent, 0),
    refused: done.flatMap((one) => one.refused),
  };
}
