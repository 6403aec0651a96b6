import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { makeId } from '../../shared/ids.ts';
import type { Reed } from '../../shared/reed.ts';
import { carriedOf } from '../../src/sharing/carried.ts';
import type { LibraryStore } from '../../components/store/library-store.ts';
import { startSmallServer, USERS, type SmallServer } from '../unit/sharing/small-server.ts';
import { openBench, openFresh, type Bench } from './launch.ts';
import { beginRound, enter, goTo, share } from './shared-case.ts';

/** What the browser itself says of a refused password. */
const REFUSED = /Failed to load resource: the server responded with a status of 401/;
/** What it says where the network is off, or the server cuts a connection. */
const NO_NETWORK =
  /net::ERR_(INTERNET_DISCONNECTED|EMPTY_RESPONSE|CONNECTION_\w+|INCOMPLETE_CHUNKED_ENCODING)/;

let bench: Bench;
let telephone: Bench;
let server: SmallServer;
beforeAll(async () => {
  bench = await openBench();
  const inHand = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
  telephone = await openFresh(bench, { ...inHand, serviceWorkers: 'allow' });
  server = await startSmallServer({ origins: [new URL(bench.served.url).origin] });
});
afterAll(async () => {
  await telephone.close();
  await bench.close();
  await server.close();
});

/** Types a pass of two readings, as a sheet that is pasted. */
async function typePass(page: Page, pass: number, thickness: string): Promise<void> {
  await goTo(page, 'case');
  await goTo(page, 'bring-in');
  const names = 'reed,pass,overall_length_mm,state,blade,from_tip_mm,across,thickness_mm';
  const rows = ['2', '5'].map((distance) => `K-1,${pass},70,dry,A,${distance},0,${thickness}`);
  await page.getByLabel('Or paste a sheet').fill([names, ...rows].join('\n'));
  await page.getByRole('button', { name: 'Read what I pasted' }).click();
  await page.getByRole('button', { name: 'Keep these' }).click();
  await page.locator('.say[role="status"]').waitFor();
}

type App = HTMLElement & { readonly store: LibraryStore };

/** Runs in the page: what is shown of the one reed. */
async function shown() {
  const { store } = document.querySelector<App>('bench-app' as never)!;
  const reed = store.reeds.find(({ label }) => label === 'K-1');
  const passes = reed ? await store.loadPasses(reed.id) : [];
  const { disagreements } = store.snapshot;
  return {
    passes: passes.map(({ index, readings }) => [index, ...readings.map(({ thicknessMm }) => thicknessMm)]),
    questions: disagreements.map((sides) => sides.map((side) => 'note' in side && side.note).sort()),
    photos: await Promise.all(
      store.snapshot.live.photo.map(async (one) => (await store.ledger.photoBytes(one.sha256))?.length),
    ),
  };
}

/** Runs in the page: a note on the one reed. */
async function note(text: string) {
  const { store } = document.querySelector<App>('bench-app' as never)!;
  await store.keep([{ ...store.reeds[0]!, note: text }], 'note');
}

/** Runs in the page: a pass of two readings of the one reed. */
async function keepPass([index, thicknessMm]: readonly [number, number]) {
  const { store } = document.querySelector<App>('bench-app' as never)!;
  const reading = { blade: 'A', across: 0, repeat: 0, role: 'station', flag: 'ok', thicknessMm } as const;
  const readings = [2, 5].map((fromTipMm) => ({ ...reading, fromTipMm }));
  const reedId = store.reeds[0]!.id;
  await store.keep([{ kind: 'pass', reedId, index, remedies: [], readings }], 'pass');
}

function hasRound() {
  const { store } = document.querySelector<App>('bench-app' as never)!;
  return store.openRoundOf(store.reeds[0]!.id) !== undefined;
}
async function readRound() {
  const { store } = document.querySelector<App>('bench-app' as never)!;
  const acts = await store.ledger.actsOf(store.openRoundOf(store.reeds[0]!.id)!.id);
  return acts.flatMap((act) => (act.act === 'taken' ? [act.thicknessMm] : []));
}

/** Runs in the page: a picture of one grey dot beside the one reed. */
async function photograph() {
  const { store } = document.querySelector<App>('bench-app' as never)!;
  const canvas = new OffscreenCanvas(1, 1);
  canvas.getContext('2d');
  const bytes = new Uint8Array(await (await canvas.convertToBlob()).arrayBuffer());
  await store.ledger.keepPhoto({ of: store.reeds[0]!.id }, bytes, 'photo');
  await store.refresh();
}

const askedElsewhere = ({ requests, served }: Bench) =>
  requests.filter(
    (url) => ![served.url, `${server.address}/`, 'blob:', 'data:'].some((own) => `${url}/`.startsWith(own)),
  );

it('asks nobody before a case is shared, and says what is wrong with a password', async () => {
  const { page, requests, served } = bench;
  await typePass(page, 0, '0.46');
  expect(requests.filter((url) => !url.startsWith(served.url) && !url.startsWith('blob:'))).toEqual([]);
  await goTo(page, 'setup');
  await page.getByRole('button', { name: 'Enter an address' }).click();
  await enter(page, server, { name: USERS[0]!.name, password: 'wrong' });
  await page.getByText('The name or the password is not right').waitFor();
  expect(server.asked.filter((line) => /POST|PUT/.test(line))).toEqual([]);
});

it('has a pass on the bench there that was typed here, and a photograph', async () => {
  await share(bench.page, server);
  await goTo(telephone.page, 'setup');
  await telephone.page.getByRole('button', { name: 'Enter an address' }).tap();
  await telephone.page.getByLabel('This device is').selectOption('class');
  await share(telephone.page, server, USERS[1]);
  await expect.poll(() => telephone.page.evaluate(shown)).toMatchObject({ passes: [[0, 0.46, 0.46]] });
  await typePass(telephone.page, 1, '0.44');
  await bench.page.evaluate(photograph);
  const both = {
    passes: [
      [0, 0.46, 0.46],
      [1, 0.44, 0.44],
    ],
    questions: [],
  };
  for (const { page } of [bench, telephone]) {
    await expect.poll(() => page.evaluate(shown)).toMatchObject(both);
    await expect.poll(async () => (await page.evaluate(shown)).photos[0]).toBeGreaterThan(60);
  }
});

it('is one library again after both have gone on without a network, with a question where both wrote one field', async () => {
  // What is loaded later is at hand once the worker is in charge.
  await telephone.page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await telephone.context.setOffline(true);
  await telephone.page.evaluate(keepPass, [2, 0.42] as const);
  await telephone.page.evaluate(note, 'soft');
  await bench.page.evaluate(note, 'stiff');
  await bench.page.evaluate(keepPass, [3, 0.4] as const);
  await goTo(telephone.page, 'setup');
  await telephone.page.getByText(/changes? waits?, \d\d:\d\d/).waitFor();
  await telephone.context.setOffline(false);
  for (const { page } of [bench, telephone])
    await expect
      .poll(() => page.evaluate(shown))
      .toMatchObject({
        passes: [0.46, 0.44, 0.42, 0.4].map((mm, i) => [i, mm, mm]),
        questions: [['soft', 'stiff']],
      });
});

it('is one round on two devices: each has the readings of the other, and none is doubled', async () => {
  const reedId = await bench.page.evaluate(beginRound, 4);
  await expect.poll(() => telephone.page.evaluate(hasRound)).toBe(true);
  for (const { page } of [bench, telephone]) {
    await goTo(page, `round/${reedId}`);
    await page.locator('bench-round input').first().waitFor();
  }
  const pad = telephone.page.locator('bench-round .pad');
  await pad.waitFor();
  await bench.page.keyboard.type('46');
  await bench.page.keyboard.press('Enter');
  await expect.poll(() => telephone.page.evaluate(readRound)).toEqual([0.46]);
  for (const digit of ['4', '7']) await pad.getByRole('button', { name: digit, exact: true }).tap();
  await pad.locator('.main-button').tap();
  await expect.poll(() => bench.page.locator('bench-round aside [data-is="taken"]').count()).toBe(2);
  // Of a class each has a name on what they read; one's own devices have none.
  await bench.page.getByText(`Read so far: ${USERS[1]!.name} 1.`).waitFor();
  const logs = await Promise.all([bench, telephone].map(({ page }) => page.evaluate(readRound)));
  expect(logs).toEqual([
    [0.46, 0.47],
    [0.46, 0.47],
  ]);
});

const SCRIPT = '<img src=x onerror="globalThis.harmed = true"><script>globalThis.harmed = true</script>';

/** What a hostile server has in its case: script in every field, what is too large, what is altered or of others. */
async function hostileDocuments(): Promise<{ _id: string }[]> {
  const stamp = { formatVersion: 1, createdAt: '2026-03-01T09:00:00Z', updatedAt: '2026-03-01T09:00:00Z' };
  const idOf = (byte: number) => makeId(1.7e12, new Uint8Array(10).fill(byte));
  const reed = (byte: number, label: string, note: string) => {
    const versions = { [idOf(99)]: 1 };
    const named = { styleId: SCRIPT.slice(0, 80), state: 'scraping', tags: [SCRIPT.slice(0, 40)] };
    return { kind: 'reed', ...stamp, id: idOf(byte), versions, label, note, ...named } as unknown as Reed;
  };
  const documents = [reed(1, '<b onclick=alert(1)>', SCRIPT), reed(2, 'large', 'x'.repeat(3e6))];
  const [scripted, large] = await carriedOf({ documents, acts: [] }, SCRIPT.slice(0, 60));
  return [
    scripted!,
    large!,
    { ...scripted!, _id: 'd-00000000000000000000000000000000' },
    { ...scripted!, _id: SCRIPT, of: SCRIPT as 'document' },
    { ...scripted!, _id: `${scripted!._id.slice(0, -1)}z`, version: 99 as 1 },
  ];
}

it('is not harmed by a server that is hostile, and says what it refuses', async () => {
  const { page } = bench;
  await goTo(page, 'setup');
  server.replica.write(await hostileDocuments(), () => undefined);
  const refused = page.locator('bench-share-case li');
  await page.getByText('What was refused last').click();
  await expect.poll(() => refused.count()).toBe(4);
  for (const text of await refused.allTextContents()) expect(text).toMatch(/[A-Z][^<>]+\./);
  // What is sound is text, wherever it is shown.
  await goTo(page, 'case');
  await page.getByText('<b onclick=alert(1)>').first().waitFor();
  await goTo(page, 'setup');
  server.answer = ({ url, method }, response) => {
    response.setHeader('Access-Control-Allow-Origin', new URL(bench.served.url).origin);
    response.setHeader('Access-Control-Allow-Headers', 'authorization, content-type, accept');
    if (method === 'OPTIONS') return void response.writeHead(204).end();
    if (!url!.includes('_changes')) return void response.end('{"db_name":"case","update_seq":1,"sizes":{}}');
    const block = Buffer.alloc(1e6, 32);
    const more = () => {
      while (response.write(block));
      response.once('drain', more);
    };
    more();
  };
  server.interrupt();
  await page.locator('bench-share-case').getByText('sends, or is sent, more at once').waitFor();
  server.answer = undefined;
  expect(await page.evaluate(() => 'harmed' in globalThis)).toBe(false);
  expect((await page.evaluate(shown)).passes.length).toBeGreaterThanOrEqual(4);
});

it('leaves with everything, forgets the password, and may ask the server no more', async () => {
  const { page } = telephone;
  await goTo(page, 'setup');
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'The same as JSON' }).click();
  expect(readFileSync(await (await download).path(), 'utf8')).not.toContain(USERS[0]!.password);
  const again = page.waitForEvent('load');
  await page.getByRole('button', { name: 'Leave; everything here stays' }).click();
  await again;
  await page.getByRole('button', { name: 'Enter an address' }).waitFor();
  expect((await page.evaluate(shown)).passes).toHaveLength(4);
  const isBlocked = await page.evaluate(
    (url) =>
      // oxlint-disable-next-line house/no-fetch -- to see that nothing answers there
      fetch(url).then(
        () => false,
        () => true,
      ),
    server.address,
  );
  expect(isBlocked).toBe(true);
});

it('lets a guest read what is there, and change nothing of it', async () => {
  const { page } = telephone;
  const { sequence } = server.replica;
  await page.getByRole('button', { name: 'Enter an address' }).tap();
  await page.getByLabel('This device is').selectOption('guest');
  await share(page, server, USERS[2]);
  const before = await page.evaluate(shown);
  await page.evaluate(note, 'mine');
  await page.getByText('reads as a guest: it stays as it is there').waitFor();
  expect(await page.evaluate(shown)).toEqual(before);
  expect(server.replica.sequence).toBe(sequence);
  for (const one of [bench, telephone]) expect(askedElsewhere(one)).toEqual([]);
  const isSaid = (words: string) =>
    REFUSED.test(words) ||
    NO_NETWORK.test(words) ||
    words.includes('connect-src') ||
    words.includes('Content Security Policy');
  for (const { problems } of [bench, telephone])
    expect(problems.filter((words) => !isSaid(words))).toEqual([]);
});
