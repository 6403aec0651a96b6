// Two makers' devices and the small server, which is killed again and again while both type; then one of the devices
// is copied with its browser, and the copy goes on beside it.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { canonicalJson } from '../../src/ledger/canonical.ts';
import { inOrder } from '../../src/ledger/merge.ts';
import type { Request } from 'playwright-core';
import { goTo } from '../journeys/shared-case.ts';
import { serve } from '../journeys/static-server.ts';
import { seededRandom } from '../seeded-random.ts';
import { KillableServer } from '../unit/sharing/killable-server.ts';
import type { Claims } from './claimed.ts';
import { copyOf, joinCase, openDevice, toRound, typeReading, type App, type Device } from './study-device.ts';

type Log = (line: string) => void;

/** How long one may wait for the other at the end: longer than sharing ever waits before it tries again, ms. */
const PATIENCE_MS = 400_000;
/** The server is up, and then down, so long at most, ms. */
const UP_MS = 5500;
const DOWN_MS = 1500;
/** A maker takes at most so long from one reading to the next, ms. */
const TYPING_MS = 1500;
/** So many kills lie between two changes of the same things on both sides. */
const KILLS_A_QUESTION = 10;
const YEAR_MS = 365 * 24 * 3600_000;

/** Runs in the page: reeds for questions, and the round that both read. @returns The reed that is read. */
async function begin(questions: number): Promise<string> {
  const { store } = document.querySelector<App>('bench-app' as never)!;
  const reed = { kind: 'reed' as const, styleId: 'long', state: 'scraping' as const, tags: [] };
  const labels = Array.from({ length: questions }, (_, i) => [`Asked ${i}`, `Merged ${i}`]).flat();
  await store.keep([{ ...reed, label: 'Read' }, ...labels.map((label) => ({ ...reed, label }))], 'reeds');
  const stations = Array.from({ length: 800 }, (_, i) => ({
    blade: 'A' as const,
    fromTipMm: 1 + Math.floor(i / 8) / 8,
    across: (i % 8) / 4 - 0.875,
    role: 'station' as const,
  }));
  const reedId = store.reeds.find(({ label }) => label === 'Read')!.id;
  const round = { kind: 'round', reedId, passIndex: 0, plan: 'In a row', about: {}, stations } as const;
  await store.keep([{ ...round, startedAt: store.ledger.now() }], 'round');
  return reedId;
}

type Change = readonly [label: string, changed: { readonly note?: string; readonly tags?: string[] }];

/** Runs in the page: writes a note or a tag into one reed. */
async function change([label, changed]: Change) {
  const { store } = document.querySelector<App>('bench-app' as never)!;
  const reed = store.reeds.find((one) => one.label === label);
  if (!reed || !(await store.keep([{ ...reed, ...changed }], 'change')))
    throw new Error(`${label} was not kept`);
}

/** Runs in the page: a new reed. */
async function make(label: string) {
  const { store } = document.querySelector<App>('bench-app' as never)!;
  const reed = { kind: 'reed' as const, styleId: 'long', state: 'blank' as const, tags: [], label };
  if (!(await store.keep([reed], 'reed'))) throw new Error(`${label} was not kept`);
}

/** Types a reading and, now and then, a new reed. */
async function write(device: Device, chance: () => number): Promise<void> {
  await typeReading(device);
  if (chance() > 0.4) return;
  const label = `${device.name} ${device.made.size}`;
  await device.page.evaluate(make, label);
  device.made.add(label);
}

/** Runs in the page: everything that it has. */
async function held() {
  const { store } = document.querySelector<App>('bench-app' as never)!;
  const { documents, acts } = await store.ledger.readWhole();
  const { disagreements } = store.snapshot;
  const questions = disagreements.map((sides) =>
    sides.map((one) => (one.kind === 'reed' ? `${one.label}: ${one.note}` : one.kind)).sort(),
  );
  return { documents, acts, questions, reeds: store.reeds };
}

/** Both set one field of one reed, and different fields of another, of which neither hears before the other has. */
async function contradict(devices: readonly [Device, Device], number: number): Promise<void> {
  const [one, other] = devices;
  const set = ({ page }: Device, ...changed: Change) => page.evaluate(change, changed);
  await set(one, `Asked ${number}`, { note: 'stiff' });
  await set(other, `Asked ${number}`, { note: 'soft' });
  await set(one, `Merged ${number}`, { note: 'stiff' });
  await set(other, `Merged ${number}`, { tags: ['lesson'] });
}

/** What the browser itself says where the server is away. */
const isUnexpected = (words: string) =>
  !/net::ERR_(EMPTY_RESPONSE|CONNECTION_\w+|INCOMPLETE_CHUNKED_ENCODING|NETWORK_CHANGED)/.test(words);

const libraryOf = async ({ page }: Device) => page.evaluate(held);
const textOf = ({ documents, acts }: Awaited<ReturnType<typeof libraryOf>>) =>
  canonicalJson(inOrder({ documents: [...documents], acts: [...acts] }));

/** Waits until all have the same library, by themselves. @returns Whether they came to it. */
async function areSame(devices: readonly Device[]): Promise<boolean> {
  const until = Date.now() + PATIENCE_MS;
  for (;;) {
    const texts = await Promise.all(devices.map(async (one) => textOf(await libraryOf(one))));
    if (new Set(texts).size === 1) return true;
    if (Date.now() > until) return false;
    await pause(500);
  }
}

/** What should be there at the end, and whether it is. @param asked Reeds of which both have set one field. */
async function judge(devices: readonly Device[], asked: number, claims: Claims): Promise<void> {
  const { acts, questions, reeds } = await libraryOf(devices[0]!);
  const taken = acts.filter(({ act }) => act === 'taken');
  const there = new Set(taken.map(({ id }) => id));
  const accepted = new Set(devices.flatMap((one) => [...one.accepted]));
  claims.equal('readings that were typed', accepted.size, new Set([...accepted, ...there]).size);
  claims.equal('readings that are there', acts.length, accepted.size);
  claims.equal('readings that are there once', there.size, accepted.size);
  const made = devices.flatMap((one) => [...one.made]);
  const blanks = reeds.filter(({ state }) => state === 'blank').map(({ label }) => label);
  claims.equal(
    'reeds that were made and are there once',
    canonicalJson(blanks.toSorted()),
    canonicalJson(made.toSorted()),
  );
  const numbers = Array.from({ length: asked }, (_, n) => n);
  const wanted = numbers.map((n) => [`Asked ${n}: soft`, `Asked ${n}: stiff`]);
  claims.equal('questions', canonicalJson(questions.toSorted()), canonicalJson(wanted.toSorted()));
  const both = reeds.filter(({ note, tags }) => note === 'stiff' && tags[0] === 'lesson');
  claims.equal('reeds with what each has set of them', both.length, asked);
}

/** Until one of them begins to send. */
const sending = (devices: readonly Device[]) => {
  const isSending = (request: Request) => request.url().endsWith('_bulk_docs');
  const each = devices.map(({ page }) =>
    page.waitForEvent('request', { predicate: isSending, timeout: 60_000 }),
  );
  return Promise.any(each);
};

/** Kills the server at random, often while something is sent, while the devices type. */
async function killing(devices: readonly [Device, Device], server: KillableServer, kills: number, log: Log) {
  const chance = seededRandom(kills);
  const end = new AbortController();
  const typing = devices.map(async (device) => {
    while (!end.signal.aborted) {
      await write(device, chance);
      await pause(chance() * TYPING_MS);
    }
  });
  const killer = async () => {
    for (let n = 1; n <= kills; n++) {
      await pause(chance() * UP_MS);
      if (chance() < 0.5) await sending(devices);
      await pause(chance() * 10);
      await server.kill();
      if (n % KILLS_A_QUESTION === 0) await contradict(devices, n / KILLS_A_QUESTION - 1);
      await pause(chance() * DOWN_MS);
      await server.start();
      if (n % KILLS_A_QUESTION === 0)
        log(
          `  ${n} kills; ${devices.map(({ name, accepted }) => `${name} ${accepted.size}`).join(', ')} readings typed`,
        );
    }
  };
  try {
    await Promise.race([killer(), ...typing]);
  } finally {
    end.abort();
  }
  await Promise.all(typing);
}

/** The server is down; all change the library, each without the others; then it is up again. */
async function apart(
  all: readonly [Device, Device, Device],
  reedId: string,
  server: KillableServer,
  number: number,
) {
  const [bench, ...copies] = all;
  await server.kill();
  await contradict(copies as [Device, Device], number);
  for (const device of all) {
    await toRound(device, reedId);
    for (let n = 0; n < 5; n++) await typeReading(device);
  }
  await goTo(bench.page, 'setup');
  await server.start();
}

/** Two devices of which one is a year ahead, and the server killed so often; then a copy of one of them beside both. */
export async function killed(kills: number, claims: Claims): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'hundredths-killed-'));
  const served = await serve();
  const server = await KillableServer.on(join(folder, 'case.jsonl'), [new URL(served.url).origin]);
  const open: Device[] = [];
  try {
    const bench = await openDevice(served.url, {
      name: 'bench',
      folder: join(folder, 'bench'),
      digits: '46',
    });
    const ahead = {
      name: 'telephone',
      folder: join(folder, 'telephone'),
      digits: '47',
      isByTouch: true,
      clockMs: YEAR_MS,
    };
    const telephone = await openDevice(served.url, ahead);
    open.push(bench, telephone);
    const questions = Math.floor(kills / KILLS_A_QUESTION);
    const reedId = await bench.page.evaluate(begin, questions + 1);
    for (const device of open) await joinCase(device, server);
    for (const device of open) await toRound(device, reedId);
    await killing([bench, telephone], server, kills, claims.log);
    claims.equal(`after ${kills} kills two devices are the same`, await areSame(open), true);
    await judge(open, questions, claims);
    const cut = open.flatMap((one) => one.cut);
    claims.log(
      `  ${cut.length} requests were cut, ${cut.filter((method) => method !== 'GET').length} of them sending`,
    );
    open.splice(1, 1, ...(await copyOf(telephone, served.url, { digits: '48', clockMs: -YEAR_MS })));
    await apart(open as [Device, Device, Device], reedId, server, questions);
    claims.equal('three devices are the same, of which one was copied', await areSame(open), true);
    await judge(open, questions + 1, claims);
    claims.equal(
      'what went wrong on the pages',
      open
        .flatMap(({ problems }) => problems)
        .filter(isUnexpected)
        .join('; '),
      '',
    );
  } finally {
    await Promise.all(open.map(({ context }) => context.close()));
    await server.kill();
    await served.close();
    rmSync(folder, { recursive: true, force: true });
  }
}
