// Export of a whole library, its return into an empty one, and what ordinary tools say of the file.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { createReadStream, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { chromium, type BrowserContext, type Page } from 'playwright-core';
import { BROWSER_ARGS, findHeadless } from '../../scripts/find-browser.mjs';
import { watchedPage, type Bench } from '../journeys/launch.ts';
import { besideReference } from './alone.ts';

/** For a machine that is busy with other things. */
export const PATIENCE_MS = 3_600_000;

interface Exported {
  readonly paths: readonly string[];
  /** Of all parts together. */
  readonly hash: string;
  readonly bytes: number;
  /** Whether the page said how far it was. */
  readonly hadProgress: boolean;
}

async function hashOf(paths: readonly string[]): Promise<{ hash: string; bytes: number }> {
  const hash = createHash('sha256');
  let bytes = 0;
  for (const path of paths)
    for await (const chunk of createReadStream(path) as AsyncIterable<Buffer>) {
      hash.update(chunk);
      bytes += chunk.length;
    }
  return { hash: hash.digest('hex'), bytes };
}

/** Keeps a copy of the whole library, as its maker does. */
export async function exported(page: Page): Promise<Exported> {
  await page.evaluate(() => (location.hash = '#/setup'));
  const downloads: Promise<string>[] = [];
  const folder = mkdtempSync(join(tmpdir(), 'hundredths-away-'));
  // What a file is goes by its name.
  page.on('download', (download) => {
    const path = join(folder, download.suggestedFilename());
    downloads.push(download.saveAs(path).then(() => path));
  });
  const first = page.waitForEvent('download', { timeout: PATIENCE_MS });
  await page.getByRole('button', { name: 'Keep a copy of the library' }).click();
  const progress = page.locator('bench-copies progress').waitFor({ timeout: PATIENCE_MS });
  const hadProgress = await Promise.race([progress.then(() => true), first.then(() => false)]);
  progress.catch(() => undefined);
  await first;
  await page.getByRole('button', { name: 'Keep a copy of the library' }).waitFor({ timeout: PATIENCE_MS });
  await page.waitForTimeout(1000);
  const paths = await Promise.all(downloads);
  return { paths, ...(await hashOf(paths)), hadProgress };
}

/** Whether ordinary tools read the files to their ends; those that are not on this machine are not asked. */
function toolsRead(paths: readonly string[]): string {
  const tools = [
    ['unzip', '-tqq'],
    ['python3', '-m', 'zipfile', '-t'],
  ] as const;
  return tools
    .map(([program, ...args]) => {
      const results = paths.map((path) => spawnSync(program, [...args, path], { encoding: 'utf8' }));
      if (results.some(({ error }) => error)) return `${program}: not here`;
      const isRead = results.every(({ status, stdout }) => status === 0 && !/bad|corrupt/i.test(stdout));
      return `${program}: ${isRead ? 'whole' : 'DAMAGED'}`;
    })
    .join(', ');
}

async function broughtIn(context: BrowserContext, url: string, paths: readonly string[]): Promise<Page> {
  const { page } = await watchedPage(context);
  page.setDefaultTimeout(PATIENCE_MS);
  await page.goto(`${url}#/bring-in`);
  for (const path of paths) {
    await page.locator('bench-bring-in input[type=file]').setInputFiles(path);
    await page.getByText(/A library: .* not here yet/).waitFor();
    await page.getByRole('button', { name: 'Keep these' }).click();
    const kept = page.getByText('Everything of the file is in the library now');
    const trouble = page.getByRole('alert').filter({ hasText: /./ });
    await kept.or(trouble).first().waitFor();
    if (!(await kept.isVisible())) throw new Error(await trouble.first().innerText());
  }
  return page;
}

/** What came back of a library, and how long that took on a machine with nothing else to do. */
export async function returned({ page, served }: Bench, of: string, log: (line: string) => void) {
  const away = await besideReference(() => timed(() => exported(page)));
  log(`${of}: written`);
  const tools = toolsRead(away.value.result.paths);
  // A profile on the disk: a window that forgets has as much room as memory gives it.
  const profile = mkdtempSync(join(tmpdir(), 'hundredths-profile-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: findHeadless(),
    args: BROWSER_ARGS,
  });
  const back = await besideReference(() =>
    timed(() => broughtIn(context, served.url, away.value.result.paths)),
  );
  log(`${of}: brought in elsewhere`);
  const again = await exported(back.value.result);
  await context.close();
  rmSync(profile, { recursive: true, force: true });
  for (const [path] of [away.value.result.paths, again.paths])
    if (path !== undefined) rmSync(dirname(path), { recursive: true });
  const { bytes, hash, paths, hadProgress } = away.value.result;
  const isSame = again.hash === hash && !tools.includes('DAMAGED');
  const size = `${(bytes / 1e6).toFixed(0)} MB in ${paths.length} part(s), ${hadProgress ? 'with' : 'too fast for'} progress`;
  return [
    {
      name: `${of} written`,
      value: away.value.ms / away.slowed / 1000,
      unit: 's',
      note: `${size}; ${tools}`,
    },
    { name: `${of} brought in elsewhere`, value: back.value.ms / back.slowed / 1000, unit: 's' },
    { name: `${of} back otherwise than it went`, value: isSame ? 0 : 1, unit: 'of 1', limit: 0 },
  ];
}

async function timed<T>(work: () => Promise<T>): Promise<{ result: T; ms: number }> {
  const start = performance.now();
  return { result: await work(), ms: performance.now() - start };
}
