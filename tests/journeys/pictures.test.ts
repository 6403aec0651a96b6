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
    expect(seen.size, [...seen].join(', ')).toBeGreaterThan(6);
  }, 300_000);

  it('says nothing in the console', () => {
    expect(bench.problems).toEqual([]);
  });
});
