import type { Page } from 'playwright-core';
import type { Place } from './every-place.ts';
import { untoldPictures } from './told-pictures.ts';

/** What answers the question of each place around the bench at a glance, and what stands beside it. */
const ANSWERS: Readonly<Record<string, readonly string[]>> = {
  room: ['bench-room-chart svg'],
  cane: ['bench-lot-chart svg', 'bench-gouge-picture svg', 'bench-lot-flow svg'],
  gauge: ['bench-causes-chart svg', 'bench-check-chart svg', 'bench-repeat-study'],
  rotation: ['bench-lives-chart svg', 'bench-engagements article'],
  history: ['bench-life-pictures .pictures', 'bench-life-pictures .legends'],
  notes: ['bench-trial-form .fields', 'bench-notes h2'],
  // Of few reeds nothing is claimed: what will stand there.
  alike: ['bench-usual-reed figure'],
  lesson: ['bench-lesson-pair svg', 'bench-lesson .deed'],
  setup: ['bench-setup input'],
};
const MOST_FIELDS = 8;

/** Whether a place asks for more fields at once than one looks over. */
export async function manyFields(page: Page, { name }: Place): Promise<string[]> {
  const counts = await page.evaluate(fieldsAtOnce);
  return counts
    .filter(([, count]) => count > MOST_FIELDS)
    .map(([where, count]) => `${name}: ${count} fields ${where}`);
}

/** What of a place's answer lies below the first screen, and what pictures there lack. */
export async function firstScreen(page: Page, { name, hash, ready }: Place): Promise<string[]> {
  const answers = ANSWERS[name];
  if (!answers) return [];
  await page.evaluate((to) => (location.hash = `#/${to}`), hash);
  await page.locator(ready).first().waitFor();
  await page.evaluate(() => scrollTo(0, 0));
  const found: string[] = [];
  for (const answer of answers) {
    const first = page.locator(answer).first();
    await first.waitFor();
    const { y, height } = (await first.boundingBox())!;
    const below = y + height - page.viewportSize()!.height;
    if (below > 0) found.push(`${name}: ${answer} ends ${Math.round(below)} px below the first screen`);
  }
  for (const fault of await untoldPictures(page)) found.push(`${name}: ${fault}`);
  return found;
}

/**
 * Runs in the page: fields that are asked for at once, in sight as one comes, and by what is opened on a word. A scale is
 * one field; cells of a table of readings are none.
 */
function fieldsAtOnce(): [where: string, count: number][] {
  const counts = new Map<string, Set<string>>();
  let number = 0;
  const add = (where: string, field: string) =>
    counts.set(where, (counts.get(where) ?? new Set()).add(field));
  const walk = (root: Document | ShadowRoot, fold: string) => {
    for (const element of root.querySelectorAll('*')) {
      const within = element.parentElement?.closest('details');
      const own = within ? (within.querySelector('summary')?.textContent?.trim() ?? '') : fold;
      if (element.shadowRoot) walk(element.shadowRoot, own);
      if (!element.matches('input:not([type=hidden]), select, textarea') || element.closest('td, dialog'))
        continue;
      const scale = element.matches('[type=radio]') ? element.getAttribute('name') : undefined;
      if (own || element.checkVisibility()) add(own ? `under “${own}”` : 'in sight', scale ?? `${number++}`);
    }
  };
  walk(document, '');
  return [...counts].map(([where, fields]) => [where, fields.size]);
}
