import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { isUpToDate } from '../../scripts/built-from.mjs';
import { buildDocs, DOCS, READINGS, WRITTEN } from '../../scripts/docs.mjs';
import { blocksOf } from '../../scripts/docs/blocks.mjs';
import { PACKAGE } from '../../scripts/package.mjs';
import { axeFaults } from './axe-faults.ts';
import { borrowBrowser, watchedPage, type Borrowed } from './launch.ts';
import { serve, type Served } from './static-server.ts';

let pages: string[];
let folder: string;
let served: Served;
let browser: Borrowed;

const blocks = (page: string, ...kinds: string[]) =>
  blocksOf(readFileSync(`docs/site/${page}.md`, 'utf8')).filter(({ kind }) => kinds.includes(kind));

beforeAll(async () => {
  if (!isUpToDate(PACKAGE)) throw new Error('There is no built package: run "npm run package" first.');
  pages = await buildDocs();
  folder = mkdtempSync(join(tmpdir(), 'hundredths-docs-'));
  mkdirSync(join(folder, 'node_modules'));
  symlinkSync(resolve(PACKAGE), join(folder, 'node_modules', 'hundredths'));
  cpSync(DOCS, folder, { recursive: true });
  [served, browser] = await Promise.all([serve(folder), borrowBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
  rmSync(folder, { recursive: true });
});

/** Elements of reeds on a page and in its shadows: how many are shown, and what was not understood. */
function shownReeds(): { shown: number; waiting: string[]; problems: string[] } {
  const reeds = [...document.querySelectorAll<HTMLElement>('*')].filter(({ localName }) =>
    localName.startsWith('bench-reed'),
  );
  const problems = reeds.flatMap((el) => el.shadowRoot?.querySelector('[part=problem]')?.textContent ?? []);
  const waiting = reeds.filter((el) => el.shadowRoot?.querySelector('[part=status]') || !el.shadowRoot);
  return {
    shown: reeds.length - waiting.length,
    waiting: waiting.map(({ localName }) => localName),
    problems,
  };
}

/** Only the folder is there: whatever is asked of another place is refused, and remembered. */
const elsewhere: string[] = [];

async function opened(name: string) {
  const context = await browser.newContext();
  await context.route(
    ({ href }) => !href.startsWith(served.url),
    (route) => {
      elsewhere.push(route.request().url());
      return route.abort('internetdisconnected');
    },
  );
  const watched = await watchedPage(context);
  await watched.page.goto(`${served.url}${name}`);
  await expect.poll(async () => (await watched.page.evaluate(shownReeds)).waiting).toEqual([]);
  expect((await watched.page.evaluate(shownReeds)).problems).toEqual([]);
  return watched;
}

it('prints what each page says that its code prints', () => {
  const withCode = WRITTEN.filter((page) => blocks(page, 'js').length > 0);
  for (const page of withCode)
    writeFileSync(
      join(folder, `${page}.mjs`),
      blocks(page, 'js')
        .map(({ text }) => text)
        .join('\n'),
    );
  const marks = withCode.map((page) => `console.log('\\f${page}');\nawait import('./${page}.mjs');`);
  writeFileSync(join(folder, 'all-pages.mjs'), marks.join('\n'));
  const printed = execFileSync(process.execPath, ['all-pages.mjs'], { cwd: folder, encoding: 'utf8' });
  const said = withCode.map(
    (page) =>
      `\f${page}\n${blocks(page, 'text')
        .map(({ text }) => text)
        .join('')}`,
  );
  expect(printed.replaceAll('\u00a0', ' ').split('\f')).toEqual(said.join('').split('\f'));
  expect(withCode.length).toBeGreaterThan(5);
});

it('has readings in the tutorial that are the first of its file', () => {
  const [lines] = blocks('tutorial', 'csv');
  expect(readFileSync(READINGS['readings.csv']!, 'utf8').replaceAll('\r', '').startsWith(lines!.text)).toBe(
    true,
  );
});

it('shows every example of an element, and says nothing in the console', async () => {
  const examples = pages.flatMap((name) =>
    [
      ...readFileSync(join(folder, `${name}.html`), 'utf8').matchAll(
        /<textarea[^>]*>([\s\S]*?)<\/textarea>/g,
      ),
    ].map(([, code]) =>
      code!
        .replaceAll('&lt;', '<')
        .replaceAll('&gt;', '>')
        .replaceAll('&quot;', '"')
        .replaceAll('&amp;', '&'),
    ),
  );
  expect(examples.length).toBeGreaterThan(20);
  const [script] = blocks('examples', 'page-js');
  writeFileSync(join(folder, 'twin.js'), script!.text);
  const body = [...new Set(examples)].join('\n');
  writeFileSync(
    join(folder, 'all-examples.html'),
    `<!doctype html><html lang="en"><head><title>All</title><link rel="icon" href="data:," />
<script type="module" src="twin.js"></script><script type="module" src="elements/all.js"></script></head><body>${body}</body></html>`,
  );
  const { page, problems } = await opened('all-examples.html');
  expect((await page.evaluate(shownReeds)).shown).toBeGreaterThan(15);
  expect(problems).toEqual([]);
  await page.context().close();
});

it('shows an example again when it was edited, and is accessible', async () => {
  const { page, problems } = await opened('bench-reed-zones.html');
  await page
    .getByRole('textbox', { name: 'Example, to edit' })
    .fill('<bench-reed-zones src="favourite.csv" unit="mm"></bench-reed-zones>');
  await page.getByRole('button', { name: 'Show' }).click();
  await page.getByText('0.0', { exact: false }).first().waitFor();
  await expect.poll(async () => (await page.evaluate(shownReeds)).waiting).toEqual([]);
  expect(await axeFaults(page)).toEqual([]);
  expect(problems).toEqual([]);
  await page.context().close();
});

it('has a page of its own and a framework’s page that work as they are written', async () => {
  const [plain] = blocks('examples', 'html-page');
  writeFileSync(
    join(folder, 'plain.html'),
    plain!.text.replace('<title>', '<link rel="icon" href="/favicon.svg" /><title>'),
  );
  writeFileSync(join(folder, 'favicon.svg'), '<svg xmlns="http://www.w3.org/2000/svg"></svg>');
  const { page, problems } = await opened('plain.html');
  expect(problems).toEqual([]);
  const [wrapper] = blocks('examples', 'jsx');
  const entry = `${wrapper!.text}
import { createRoot } from 'react-dom/client';
const file = new File([await (await fetch('readings.csv')).text()], 'readings.csv');
createRoot(document.querySelector('main')).render(
  <Reed file={file} pass={1} onFit={({ reed }) => document.body.setAttribute('data-fitted', reed.label)} />,
);`;
  await build({
    stdin: { contents: entry, loader: 'jsx', resolveDir: resolve('.') },
    alias: { 'hundredths/elements/reed.js': resolve(PACKAGE, 'components/reed/reed.js') },
    outfile: join(folder, 'react.js'),
    bundle: true,
    jsx: 'automatic',
    format: 'esm',
    target: 'es2022',
    define: { 'process.env.NODE_ENV': '"production"' },
    logLevel: 'error',
  });
  cpSync(resolve(PACKAGE, 'components/reed/fit-worker.js'), join(folder, 'fit-worker.js'));
  writeFileSync(
    join(folder, 'react.html'),
    '<!doctype html><html lang="en"><head><title>R</title><link rel="icon" href="data:," /><script type="module" src="react.js"></script></head><body><main></main></body></html>',
  );
  await page.goto(`${served.url}react.html`);
  await page.locator('body[data-fitted="M-142"]').waitFor();
  await page.getByText('Pass').first().waitFor();
  expect(await page.locator('bench-reed').getAttribute('pass')).toBe('1');
  expect(problems).toEqual([]);
  await page.context().close();
});

it('works without a network: nothing was asked of another place', () => {
  expect(elsewhere).toEqual([]);
});

it('links only to what is there', () => {
  const idsOf = (html: string) => new Set([...html.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id));
  const html = new Map(
    pages.map((name) => [`${name}.html`, readFileSync(join(folder, `${name}.html`), 'utf8')]),
  );
  const files = new Set([...html.keys(), 'site.css', 'live.js', 'elements/all.js']);
  const dead: string[] = [];
  for (const [name, text] of html)
    for (const [, target] of text
      .replaceAll(/<textarea[\s\S]*?<\/textarea>|<pre[\s\S]*?<\/pre>/g, '')
      .matchAll(/ (?:href|src)="([^"]+)"/g)) {
      if (/^(data:|https?:)/.test(target!)) continue;
      const [file, id] = target!.split('#');
      const there = file === '' ? name : file!;
      if (!files.has(there) || (id && !idsOf(html.get(there)!).has(id))) dead.push(`${name}: ${target}`);
    }
  expect(dead).toEqual([]);
  expect(html.size).toBeGreaterThan(20);
});
