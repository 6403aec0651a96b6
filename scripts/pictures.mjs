// Makes the pictures of README and of the installed bench, and its icons: npm run pictures. From the built page and the
// invented scenario, as a maker sees them.
import { mkdirSync, readFileSync } from 'node:fs';
import { buildWhatChanged } from './build-what-changed.mjs';
import { ensurePackages } from './ensure.mjs';
import { runPlainly } from './plain-error.mjs';

const PORT = 4620;
const PUBLIC = 'demo/public';
const GROUND = '#22313f';

/** Name, pixels, and whether it fills its square to the edges, so that a system may cut it to its own shape. */
const ICONS = [
  ['192', 192, false],
  ['512', 512, false],
  ['maskable', 512, true],
  ['apple', 180, true],
];

async function drawIcons(browser) {
  const mark = Buffer.from(readFileSync(`${PUBLIC}/icon.svg`)).toString('base64');
  const page = await browser.newPage();
  for (const [name, size, isFull] of ICONS) {
    await page.setViewportSize({ width: size, height: size });
    await page.setContent(
      `<body style="margin:0;background:${isFull ? GROUND : 'none'}"><img style="display:block;width:${isFull ? 80 : 100}%;margin:${isFull ? 10 : 0}%" src="data:image/svg+xml;base64,${mark}">`,
    );
    await page.screenshot({ path: `${PUBLIC}/icons/${name}.png`, omitBackground: true });
  }
  await page.close();
}

async function withScenario(browser, address, options) {
  const page = await (await browser.newContext({ colorScheme: 'light', ...options })).newPage();
  await page.goto(address);
  await page.getByRole('button', { name: 'Look at invented reeds' }).click();
  await page.locator('.slots').waitFor();
  return page;
}

async function photograph(page, name) {
  // Whatever the page still works out is done, and nothing has the focus or the pointer.
  await page.waitForLoadState('networkidle');
  await page.waitForTimeout(3000);
  await page.screenshot({ path: `${PUBLIC}/screenshots/${name}.png` });
}

async function drawBench(browser, address) {
  const page = await withScenario(browser, address, { viewport: { width: 1440, height: 900 } });
  await page.getByRole('link', { name: /M-142/ }).first().click();
  await page.locator('bench-there-now').waitFor();
  await photograph(page, 'there-now');
  await page.keyboard.press('2');
  await page.locator('bench-taken-off').waitFor();
  await photograph(page, 'taken-off');
}

async function drawRound(browser, address) {
  const page = await withScenario(browser, address, {
    viewport: { width: 390, height: 844 },
    deviceScaleFactor: 2,
    isMobile: true,
    hasTouch: true,
  });
  await page.keyboard.press('r');
  await page.locator('bench-round-start').waitFor();
  await page.getByRole('button', { name: /Full map/ }).click();
  await page.locator('bench-round').waitFor();
  for (const digits of ['8', '9', '11', '10', '9', '13', '14', '16', '15', '13', '17', '19']) {
    await page.keyboard.type(digits);
    await page.keyboard.press('Enter');
  }
  await page.keyboard.type('2');
  await photograph(page, 'round');
}

await runPlainly(async () => {
  ensurePackages();
  await buildWhatChanged();
  const { chromium } = await import('playwright-core');
  const { BROWSER_ARGS, findBrowser } = await import('./find-browser.mjs');
  const { serveBench } = await import('./serve.mjs');
  for (const folder of ['icons', 'screenshots']) mkdirSync(`${PUBLIC}/${folder}`, { recursive: true });
  const served = await serveBench({
    folder: 'dist',
    port: PORT,
    version: 'pictures',
    ready: Promise.resolve(),
  });
  const browser = await chromium.launch({ executablePath: findBrowser(), args: BROWSER_ARGS });
  try {
    await drawIcons(browser);
    await drawBench(browser, `http://localhost:${PORT}/`);
    await drawRound(browser, `http://localhost:${PORT}/`);
  } finally {
    await browser.close();
    served.close();
  }
});
