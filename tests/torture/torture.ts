import { spawn, type ChildProcess } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { chromium, type Page } from 'playwright-core';
import { BROWSER_ARGS, findBrowser } from '../../scripts/find-browser.mjs';
import { serve } from '../journeys/static-server.ts';
import { seededRandom } from '../seeded-random.ts';
import { faultsIn, WORKS, type Begun, type Findings, type Kept, type Told, type Work } from './work.ts';

const SITE = 'node_modules/.cache/hundredths/torture';
/** Longest life of the page from the opening of its library, ms, by what it does: a few of its transactions. */
const LIFE_MS: Readonly<Record<Work, number>> = {
  append: 500,
  keep: 500,
  import: 900,
  merge: 900,
  migrate: 900,
  purge: 600,
  copy: 700,
};

/** One kill in so many falls while the library is being opened and brought back. */
const OPENING_EVERY = 6;
/** After every so many kills the engine's log is damaged besides, in one way and the other by turns. */
const DAMAGE_EVERY = 4;

/** How the log is damaged after the kill of a trial, if it is. */
function damageAfter(trial: number): keyof typeof DAMAGES | undefined {
  if (trial % DAMAGE_EVERY !== DAMAGE_EVERY - 1) return undefined;
  return trial % (2 * DAMAGE_EVERY) === DAMAGE_EVERY - 1 ? 'cutOff' : 'garbled';
}

async function buildSite(): Promise<void> {
  mkdirSync(SITE, { recursive: true });
  await build({
    entryPoints: {
      page: 'tests/torture/page.ts',
      journal: 'src/ledger/journal/worker.ts',
      copy: 'src/ledger/mirror/worker.ts',
    },
    outdir: SITE,
    bundle: true,
    format: 'esm',
  });
  writeFileSync(
    `${SITE}/index.html`,
    '<!doctype html><link rel="icon" href="data:,"><script type="module" src="page.js"></script>',
  );
}

interface Running {
  readonly process: ChildProcess;
  readonly endpoint: string;
}

/** A browser in a process group of its own, so that all of it can be killed at once. */
function startBrowser(profile: string): Promise<Running> {
  const args = [...BROWSER_ARGS, '--headless=new', '--remote-debugging-port=0', `--user-data-dir=${profile}`];
  const process = spawn(findBrowser(), [...args, 'about:blank'], {
    detached: true,
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  return new Promise((resolve, reject) => {
    let heard = '';
    process.stderr.on('data', (chunk: Buffer) => {
      heard += chunk.toString();
      const endpoint = /DevTools listening on (ws:\S+)/.exec(heard)?.[1];
      if (endpoint) resolve({ process, endpoint });
    });
    process.once('exit', () => reject(new Error(`The browser did not start: ${heard.slice(-500)}`)));
  });
}

/** The hardest end there is short of a power cut: no handler runs, nothing is flushed. */
async function killBrowser({ process: child }: Running): Promise<void> {
  const gone = new Promise((resolve) => child.once('exit', resolve));
  process.kill(-child.pid!, 'SIGKILL');
  await gone;
}

/** Ways in which a kill in the middle of a write, followed by another opening, may leave the engine's own log. */
const DAMAGES = {
  /** The engine then throws all its databases away. */
  garbled: (bytes: Buffer) => {
    const middle = Math.floor(bytes.length / 2);
    return bytes.fill(0xff, middle, middle + 16);
  },
  /** The engine then opens with what stood before the end, and says nothing. */
  cutOff: (bytes: Buffer) => bytes.subarray(0, Math.floor(bytes.length / 2)),
};

function damageLog(profile: string, damage: keyof typeof DAMAGES): void {
  const root = join(profile, 'Default', 'IndexedDB');
  const logs = readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.log'))
    .map((name) => join(root, name));
  for (const log of logs) {
    const bytes = readFileSync(log);
    if (bytes.length >= 64) writeFileSync(log, DAMAGES[damage](bytes));
  }
}

/** A page, and when its library is open. */
interface Opening {
  readonly page: Page;
  readonly opened: Promise<void>;
}

async function openPage(endpoint: string, url: string, told: Told): Promise<Opening> {
  const browser = await chromium.connectOverCDP(endpoint);
  const page = await browser.contexts()[0]!.newPage();
  await page.exposeFunction('tellBegun', (one: Begun) => void told.begun.push(one));
  await page.exposeFunction('tellKept', (one: Kept) => void told.kept.push(one));
  let tellOpen: () => void = () => undefined;
  const opened = new Promise<void>((resolve) => (tellOpen = resolve));
  await page.exposeFunction('tellOpen', tellOpen);
  await page.goto(url);
  return { page, opened };
}

const sleep = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** Lets one work run for a while, and kills the browser. */
async function runAndKill(
  { page, opened }: Opening,
  running: Running,
  work: Work,
  trial: number,
  lifeMs: number,
): Promise<void> {
  const died = page
    .evaluate(([kind, n]) => workbench.work(kind, n), [work, trial] as const)
    .catch((error: unknown) => error);
  if (trial % OPENING_EVERY !== OPENING_EVERY - 1) await Promise.race([opened, died]);
  await sleep(lifeMs);
  await killBrowser(running);
  const error = String(await died);
  if (!/closed|crash|disconnect/i.test(error))
    throw new Error(`The page failed before it was killed: ${error}`);
}

export interface Outcome {
  readonly kills: number;
  /** Steps that the ledger had called kept. */
  readonly kept: number;
  /** Kills that fell between the beginning of a step and its being called kept. */
  readonly inFlight: number;
  /** How often the engine had lost the library or the end of it, and that came back. */
  readonly broughtBack: number;
  readonly faults: readonly string[];
}

/**
 * Kills the browser at random moments while it appends acts, keeps changes, takes libraries in, merges and migrates,
 * in turn, on one profile; after each kill a fresh browser looks at what is there. Now and then the engine's log is
 * damaged as well.
 */
export async function torture(kills: number, seed: number, log: (line: string) => void): Promise<Outcome> {
  await buildSite();
  const served = await serve(SITE);
  const profile = mkdtempSync(join(tmpdir(), 'hundredths-torture-'));
  const random = seededRandom(seed);
  const told: Told = { begun: [], kept: [] };
  const faults: string[] = [];
  let inFlight = 0;
  let broughtBack = 0;
  try {
    for (let trial = 0; trial <= kills; trial++) {
      const running = await startBrowser(profile);
      const opening = await openPage(running.endpoint, served.url, told);
      if (trial > 0) {
        const found: Findings = await opening.page.evaluate(() => workbench.find());
        const wasDamaged = damageAfter(trial - 1) !== undefined;
        const now = faultsIn(found, told, trial - 1, wasDamaged).map((one) => `after kill ${trial}: ${one}`);
        faults.push(...now);
        now.forEach(log);
        if (found.broughtBack) broughtBack++;
      }
      if (trial === kills) {
        await killBrowser(running);
        break;
      }
      const work = WORKS[trial % WORKS.length]!;
      const before = told.begun.length - told.kept.length;
      await runAndKill(opening, running, work, trial, random() * LIFE_MS[work]);
      if (told.begun.length - told.kept.length > before) inFlight++;
      const damage = damageAfter(trial);
      if (damage) damageLog(profile, damage);
      log(`kill ${trial + 1} of ${kills} during ${work}: ${told.kept.length} kept, ${faults.length} faults`);
    }
  } finally {
    await served.close();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  }
  return { kills, kept: told.kept.length, inFlight, broughtBack, faults };
}
