import { build } from 'esbuild';
import { expect, it } from 'vitest';
import { engineFigures, type EngineFigures } from './figures-page.ts';
import { borrowBrowser } from './launch.ts';

async function inChromium(): Promise<EngineFigures> {
  const { outputFiles } = await build({
    entryPoints: ['tests/journeys/figures-page.ts'],
    bundle: true,
    format: 'iife',
    target: 'es2022',
    write: false,
  });
  const browser = await borrowBrowser();
  try {
    const page = await (await browser.newContext()).newPage();
    await page.setContent('<!doctype html><title>Figures</title>');
    await page.addScriptTag({ content: outputFiles[0]!.text });
    return await page.evaluate(() =>
      (globalThis as unknown as { engineFigures: () => EngineFigures }).engineFigures(),
    );
  } finally {
    await browser.close();
  }
}

it('computes the same figures in Node and in the browser, to the bit at given smoothing', async () => {
  const here = engineFigures();
  const there = await inChromium();
  expect(here.fixedBits.length).toBeGreaterThan(16 * 60 * 60);
  expect(there.fixedBits === here.fixedBits).toBe(true);
  // Engines may differ in exp, log and trigonometry, which only the choice of the smoothing uses.
  expect(here.figuresMm.length).toBe(there.figuresMm.length);
  expect(here.figuresMm.every(Number.isFinite)).toBe(true);
  here.figuresMm.forEach((value, i) => expect(Math.abs(value - there.figuresMm[i]!)).toBeLessThan(1e-9));
  expect(there.printed).toEqual(here.printed);
  expect(here.printed.length).toBeGreaterThan(80);
});

it('computes the same bits twice', () => {
  expect(engineFigures()).toEqual(engineFigures());
});
