import type { Id } from '../../shared/ids.ts';
import type { Ledger } from '../ledger/ledger-face.ts';
import { rest, type ProgressOptions } from '../ledger/patience.ts';
import type { Snapshot } from '../ledger/snapshot.ts';
import type { Changed, WholeLibrary } from '../ledger/whole-library.ts';
import { carriedOf, carriedPicture, heldIn, type Carried, type Refused } from './carried.ts';
import type { Carrier, Sending, Sent } from './carrier.ts';
import { chosenOf, withBelongings, type Chosen } from './chosen.ts';
import type { Waiting } from './progress.ts';
import type { SentMemory } from './sent.ts';

export interface Upward {
  readonly ledger: Ledger;
  readonly carrier: Carrier;
  readonly chosen: Chosen;
  readonly by: string;
  /** Names of what is there, and of acts that are, as far as it was seen. */
  readonly known: Set<string>;
  readonly memory: SentMemory;
}

/** What came of sending. */
export interface SentUp {
  /** What was sent last; absent where nothing was. */
  readonly last?: string;
  readonly refused: readonly Refused[];
}

/** So many, or so much of their text, go with one request. Our own numbers. */
const TOGETHER = { documents: 250, chars: 1e6 };
/** Fewer than these are sent without asking first whether they are there. */
const FEW = 20;

async function send(documents: readonly Sending[], { carrier, known }: Upward): Promise<readonly Sent[]> {
  const answers = await carrier.send(documents);
  for (const { id, is } of answers) if (is === 'there') known.add(id);
  return answers;
}

/** Takes out what this device has sent before, where what is there now holds more of it. */
async function takeOut(
  documents: readonly Carried[],
  answers: readonly Sent[],
  { carrier, known, memory }: Upward,
): Promise<void> {
  const holding = new Map(documents.map((one) => [one._id, heldIn(one)]));
  const there = answers.flatMap(({ id, is, rev }) => {
    const held = is === 'there' && holding.get(id);
    return held ? [{ id, rev, held }] : [];
  });
  for (const { held } of there) if ('acts' in held) for (const id of held.acts) known.add(id);
  const out = memory.supersededBy(there.map(({ held }) => held));
  if (out.length > 0) await carrier.close(out);
  const sent = there.flatMap(({ rev, ...one }) => (rev === undefined ? [] : [{ ...one, rev }]));
  await memory.change(sent, out);
}

/** What is to be sent, together until it is enough for a request. */
class Pile {
  readonly answers: Sent[] = [];
  private documents: Carried[] = [];
  private chars = 0;
  private readonly upward: Upward;

  constructor(upward: Upward) {
    this.upward = upward;
  }

  async add(documents: readonly Carried[]): Promise<void> {
    for (const one of documents) {
      if (this.upward.known.has(one._id)) continue;
      const { length } = JSON.stringify(one);
      if (this.documents.length >= TOGETHER.documents || this.chars + length > TOGETHER.chars)
        await this.send();
      this.documents.push(one);
      this.chars += length;
    }
  }

  async send(): Promise<void> {
    const documents = await this.missing(this.documents);
    this.documents = [];
    this.chars = 0;
    if (documents.length === 0) return;
    const answers = await send(documents, this.upward);
    await takeOut(documents, answers, this.upward);
    this.answers.push(...answers);
  }

  private async missing(documents: readonly Carried[]): Promise<readonly Carried[]> {
    const { carrier, known } = this.upward;
    if (documents.length < FEW) return documents;
    const missing = await carrier.missing(documents.map(({ _id }) => _id));
    for (const { _id } of documents) if (!missing.has(_id)) known.add(_id);
    return documents.filter(({ _id }) => missing.has(_id));
  }
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
): Promise<readonly Sent[]> {
  const done: Sent[] = [];
  for (const { sha256, bytes } of attachments.filter((one) => wanted.has(one.sha256))) {
    const one = await carriedPicture(sha256, upward.by);
    if (upward.known.has(one._id)) continue;
    if ((await upward.carrier.missing([one._id])).size === 0) upward.known.add(one._id);
    else done.push(...(await send([{ ...one, bytes }], upward)));
  }
  return done;
}

/** Some part of a library, and how much of all of it is done then, 0 to 1. */
interface Part {
  readonly portion: WholeLibrary;
  readonly share: number;
}

/** All of a library: its documents and pictures, then the log of each round whole. */
async function* allParts(ledger: Ledger): AsyncGenerator<Part> {
  const rounds = new Set<Id>();
  const first = await ledger.portions('all');
  let count = 0;
  let done = 0;
  const share = () => (done = Math.max(done, Math.min(1, ++count / (first.length + rounds.size))));
  for await (const portion of first.portions) {
    for (const { roundId } of portion.acts) rounds.add(roundId);
    yield { portion: { ...portion, acts: [] }, share: share() };
  }
  const logs = await ledger.portions({ ids: [], rounds: [...rounds] });
  for await (const portion of logs.portions) yield { portion, share: share() };
}

/** What has changed; of a round that was finished with it, the whole log. */
async function* changedParts(
  ledger: Ledger,
  { ids, rounds }: Changed,
  closed: ReadonlySet<Id>,
): AsyncGenerator<Part> {
  const finished = ids.filter((id) => closed.has(id));
  const changed = { ids: [...new Set(ids)], rounds: [...new Set([...rounds, ...finished])] };
  const { portions } = await ledger.portions(changed);
  for await (const portion of portions) yield { portion, share: 1 };
}

/** Sends what waits, as it stands now. @throws CarrierError */
export async function sendUp(upward: Upward, waiting: Waiting, patience: ProgressOptions): Promise<SentUp> {
  const { ledger, chosen, known, by } = upward;
  if (chosen.role === 'guest') return { refused: [] };
  const snapshot = await ledger.read();
  const closed = new Set(snapshot.live.round.flatMap(({ id, closedAs }) => (closedAs ? [id] : [])));
  const parts = waiting.all
    ? allParts(ledger)
    : changedParts(ledger, withBelongings(waiting, snapshot, chosen), closed);
  const wanted = picturesOf(snapshot, chosen);
  const pile = new Pile(upward);
  for await (const { portion, share } of parts) {
    const goes = chosenOf(portion, snapshot, chosen);
    const acts = goes.acts.filter(({ id, roundId }) => closed.has(roundId) || !known.has(id));
    await pile.add(await carriedOf({ ...goes, acts }, by));
    pile.answers.push(...(await sendPictures(portion, wanted, upward)));
    if (waiting.all) await rest(patience, share);
    patience.signal?.throwIfAborted();
  }
  await pile.send();
  return outcomeOf(pile.answers);
}

function outcomeOf(answers: readonly Sent[]): SentUp {
  const last = answers.findLast(({ is }) => is === 'there')?.id;
  const refused = answers.flatMap(({ id, is, why }) =>
    is === 'refused' ? [{ id, why: `The server has refused it${why ? `: ${why}` : '.'}` }] : [],
  );
  return { refused, ...(last !== undefined && { last }) };
}
