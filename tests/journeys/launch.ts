import { existsSync } from 'node:fs';
import {
  chromium,
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  type Page,
} from 'playwright-core';
import { BROWSER_ARGS, findBrowser, findHeadless } from '../../scripts/find-browser.mjs';
import { serve, type Served } from './static-server.ts';

/** How a journey starts a whole browser, with sound and microphone. */
export const launchOptions = () => ({ executablePath: findBrowser(), args: BROWSER_ARGS });

/** A browser of its own, for what ends it. */
export const launchBrowser = (): Promise<Browser> =>
  chromium.launch({ executablePath: findHeadless(), args: BROWSER_ARGS });

/** A journey's share of the one browser of its process: what it opened there is closed with it. */
export interface Borrowed {
  readonly newContext: (options?: BrowserContextOptions) => Promise<BrowserContext>;
  readonly close: () => Promise<void>;
}

/** The next journey of a process begins within this time, or none does. */
const IDLE_MS = 5000;
let running: Promise<Browser> | undefined;
let borrowers = 0;

async function runningBrowser(): Promise<Browser> {
  if (!(await running)?.isConnected()) running = launchBrowser();
  return running!;
}

async function endIdle(): Promise<void> {
  if (borrowers > 0) return;
  const idle = await running;
  running = undefined;
  await idle?.close();
}

/** How every other journey comes by a browser. */
export async function borrowBrowser(): Promise<Borrowed> {
  borrowers += 1;
  const browser = await runningBrowser();
  const contexts: BrowserContext[] = [];
  return {
    async newContext(options) {
      const context = await browser.newContext(options);
      contexts.push(context);
      return context;
    },
    async close() {
      await Promise.all(contexts.map((context) => context.close()));
      borrowers -= 1;
      setTimeout(() => void endIdle(), IDLE_MS);
    },
  };
}

/** A browser that composes the page as a graphics card would: a frame is not copied out for it, which would be timed too. */
export const launchComposed = (): Promise<Browser> =>
  chromium.launch({ executablePath: findBrowser(), args: [...BROWSER_ARGS, '--use-angle=swiftshader'] });

/** A page with everything that went wrong on it, from its first moment. */
export interface Watched {
  readonly page: Page;
  /** Errors and warnings of the console, uncaught exceptions, breaches of the content security policy. */
  readonly problems: readonly string[];
  /** Address of every request. */
  readonly requests: readonly string[];
}

/** Runs in the page. */
function reportBreaches() {
  document.addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI, sourceFile }) => {
    console.error(`policy breach: ${violatedDirective} ${blockedURI} ${sourceFile ?? ''}`);
  });
}

/** What the browser says of itself when it lays out a WebGL picture without a graphics card. */
const WITHOUT_CARD = /^\[\.WebGL-\w+\]GL Driver Message .*GPU stall due to ReadPixels/;

export async function watchedPage(context: BrowserContext): Promise<Watched> {
  const problems: string[] = [];
  const requests: string[] = [];
  const page = await context.newPage();
  await page.addInitScript(reportBreaches);
  page.on('console', (message) => {
    if (!['error', 'warning'].includes(message.type()) || WITHOUT_CARD.test(message.text())) return;
    problems.push(`${message.type()}: ${message.text()}`);
  });
  page.on('pageerror', (error) => problems.push(`uncaught: ${error.message}`));
  page.on('request', (request) => requests.push(request.url()));
  return { page, problems, requests };
}

export interface Bench extends Watched {
  readonly browser: Borrowed;
  readonly context: BrowserContext;
  readonly served: Served;
  /** Another window on the same library. */
  readonly openAnother: () => Promise<Watched>;
  readonly close: () => Promise<void>;
}

/** Ends only what hangs, as in vitest.config.ts. */
const PATIENCE_MS = 120_000;

/** Runs in the page: its service worker, which takes a second of work to lay the page by, is not there yet. */
function layNothingBy() {
  navigator.serviceWorker.register = () => new Promise(() => undefined);
}

/**
 * Most journeys do without the service worker. Views change at once, which tests of their own see move: a machine without a graphics card draws each frame slowly. */
async function opened(browser: Borrowed, served: Served, options?: BrowserContextOptions) {
  const context = await browser.newContext({ reducedMotion: 'reduce', ...options });
  context.setDefaultTimeout(PATIENCE_MS);
  if (options?.serviceWorkers !== 'allow') await context.addInitScript(layNothingBy);
  const openAnother = async () => {
    const watched = await watchedPage(context);
    await watched.page.goto(served.url);
    return watched;
  };
  return { ...(await openAnother()), browser, context, served, openAnother };
}

/** Opens the built page with an empty library. */
export async function openBench(options: BrowserContextOptions = {}): Promise<Bench> {
  if (!existsSync('dist/index.html')) throw new Error('There is no built page: run "npm run build" first.');
  const [served, browser] = await Promise.all([serve(), borrowBrowser()]);
  return {
    ...(await opened(browser, served, options)),
    async close() {
      await browser.close();
      await served.close();
    },
  };
}

/** The built page once more in a browser that runs, with an empty library of its own. */
export async function openFresh(
  { browser, served }: Pick<Bench, 'browser' | 'served'>,
  options?: BrowserContextOptions,
): Promise<Bench> {
  const fresh = await opened(browser, served, options);
  return { ...fresh, close: () => fresh.context.close() };
}
