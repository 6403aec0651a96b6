// What a shared case costs, and how fast it is: in the browser with the small server, and counted under Node.
import 'fake-indexeddb/auto';
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { median, quantile } from 'd3-array';
import { lastCounts } from '../../src/ledger/late-acts.ts';
import { openLedger } from '../../src/ledger/ledger.ts';
import type { Ledger } from '../../src/ledger/ledger-face.ts';
import { foldRound } from '../../src/round/fold-round.ts';
import { passFromRound } from '../../src/round/round-to-pass.ts';
import { openCarrier } from '../../src/sharing/pouch-carrier.ts';
import { Sharing } from '../../src/sharing/sharing.ts';
import { grow } from '../bench/grown.ts';
import { openBench, openFresh, type Bench } from '../journeys/launch.ts';
import { beginRound, enter, goTo } from '../journeys/shared-case.ts';
import type { Claims } from './claimed.ts';
import type { App } from './study-device.ts';
import { startSmallServer, USERS, type SmallServer } from '../unit/sharing/small-server.ts';

export { Claims } from './claimed.ts';
export { killed } from './killed-study.ts';

type Log = (line: string) => void;
const seconds = (ms: number) => `${(ms / 1000).toFixed(1)} s`;
const megabytes = (bytes: number) => `${(bytes / 1e6).toFixed(2)} MB`;

const PASSES = 20;
const READINGS = 140;

/** How often each request was asked, without its query. */
function counted(asked: readonly string[]): string {
  const kinds = new Map<string, number>();
  for (const line of asked) {
    const kind = line.replace(/\?.*/, line.includes('longpoll') ? ' held' : '').replace('/case', '');
    kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
  }
  return [...kinds].map(([kind, count]) => `${kind} ${count}`).join(', ');
}

async function settled(server: SmallServer, all: readonly Sharing[]): Promise<void> {
  for (let quiet = 0; quiet < 5;) {
    const { length } = server.asked;
    await new Promise((resolve) => setTimeout(resolve, 10));
    const isEven = all.every(({ state, waiting }) => state.is === 'even' && waiting.rounds.length === 0);
    quiet = isEven && server.asked.length === length ? quiet + 1 : 0;
  }
}

/** One pass, read one reading after the other, each sent by itself. */
async function readPass(ledger: Ledger, reedId: string, index: number, after: () => Promise<void>) {
  const stations = Array.from({ length: READINGS }, (_, i) => {
    const blade = i % 2 === 0 ? ('A' as const) : ('B' as const);
    return {
      blade,
      fromTipMm: 1 + Math.floor(i / 14),
      across: (Math.floor(i / 2) % 7) / 3 - 1,
      role: 'station' as const,
    };
  });
  const draft = { kind: 'round', reedId, passIndex: index, plan: 'All', about: {}, stations } as const;
  const [step] = (await ledger.keep([{ ...draft, startedAt: ledger.now() }], 'round')).steps;
  const round = step!.after;
  if (round.kind !== 'round') throw new Error('no round');
  for (const [i, station] of stations.entries()) {
    const thicknessMm = Math.round(1000 * (0.2 + 0.03 * Math.floor(i / 14) + 0.01 * (PASSES - index))) / 1000;
    await ledger.appendAct({
      act: 'taken',
      roundId: round.id,
      station,
      thicknessMm,
      flag: 'ok',
      seconds: 4 * i,
    });
    await after();
  }
  const acts = await ledger.actsOf(round.id);
  const pass = { ...passFromRound(round, foldRound(round, acts)), id: ledger.newId() };
  const closed = { ...round, closedAs: pass.id, closedWith: lastCounts(acts) };
  await ledger.keep([pass, closed], 'finish', { roundId: round.id, count: acts.length });
  await after();
}

/** One reed of 20 passes, each reading shared as it is read, while another device follows. */
export async function sizes(log: Log): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'hundredths-sizes-'));
  const server = await startSmallServer({ path: join(folder, 'case.jsonl') });
  const ledgers = [await openLedger({ name: 'one' }), await openLedger({ name: 'two' })] as const;
  const all = ledgers.map((ledger, i) => {
    const { name, password } = USERS[i]!;
    const carrier = openCarrier({ address: server.address, name, password });
    const chosen = { role: 'own', tags: [], photos: true, notes: true } as const;
    const gather = () => new Promise<void>((resolve) => setTimeout(resolve));
    return new Sharing({ ledger, carrier, chosen, by: name, gather });
  });
  const done = all.map((sharing) => sharing.run());
  const [reed] = (
    await ledgers[0].keep(
      [{ kind: 'reed', label: 'S-1', styleId: 'long', state: 'scraping', tags: [] }],
      'reed',
    )
  ).steps;
  await settled(server, all);
  const from = server.asked.length;
  const start = process.cpuUsage();
  for (let index = 0; index < PASSES; index++) {
    await readPass(ledgers[0], reed!.after.id, index, async () => {
      const sharing = all[0]!;
      while (sharing.waiting.rounds.length + sharing.waiting.ids.length > 0 || sharing.state.is !== 'even')
        await new Promise((resolve) => setTimeout(resolve, 1));
    });
    await settled(server, all);
  }
  const { user, system } = process.cpuUsage(start);
  const { results } = server.replica.changes({ since: 0, docs: true });
  const live = results.flatMap(({ doc }) => (doc && !doc['_deleted'] ? [doc] : []));
  const bytes = live.reduce((sum, doc) => sum + JSON.stringify(doc).length, 0);
  log(`One reed of ${PASSES} passes of ${READINGS} readings, each sent by itself, one device following:`);
  log(
    `  ${live.length} documents of ${megabytes(bytes)}, and ${results.length - live.length} that were taken out`,
  );
  log(`  file of the small server ${megabytes(statSync(join(folder, 'case.jsonl')).size)}`);
  log(
    `  requests of both: ${counted(server.asked.slice(from))}; ${seconds((user + system) / 1000)} of work of all`,
  );
  for (const sharing of all) sharing.stop();
  await Promise.all(done);
  for (const ledger of ledgers) ledger.close();
  await server.close();
  rmSync(folder, { recursive: true });
}

/** Runs in the page: what its progress has shown, until both sides have the same. */
function watchProgress() {
  const seen: number[] = [];
  Object.assign(globalThis, { seen });
  const look = () => {
    const setup = document.querySelector('bench-app')?.shadowRoot?.querySelector('bench-setup');
    const bar = setup?.shadowRoot?.querySelector('bench-share-case')?.shadowRoot?.querySelector('progress');
    if (bar && bar.value !== seen.at(-1)) seen.push(bar.value);
    requestAnimationFrame(look);
  };
  look();
}

const shownIn = ({ page }: Bench) =>
  page.evaluate(() => (globalThis as unknown as { seen: readonly number[] }).seen);
/** Documents that the server has, each once. */
const thereIn = ({ replica }: SmallServer) =>
  replica.changes({ since: 0 }).results.filter(({ id }) => replica.leavesOf(id).some((leaf) => !leaf.deleted))
    .length;

/** Pauses in the middle of a copy, loads the page anew, and goes on. @returns What the page had shown by then. */
async function pauseInCopy(device: Bench, server: SmallServer, claims: Claims): Promise<readonly number[]> {
  const { page } = device;
  await expectProgress(device);
  await page.getByRole('button', { name: 'Pause' }).click();
  await page.getByText('Paused.').waitFor();
  const shown = await shownIn(device);
  claims.log(`  paused at ${shown.at(-1)!.toFixed(2)}, ${thereIn(server)} documents there`);
  await page.reload();
  await page.getByText('Paused.').waitFor();
  const { length } = server.asked;
  await page.waitForTimeout(2000);
  claims.equal('requests while it was paused', server.asked.length - length, 0);
  await page.getByRole('button', { name: 'Go on' }).click();
  return shown;
}

/** Waits until a part of a copy is done. */
const expectProgress = ({ page }: Bench) =>
  page.waitForFunction(() => (globalThis as unknown as { seen: number[] }).seen.some((at) => at > 0.2));

async function copy(device: Bench, server: SmallServer, claims: Claims, what: string): Promise<void> {
  const { page } = device;
  page.setDefaultTimeout(600_000);
  await goTo(page, 'setup');
  await page.getByRole('button', { name: 'Enter an address' }).click();
  await page.addInitScript(watchProgress);
  await enter(page, server, USERS[0]!);
  await page.getByText('the name and the password are right').waitFor();
  const from = server.asked.length;
  const start = performance.now();
  await page.getByRole('button', { name: 'Share this case' }).click();
  const before = await pauseInCopy(device, server, claims);
  await page.getByText('Both sides have the same').waitFor();
  const shown = [...before, ...(await shownIn(device))];
  const first = shown.map((share) => share.toFixed(2)).join(' ');
  claims.log(`  ${server.asked.length - from} requests; progress shown ${shown.length} times: ${first}`);
  claims.atMost(`${what}, with its pause`, (performance.now() - start) / 1000, 60, 's');
}

/** Runs in the page: everything that it has, as a text of which every byte counts. */
async function libraryText(): Promise<string> {
  const { store } = document.querySelector<App>('bench-app' as never)!;
  const { documents, acts } = await store.ledger.readWhole();
  const all = [...documents, ...acts].sort((a, b) => (a.id < b.id ? -1 : 1));
  const inOrder = (_: string, value: unknown) =>
    value !== null && typeof value === 'object' && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort())
      : value;
  return JSON.stringify(all, inOrder);
}

/** All of a large library first copied through the small server, in the browser. */
export async function firstCopy(
  bench: Bench,
  telephone: Bench,
  server: SmallServer,
  reeds: number,
  claims: Claims,
) {
  await grow(bench, reeds, claims.log);
  await bench.page.reload();
  await copy(bench, server, claims, `${reeds} reeds of 20 passes sent`);
  claims.equal('documents there', thereIn(server), reeds * (1 + PASSES));
  await copy(telephone, server, claims, `${reeds} reeds of 20 passes taken in`);
  const [here, there] = await Promise.all([bench, telephone].map(({ page }) => page.evaluate(libraryText)));
  claims.equal('characters of the library here, as of the one there', here!.length, there!.length);
  claims.equal('they are the same', here === there, true);
}

/** How long readings typed on one device take until the other shows them. */
export async function following(
  bench: Bench,
  telephone: Bench,
  count: number,
  claims: Claims,
): Promise<void> {
  const reedId = await telephone.page.evaluate(beginRound, count);
  await bench.page.waitForTimeout(5000);
  for (const { page } of [bench, telephone]) {
    await goTo(page, `round/${reedId}`);
    await page.locator('bench-round input').first().waitFor();
  }
  const took: number[] = [];
  for (let n = 1; n <= count - 1; n++) {
    await telephone.page.keyboard.type('46');
    await telephone.page.keyboard.press('Enter');
    const start = performance.now();
    await bench.page
      .locator('bench-round aside [data-is="taken"]')
      .nth(n - 1)
      .waitFor({ state: 'attached' });
    took.push(performance.now() - start);
    await telephone.page.waitForTimeout(1200);
  }
  const [usual, most] = [Math.round(median(took)!), Math.round(Math.max(...took))];
  claims.log(`  of ${took.length} readings half are shown there after ${usual} ms, and all after ${most} ms`);
  claims.atMost('19 of 20 readings are shown there after', quantile(took, 0.95)! / 1000, 1, 's');
}

export async function inBrowser(reeds: number, readings: number, claims: Claims): Promise<void> {
  const bench = await openBench();
  const telephone = await openFresh(bench);
  const server = await startSmallServer({ origins: [new URL(bench.served.url).origin] });
  try {
    await firstCopy(bench, telephone, server, reeds, claims);
    await following(bench, telephone, readings, claims);
    claims.equal('what went wrong on the pages', [...bench.problems, ...telephone.problems].join('; '), '');
  } finally {
    await telephone.close();
    await bench.close();
    await server.close();
  }
}
