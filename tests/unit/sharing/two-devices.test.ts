import 'fake-indexeddb/auto';
import { copyFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Pass } from '../../../shared/pass.ts';
import type { Reed } from '../../../shared/reed.ts';
import type { Round } from '../../../shared/round.ts';
import { lastCounts } from '../../../src/ledger/late-acts.ts';
import { inOrder } from '../../../src/ledger/merge.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import { openCarrier } from '../../../src/sharing/pouch-carrier.ts';
import type { Chosen } from '../../../src/sharing/chosen.ts';
import { foldRound } from '../../../src/round/fold-round.ts';
import { passFromRound } from '../../../src/round/round-to-pass.ts';
import { Sharing } from '../../../src/sharing/sharing.ts';
import { cloned, freshName, openTestLedger, reedDraft, roundDraft } from '../ledger/open-test-ledger.ts';
import { PATIENCE_MS, startSmallServer, USERS, type SmallServer } from './small-server.ts';

/** A change waits for others until the next turn. */
const gather = () => new Promise<void>((resolve) => setTimeout(resolve));
const ALL: Chosen = { role: 'own', tags: [], photos: true, notes: true };

let server: SmallServer;
const running: { readonly sharing: Sharing; readonly done: Promise<void> }[] = [];
const ledgers: Ledger[] = [];

beforeEach(async () => {
  server = await startSmallServer();
});
afterEach(async () => {
  for (const { sharing } of running) sharing.stop();
  await Promise.all(running.splice(0).map(({ done }) => done));
  for (const ledger of ledgers.splice(0)) ledger.close();
  await server.close();
});

async function device(): Promise<Ledger> {
  const ledger = await openTestLedger();
  ledgers.push(ledger);
  return ledger;
}

function share(ledger: Ledger, name = 'bench', chosen: Chosen = ALL, password?: string): Sharing {
  const login = USERS.find((user) => user.name === name)!;
  const carrier = openCarrier({
    address: server.address,
    name,
    password: password ?? login.password,
  });
  const sharing = new Sharing({ ledger, carrier, chosen, by: name, gather });
  running.push({ sharing, done: sharing.run() });
  return sharing;
}

const even = (sharing: Sharing) =>
  vi.waitFor(() => expect([sharing.state.is, sharing.waiting.ids.length]).toEqual(['even', 0]), PATIENCE_MS);
const holdings = async (ledger: Ledger) => inOrder(await ledger.readWhole());
const same = (a: Ledger, b: Ledger) =>
  vi.waitFor(async () => expect(await holdings(a)).toEqual(await holdings(b)), PATIENCE_MS);

/** Invented. */
const reading = (thicknessMm: number, across = 0) =>
  ({ blade: 'A', fromTipMm: 5, across, thicknessMm, repeat: 0, role: 'station', flag: 'ok' }) as const;

async function reedWithPass(ledger: Ledger): Promise<{ reed: Reed; pass: Pass }> {
  const reed = (await ledger.keep([reedDraft('K-1')], 'reed')).steps[0]!.after as Reed;
  const draft = { kind: 'pass' as const, reedId: reed.id, index: 0, remedies: [], readings: [reading(0.46)] };
  const pass = (await ledger.keep([draft], 'pass')).steps[0]!.after as Pass;
  return { reed, pass };
}

/** What the round becomes when it is finished. */
async function finish(ledger: Ledger, roundId: string): Promise<void> {
  const round = (await ledger.get(roundId)) as Round;
  const acts = await ledger.actsOf(roundId);
  const pass = { ...passFromRound(round, foldRound(round, acts)), id: ledger.newId() };
  const closed = { ...round, closedAs: pass.id, closedWith: lastCounts(acts) };
  await ledger.keep([pass, closed], 'finish', { roundId, count: acts.length });
}

/** What the server has of a kind, by the letter of its name. */
const there = (letter: string) =>
  server.replica
    .changes({ since: 0, docs: true })
    .results.flatMap(({ doc }) => (doc && !doc['_deleted'] && doc._id.startsWith(letter) ? [doc] : []));

it('has on each device what was kept on the other, before and after they began to share', async () => {
  const [bench, telephone] = [await device(), await device()];
  const { reed } = await reedWithPass(bench);
  const one = share(bench);
  const other = share(telephone);
  await same(bench, telephone);
  expect((await telephone.passesOf(reed.id))[0]?.readings[0]?.thicknessMm).toBe(0.46);

  const roundId = (await telephone.keep([roundDraft(reed.id)], 'round')).steps[0]!.after.id;
  for (const text of ['one', 'two', 'three']) await telephone.appendAct({ act: 'noted', roundId, text });
  await same(bench, telephone);
  expect((await bench.actsOf(roundId)).map((act) => act.act === 'noted' && act.text)).toEqual([
    'one',
    'two',
    'three',
  ]);
  await even(one);
  await even(other);
  expect(one.refused).toEqual([]);
});

it('asks where both have set one field, and merges different fields, once they are together again', async () => {
  const [bench, telephone] = [await device(), await device()];
  const { reed } = await reedWithPass(bench);
  share(bench);
  const before = share(telephone);
  await same(bench, telephone);
  before.stop();
  await telephone.keep([{ ...reed, note: 'soft', tags: ['long gouge'] }], 'note');
  await bench.keep([{ ...reed, note: 'stiff' }], 'note');
  share(telephone);
  await same(bench, telephone);
  const { disagreements } = await bench.read();
  expect(disagreements.map((sides) => sides.map((side) => (side as Reed).note).sort())).toEqual([
    ['soft', 'stiff'],
  ]);
});

it('has the log of a finished round as one document, and so of every version, with what came late', async () => {
  const [bench, telephone, third] = [await device(), await device(), await device()];
  const { reed } = await reedWithPass(bench);
  const roundId = (await bench.keep([roundDraft(reed.id)], 'round')).steps[0]!.after.id;
  const [one, other] = [share(bench), share(telephone, 'telephone')];
  const say = (ledger: Ledger, text: string) => ledger.appendAct({ act: 'noted', roundId, text });
  await same(bench, telephone);
  for (const text of ['1', '2', '3']) {
    await say(bench, text);
    await say(telephone, text);
    await same(bench, telephone);
    await bench.keep([{ ...((await bench.get(reed.id)) as Reed), note: text }], 'note');
    await even(one);
  }
  expect(there('l')).toHaveLength(6);
  other.stop();
  await say(telephone, 'late');
  await finish(bench, roundId);
  share(telephone, 'telephone');
  await same(bench, telephone);
  await vi.waitFor(() => expect(there('l')).toHaveLength(1), PATIENCE_MS);
  share(third);
  await same(bench, third);
  expect(await third.actsOf(roundId)).toHaveLength(7);
  // A reed, its pass and that of the round, and the round: each as it is now.
  await vi.waitFor(() => expect(there('d')).toHaveLength(4), PATIENCE_MS);
});

it('carries pictures, and leaves them out where they are not wanted', async () => {
  const [bench, telephone, pupil] = [await device(), await device(), await device()];
  const { reed } = await reedWithPass(bench);
  const png = Uint8Array.from(
    atob('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=='),
    (sign) => sign.charCodeAt(0),
  );
  await bench.keepPhoto({ of: reed.id }, png, 'photo');
  const hash = (await bench.documents('photo'))[0]!.sha256;
  share(bench);
  share(telephone);
  await vi.waitFor(
    async () => expect(await telephone.photoBytes(hash)).toEqual(await bench.photoBytes(hash)),
    PATIENCE_MS,
  );
  await even(share(pupil, 'pupil', { role: 'guest', tags: [], photos: false, notes: true }));
  expect((await pupil.read()).live.reed).toHaveLength(1);
  expect(await pupil.photoBytes(hash)).toBeUndefined();
});

it('lets no word of a note out where notes are left out, and loses none by what comes back', async () => {
  const [bench, telephone] = [await device(), await device()];
  const { reed, pass } = await reedWithPass(bench);
  const words = ['first words', 'second words', 'third words', 'fourth words', 'fifth words'] as const;
  await bench.keep([{ ...reed, note: words[0] }], 'note');
  await bench.keep([{ ...((await bench.get(reed.id)) as Reed), note: words[1] }], 'note');
  await bench.keep([{ ...pass, note: words[2] }], 'note');
  const roundId = (await bench.keep([roundDraft(reed.id)], 'round')).steps[0]!.after.id;
  await bench.appendAct({ act: 'noted', roundId, text: words[3] });
  const taken = {
    act: 'taken',
    station: roundDraft('').stations[0]!,
    thicknessMm: 0.46,
    flag: 'ok',
  } as const;
  await bench.appendAct({ ...taken, roundId });
  const side = { ...((await bench.get(reed.id)) as Reed), note: words[4], versions: { [bench.newId()]: 1 } };
  await bench.merge({ documents: [], acts: [], notChosen: [{ at: side.updatedAt, side }] });
  const one = share(bench, 'bench', { ...ALL, notes: false });
  await even(one);
  share(telephone, 'telephone');
  await vi.waitFor(async () => expect(await telephone.actsOf(roundId)).toHaveLength(1), PATIENCE_MS);

  // Another field, and words in a note that is empty there.
  await telephone.keep([{ ...((await telephone.get(reed.id)) as Reed), tags: ['long gouge'] }], 'tags');
  await telephone.keep([{ ...((await telephone.get(pass.id)) as Pass), note: 'theirs' }], 'note');
  await vi.waitFor(async () => {
    expect(await bench.get(reed.id)).toMatchObject({ tags: ['long gouge'], note: words[1] });
    expect(await bench.get(pass.id)).toMatchObject({ note: 'theirs' });
  }, PATIENCE_MS);
  const kept = (await bench.notChosen()).map((one) => (one.side as Reed | Pass).note);
  expect(kept.sort()).toEqual([words[4], words[2]]);
  expect((await bench.actsOf(roundId)).map(({ act }) => act)).toEqual(['noted', 'taken']);
  // A round that is finished there.
  await finish(telephone, roundId);
  await vi.waitFor(async () => {
    const [, second] = await bench.passesOf(reed.id);
    expect(second).toMatchObject({ note: words[3], readings: [{ thicknessMm: 0.46 }] });
  }, PATIENCE_MS);
  expect((await bench.read()).disagreements).toEqual([]);

  // A server that has lost its memory is sent everything again, and gives everything back.
  one.stop();
  const port = Number(new URL(server.address).port);
  const texts = [JSON.stringify(server.replica.changes({ since: 0, docs: true }))];
  await server.close();
  server = await startSmallServer({ port });
  await even(share(bench, 'bench', { ...ALL, notes: false }));
  texts.push(JSON.stringify(server.replica.changes({ since: 0, docs: true })));
  for (const text of texts) {
    expect(text).toContain(reed.id);
    for (const word of words) expect(text).not.toContain(word);
  }
  expect((await bench.notChosen()).map((again) => (again.side as Reed | Pass).note).sort()).toEqual(kept);
});

it('shares the reeds of a tag alone, and a reed with all that is its own once it gets the tag', async () => {
  const [bench, telephone] = [await device(), await device()];
  const { reed, pass } = await reedWithPass(bench);
  const chosen: Chosen = { role: 'class', tags: ['lesson'], photos: true, notes: true };
  await even(share(bench, 'bench', chosen));
  expect(server.replica.count).toBe(0);
  await bench.keep([{ ...reed, tags: ['lesson'] }], 'tag');
  share(telephone, 'telephone', chosen);
  await vi.waitFor(
    async () => expect((await telephone.passesOf(reed.id)).map(({ id }) => id)).toEqual([pass.id]),
    PATIENCE_MS,
  );
});

it('sends nothing for a guest, whose server refuses what is sent all the same', async () => {
  const [bench, pupil] = [await device(), await device()];
  const { reed } = await reedWithPass(bench);
  await even(share(bench));
  const { sequence } = server.replica;
  const guest = share(pupil, 'pupil', { role: 'guest', tags: [], photos: true, notes: true });
  await even(guest);
  await pupil.keep([{ ...((await pupil.get(reed.id)) as Reed), note: 'mine' }], 'note');
  await even(guest);
  expect(server.replica.sequence).toBe(sequence);
  guest.stop();
  const pretends = share(pupil, 'pupil');
  await vi.waitFor(() => expect(pretends.refused[0]?.why).toContain('This name may read only.'), PATIENCE_MS);
  expect(server.replica.sequence).toBe(sequence);
});

it('is paused at once while the server takes a batch and does not answer, and goes on later', async () => {
  const [bench, telephone] = [await device(), await device()];
  await reedWithPass(bench);
  const { name, password } = USERS[0]!;
  const end = new AbortController();
  const carrier = openCarrier({ address: server.address, name, password }, end.signal);
  const silent = vi.fn();
  server.answer = (request, response) =>
    request.url?.includes('_bulk_docs') ? silent() : void server.protocol(request, response);
  const sharing = new Sharing({ ledger: bench, carrier, chosen: ALL, by: name, gather });
  const done = sharing.run();
  await vi.waitFor(() => expect(silent).toHaveBeenCalled(), PATIENCE_MS);
  end.abort();
  sharing.stop();
  await done;
  expect(sharing.state.is).toBe('stopped');
  server.answer = undefined;
  share(bench);
  share(telephone);
  await same(bench, telephone);
});

it('says that the name or the password is wrong, and does not try again', async () => {
  const sharing = share(await device(), 'bench', ALL, 'wrong');
  await vi.waitFor(
    () => expect(sharing.state).toMatchObject({ is: 'trouble', error: { trouble: 'name' } }),
    PATIENCE_MS,
  );
  const { length } = server.asked;
  await new Promise((resolve) => setTimeout(resolve, 100));
  expect(server.asked).toHaveLength(length);
});

it('has all of two devices of which one was copied from the other with its browser, password and all', async () => {
  const name = freshName();
  const before = await openTestLedger({ name });
  const { reed } = await reedWithPass(before);
  const first = share(before);
  await even(first);
  first.stop();
  await vi.waitFor(() => expect(first.state.is).toBe('stopped'));
  await running.pop()!.done;
  before.close();
  const copy = await cloned(name);
  const [bench, clone] = [await openTestLedger({ name }), await openTestLedger({ name: copy })];
  ledgers.push(bench, clone);
  expect(clone.deviceId).toBe(bench.deviceId);
  await bench.keep([{ ...reed, note: 'stiff' }], 'note');
  await clone.keep([{ ...reed, tags: ['long gouge'] }, reedDraft('K-2')], 'tags');
  const all = [share(bench), share(clone)];
  await same(bench, clone);
  for (const sharing of all) await even(sharing);
  expect(await bench.get(reed.id)).toMatchObject({ note: 'stiff', tags: ['long gouge'] });
  expect((await bench.read()).live.reed.map(({ label }) => label).sort()).toEqual(['K-1', 'K-2']);
  expect((await bench.read()).disagreements).toEqual([]);
});

it.each([0, 1])('goes on with a server that was put back from a copy of %i reeds', async (copied) => {
  const folder = mkdtempSync(join(tmpdir(), 'hundredths-put-back-'));
  const [path, copy] = [join(folder, 'case.jsonl'), join(folder, 'copy.jsonl')];
  const port = Number(new URL(server.address).port);
  const restart = async (from: string) => {
    await server.close();
    server = await startSmallServer({ port, path: from });
  };
  await restart(path);
  const bench = await device();
  const one = share(bench);
  writeFileSync(copy, '');
  for (let number = 1; number <= 2; number++) {
    await bench.keep([reedDraft(`K-${number}`)], 'reed');
    await vi.waitFor(() => expect(there('d')).toHaveLength(number), PATIENCE_MS);
    await even(one);
    if (number === copied) copyFileSync(path, copy);
  }
  one.stop();
  await restart(copy);
  expect(there('d')).toHaveLength(copied);
  await even(share(bench));
  const telephone = await device();
  share(telephone);
  await same(bench, telephone);
  expect((await telephone.read()).live.reed).toHaveLength(2);
  rmSync(folder, { recursive: true });
});

it('reads lost revisions of the server, takes them in and closes them', async () => {
  const [bench, telephone] = [await device(), await device()];
  await reedWithPass(bench);
  const one = share(bench);
  await even(one);
  one.stop();
  const [row] = server.replica.changes({ since: 0, docs: true }).results;
  const { _rev: _, ...body } = row!.doc!;
  const lost = { ...body, _rev: '1-00000000000000000000000000000000', by: 'bench' };
  server.replica.write([lost], () => undefined, false);
  expect(server.replica.leavesOf(row!.id)).toHaveLength(2);
  share(telephone);
  await same(bench, telephone);
  await vi.waitFor(
    () => expect(server.replica.leavesOf(row!.id).filter(({ deleted }) => !deleted)).toHaveLength(1),
    PATIENCE_MS,
  );
});
