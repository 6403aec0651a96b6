import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { everyPlace, unfolded, type Place } from './every-place.ts';
import { openBench, type Bench } from './launch.ts';

let bench: Bench;
let places: readonly Place[];
beforeAll(async () => {
  bench = await openBench({ viewport: { width: 1440, height: 900 } });
  places = await everyPlace(bench.page);
}, 120_000);
afterAll(() => bench.close());

/**
 * Drawings that are not pictures to keep: a ruler under the bar, ways through passes and clips, aids while a round is read,
 * and pages that are printed as a whole.
 */
const NOT_KEPT = [
  'bench-graduations',
  'bench-pass-strip',
  'bench-clip-ruler',
  'bench-reed-round',
  'bench-sheet',
  'bench-lesson-card',
  'bench-station-picker',
  'bench-two-sides',
];

/** Runs in the page: drawings in sight, each as its element and whether it can be saved. */
function drawings(notKept: readonly string[]): { name: string; saved: boolean }[] {
  const found: { name: string; saved: boolean }[] = [];
  const walk = (root: Document | ShadowRoot, hosts: readonly string[], owner: string) => {
    for (const element of root.querySelectorAll('*')) {
      const above = [...hosts];
      for (let up: Element | null = element; up; up = up.parentElement) above.push(up.localName);
      if (element.shadowRoot) walk(element.shadowRoot, above, element.localName);
      if (!(element instanceof SVGSVGElement || element instanceof HTMLCanvasElement)) continue;
      const { width, height } = element.getBoundingClientRect();
      if (width < 40 || height < 16 || !element.checkVisibility()) continue;
      if (above.some((name) => notKept.includes(name))) continue;
      found.push({ name: owner, saved: above.includes('bench-picture') });
    }
  };
  walk(document, [], '');
  return found;
}

/** A unit, or what stands for one. */
const UNIT = /hundredths|thousandths of a mm|\bmm\b|hours|order of brightness|standard deviation/;

describe('every picture', () => {
  it('can be saved', async () => {
    const seen = new Set<string>();
    for (const place of places) {
      await unfolded(bench.page, place);
      const found = await bench.page.evaluate(drawings, NOT_KEPT);
      for (const { name, saved } of found) {
        seen.add(name);
        expect(saved, `${name} at ${place.name}`).toBe(true);
      }
    }
    for (const name of [
      'bench-blade-map',
      'bench-map-legend',
      'bench-profile-chart',
      'bench-relief',
      'bench-lamp',
      'bench-whiskers',
      'bench-opening',
      'bench-blend-scale',
      'bench-spine-multiples',
      'bench-gouge-picture',
      'bench-gouge-drift',
    ])
      expect([...seen]).toContain(name);
  }, 300_000);

  it('is saved as a drawing and as pixels, with its caption, its unit and a day', async () => {
    const { page } = bench;
    const names = new Set<string>();
    for (const place of places) {
      await unfolded(page, place);
      const boxes = page.locator('bench-picture');
      for (let k = 0; k < (await boxes.count()); k++) {
        const box = boxes.nth(k);
        if (!(await box.isVisible())) continue;
        const save = async (kind: 'SVG' | 'PNG') => {
          const download = page.waitForEvent('download', { timeout: 120_000 });
          await box.getByRole('button', { name: kind }).click();
          const file = await download;
          return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) };
        };
        const { name, bytes } = await save('SVG');
        if (names.has(name)) continue;
        names.add(name);
        const text = bytes.toString('utf8');
        expect([UNIT.test(text), />\d{4}-\d\d-\d\d</.test(text), text.includes('var(--')], name).toEqual([
          true,
          true,
          false,
        ]);
        const png = (await save('PNG')).bytes;
        expect(png.subarray(1, 4).toString('latin1'), name).toBe('PNG');
        expect(Math.min(png.readUInt32BE(16), png.readUInt32BE(20)), name).toBeGreaterThan(60);
      }
    }
    expect(names.size).toBeGreaterThan(15);
  }, 300_000);

  it('says nothing in the console', () => {
    expect(bench.problems).toEqual([]);
  });
});
