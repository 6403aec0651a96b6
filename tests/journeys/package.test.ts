import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { isUpToDate } from '../../scripts/built-from.mjs';
import { PACKAGE } from '../../scripts/package.mjs';
import { STRICT_POLICY } from '../../scripts/policy.mjs';
import { npmCommand, toolCommand } from '../../scripts/programs.mjs';
import { fit, readReeds, zoneMeans } from '../../src/index.ts';
import { axeFaults, CONTRAST } from './axe-faults.ts';
import { borrowBrowser, watchedPage, type Borrowed } from './launch.ts';
import { serve, type Served } from './static-server.ts';

let folder: string;
let served: Served;
let browser: Borrowed;

const run = ([program, ...args]: readonly [string, ...string[]], cwd = folder) =>
  execFileSync(program, args, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
const sample = (name: string) => `tests/samples/scenario/${name}.csv`;

/** The policy of a page that allows nothing inline, nothing generated and nothing from elsewhere. */
const pageWith = (body: string, scripts = ['all.js']) => `<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta http-equiv="Content-Security-Policy" content="${STRICT_POLICY}" />
    <title>A reed</title>
    <link rel="icon" href="data:," />
    ${scripts.map((name) => `<script type="module" src="node_modules/hundredths/elements/${name}"></script>`).join('\n    ')}
  </head>
  <body><main><h1>A reed</h1>${body}</main></body>
</html>
`;

/** Packs the package and puts it into an empty folder, with the packages that it names and no others. */
function install() {
  const [packed] = JSON.parse(
    run(npmCommand(['pack', '--json', '--ignore-scripts', '--pack-destination', folder])!, PACKAGE),
  ) as { filename: string }[];
  const place = join(folder, 'node_modules', 'hundredths');
  mkdirSync(place, { recursive: true });
  run(['tar', '-xzf', join(folder, packed!.filename), '-C', place, '--strip-components=1']);
  const { dependencies } = JSON.parse(readFileSync(join(place, 'package.json'), 'utf8')) as {
    dependencies: Record<string, string>;
  };
  for (const name of Object.keys(dependencies)) {
    const link = join(folder, 'node_modules', name);
    mkdirSync(dirname(link), { recursive: true });
    symlinkSync(resolve('node_modules', name), link);
  }
}

beforeAll(async () => {
  // Built once for all journeys: two that build would be in each other's way.
  if (!isUpToDate(PACKAGE)) throw new Error('There is no built package: run "npm run package" first.');
  folder = mkdtempSync(join(tmpdir(), 'hundredths-installed-'));
  install();
  cpSync(sample('k-117'), join(folder, 'readings.csv'));
  cpSync(sample('s-026'), join(folder, 'favourite.csv'));
  [served, browser] = await Promise.all([serve(folder), borrowBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
  rmSync(folder, { recursive: true });
});

async function opened(name: string, html: string) {
  writeFileSync(join(folder, name), html);
  const watched = await watchedPage(await browser.newContext());
  await watched.page.goto(`${served.url}${name}`);
  return watched;
}

/** How many colours stand in a part of the page, each on more than this share of it. */
async function coloursIn(page: Page, selector: string, nth: number, share: number): Promise<number> {
  const png = await page.locator(selector).nth(nth).screenshot();
  const paper = await (await browser.newContext()).newPage();
  const count = await paper.evaluate(
    async ([data, least]) => {
      const picture = new Image();
      picture.src = `data:image/png;base64,${data}`;
      await picture.decode();
      const canvas = new OffscreenCanvas(picture.width, picture.height);
      const drawn = canvas.getContext('2d')!;
      drawn.drawImage(picture, 0, 0);
      const pixels = new Uint32Array(drawn.getImageData(0, 0, picture.width, picture.height).data.buffer);
      const counts = new Map<number, number>();
      for (const pixel of pixels) counts.set(pixel, (counts.get(pixel) ?? 0) + 1);
      return [...counts.values()].filter((times) => times > pixels.length * least).length;
    },
    [png.toString('base64'), share] as const,
  );
  await paper.close();
  return count;
}

const ready = (page: Page, count = 2) =>
  page.waitForFunction((wanted) => {
    const all = (root: Document | ShadowRoot): Element[] =>
      [...root.querySelectorAll('*')].flatMap((el) => [el, ...(el.shadowRoot ? all(el.shadowRoot) : [])]);
    const bands = all(document).filter(
      (el) =>
        el.localName === 'bench-blade-map' &&
        (el.shadowRoot?.querySelectorAll('.bands path').length ?? 0) > 3,
    );
    return bands.length >= wanted;
  }, count);

it('runs the five lines of its description in Node, with the figures of the bench', async () => {
  const [, lines] = /```js\n(.*?)```/s.exec(
    readFileSync(join(folder, 'node_modules/hundredths/README.md'), 'utf8'),
  )!;
  writeFileSync(join(folder, 'five-lines.mjs'), lines!);
  const [reed] = await readReeds(readFileSync(sample('k-117')));
  const expected = zoneMeans(fit(reed!)).map(
    ({ title, blade, meanMm, uMm }) =>
      `${title} ${blade} ${meanMm.toFixed(3)} ± ${(1.96 * uMm).toFixed(3)} mm`,
  );
  expect(lines!.trim().split('\n')).toHaveLength(5);
  expect(run([process.execPath, 'five-lines.mjs']).trim().split('\n')).toEqual(expected);
});

it('has types that an application is checked against', () => {
  writeFileSync(
    join(folder, 'application.ts'),
    `import { fit, OpenQuestionsError, readReeds, type ZoneMean, zoneMeans } from 'hundredths';
import type { BenchReed } from 'hundredths/elements/reed.js';
export async function means(text: string): Promise<ZoneMean[]> {
  try {
    const [reed] = await readReeds(text);
    return reed ? zoneMeans(fit(reed)) : [];
  } catch (error) {
    if (error instanceof OpenQuestionsError) throw new Error(error.questions[0]?.sentence ?? '');
    throw error;
  }
}
const reed: BenchReed = document.createElement('bench-reed');
reed.addEventListener('bench-reed-fit', ({ reed: fitted }) => fitted.reed.label.trim());
// @ts-expect-error There is no such unit.
reed.unit = 'inch';
`,
  );
  const compilerOptions = { noEmit: true, strict: true, module: 'nodenext', target: 'es2022', types: [] };
  writeFileSync(
    join(folder, 'tsconfig.json'),
    JSON.stringify({ compilerOptions, files: ['application.ts'] }),
  );
  expect(run(toolCommand('tsc', ['-p', folder]), resolve('.'))).toBe('');
});

/** What a reader may have asked of the system, one after the other. */
const MEDIA: readonly NonNullable<Parameters<Page['emulateMedia']>[0]>[] = [
  {},
  { forcedColors: 'active' },
  { forcedColors: null, colorScheme: 'dark', contrast: 'more', reducedMotion: 'reduce' },
];

it('draws both blades and a relief from one tag, under a strict policy, without a word in the console', async () => {
  const { page, problems } = await opened(
    'one-tag.html',
    pageWith(
      '<bench-reed src="readings.csv" show="maps zones balance taken profile opening lamp relief"></bench-reed><bench-reed-beside src="readings.csv" compare="favourite.csv"></bench-reed-beside><bench-reed-readings></bench-reed-readings>',
    ),
  );
  const worker = page.waitForEvent('worker');
  await ready(page);
  expect((await worker).url()).toContain('/elements/fit-worker.js');
  for (const nth of [0, 1])
    expect(await coloursIn(page, 'bench-reed-map bench-blade-map', nth, 1e-3)).toBeGreaterThan(6);
  await page.locator('bench-reed-relief').scrollIntoViewIfNeeded();
  await expect.poll(() => coloursIn(page, 'bench-relief canvas', 0, 0)).toBeGreaterThan(500);
  for (const media of MEDIA) {
    await page.emulateMedia(media);
    const rules = media === MEDIA[0] ? undefined : CONTRAST;
    expect(await axeFaults(page, rules), JSON.stringify(media)).toEqual([]);
    expect(await coloursIn(page, 'bench-reed-map bench-blade-map', 0, 1e-3)).toBeGreaterThan(6);
    await expect.poll(() => coloursIn(page, 'bench-relief canvas', 0, 0)).toBeGreaterThan(500);
    const frame = page.locator('bench-relief .frame');
    expect(await frame.evaluate((one) => getComputedStyle(one).borderStyle)).toBe(
      media.forcedColors === 'active' ? 'solid' : 'none',
    );
  }
  expect(problems).toEqual([]);
  const asked = served.asked.filter(
    (path) =>
      !/^\/(one-tag\.html|(readings|favourite)\.csv|node_modules\/hundredths\/elements\/[^/]+\.js)$/.test(
        path,
      ),
  );
  expect(asked).toEqual([]);
  await page.context().close();
});

/** The public elements besides the one that has them all. */
const PARTS = [
  'map',
  'zones',
  'balance',
  'taken',
  'beside',
  'profile',
  'opening',
  'lamp',
  'relief',
  'readings',
];

it('takes what was set before it was defined, fetches what draws the relief only where one is shown, and does the work on the page where no worker may run', async () => {
  const before = served.asked.length;
  // What is set before the element is defined counts once it is.
  writeFileSync(
    join(folder, 'early.js'),
    `for (const el of document.querySelectorAll('main :not(h1)')) {
  if (customElements.get(el.localName)) throw new Error('The element is there already.');
  el.unit = 'mm';
}
const el = document.querySelector('bench-reed');
Object.assign(el, { data: await (await fetch('readings.csv')).text() });`,
  );
  const parts = PARTS.map((part) => `<bench-reed-${part}></bench-reed-${part}>`).join('');
  const html = pageWith(`<bench-reed show="maps"></bench-reed>${parts}`, ['../../../early.js', 'all.js']);
  const { page } = await opened('no-worker.html', html.replace("worker-src 'self'", "worker-src 'none'"));
  await ready(page);
  const late = await page
    .locator('main > :not(h1)')
    .evaluateAll((all) =>
      all.map((el) => `${el.localName} ${el.getAttribute('unit')} ${Object.hasOwn(el, 'unit')}`),
    );
  expect(late).toEqual(
    ['bench-reed', ...PARTS.map((part) => `bench-reed-${part}`)].map((tag) => `${tag} mm false`),
  );
  await page.getByText('Bark side, tip up.').first().waitFor();
  const asked = served.asked.slice(before);
  expect(asked.filter((path) => path.includes('relief-scene'))).toEqual([]);
  expect(page.workers()).toEqual([]);
  await page.context().close();
});

/** How many objects of an element's class are left in a page's memory. */
async function leftOf(page: Page, tag: string): Promise<number> {
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('HeapProfiler.collectGarbage');
  const expression = `customElements.get('${tag}').prototype`;
  const { result } = await devtools.send('Runtime.evaluate', { expression });
  const { objects } = await devtools.send('Runtime.queryObjects', { prototypeObjectId: result.objectId! });
  const list = await devtools.send('Runtime.getProperties', {
    objectId: objects.objectId!,
    ownProperties: true,
  });
  await devtools.detach();
  return list.result.find(({ name }) => name === 'length')?.value?.value as number;
}

it('shows two reeds on a page, is moved without reading again, and leaves nothing behind', async () => {
  // Without maps: the browser's own memory of styles keeps the last drawing with a clip path for a while.
  const tags = ['readings', 'favourite'].map(
    (name) => `<bench-reed src="${name}.csv" show="zones balance"></bench-reed>`,
  );
  // The second script is the same library from another address, as it happens on pages that are put together.
  const { page, problems } = await opened(
    'two.html',
    pageWith(tags.join('<section></section>'), ['all.js', 'all.js?again']),
  );
  const tables = page.locator('bench-reed bench-figures-table table');
  await expect.poll(() => tables.count()).toBe(2);
  const before = served.asked.length;
  await page.evaluate(() => document.querySelector('section')!.append(document.querySelector('bench-reed')!));
  await expect.poll(() => tables.count()).toBe(2);
  expect(served.asked.slice(before)).toEqual([]);
  expect(await leftOf(page, 'bench-reed')).toBe(2);
  await page.evaluate(() => document.querySelectorAll('bench-reed').forEach((el) => el.remove()));
  await expect.poll(() => page.workers().length).toBe(0);
  for (const tag of ['bench-reed', 'bench-figures-table', 'bench-whiskers'])
    await expect.poll(() => leftOf(page, tag), { message: tag }).toBe(0);
  expect(problems).toEqual([]);
  await page.context().close();
});

it('describes every public element in what editors read', () => {
  const { modules } = JSON.parse(
    readFileSync(join(folder, 'node_modules/hundredths/custom-elements.json'), 'utf8'),
  ) as {
    modules: {
      path: string;
      declarations?: {
        tagName?: string;
        description?: string;
        attributes?: { name: string; description?: string }[];
        events?: { name: string; description?: string }[];
        slots?: unknown[];
        cssParts?: unknown[];
        cssProperties?: unknown[];
      }[];
    }[];
  };
  const { exports } = JSON.parse(
    readFileSync(join(folder, 'node_modules/hundredths/package.json'), 'utf8'),
  ) as {
    exports: Record<string, unknown>;
  };
  const elements = modules.flatMap(({ path, declarations = [] }) =>
    declarations.filter(({ tagName }) => tagName).map((element) => ({ path, ...element })),
  );
  expect(elements.map(({ path }) => `./elements/${path.split('/').at(-1)}`).sort()).toEqual(
    Object.keys(exports)
      .filter((name) => /^\.\/elements\/reed.*\.js$/.test(name))
      .sort(),
  );
  for (const {
    tagName,
    description,
    attributes = [],
    events = [],
    slots = [],
    cssParts = [],
    cssProperties = [],
  } of elements) {
    expect(description, tagName).toMatch(/\w{3}/);
    const isForm = tagName === 'bench-reed-readings';
    expect(
      attributes.map(({ name }) => name),
      tagName,
    ).toEqual(
      expect.arrayContaining([
        'reed',
        'pass',
        'unit',
        'decimal',
        ...(isForm ? ['name'] : ['src', 'reed-style']),
      ]),
    );
    for (const one of [...attributes, ...events])
      expect(one.description, `${tagName} ${one.name}`).toMatch(/\w{3}/);
    expect(
      events.map(({ name }) => name),
      tagName,
    ).toEqual(expect.arrayContaining(isForm ? ['change'] : ['bench-reed-fit', 'bench-reed-problem']));
    // Whoever can be typed into or turned says by which keys.
    if (/readings|map|relief/.test(tagName!)) expect(description, tagName).toMatch(/Keys/);
    for (const list of [slots, cssParts, cssProperties]) expect(list.length, tagName).toBeGreaterThan(0);
  }
});
