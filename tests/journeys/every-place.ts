import type { Page } from 'playwright-core';

/** A place of the page, and what shows that it has come. */
export interface Place {
  readonly name: string;
  /** Stands behind `#/`. */
  readonly hash: string;
  readonly ready: string;
}

/** The fields that take text. */
export const TEXT_FIELDS = ['input[type="text"]', 'input[type="search"]', 'input:not([type])', 'textarea'];

/** Whether a place is one of the five questions to a reed. */
export const isQuestion = ({ name }: Place) => ['there', 'taken', 'even', 'beside', 'next'].includes(name);

/** Every place that the page has, with the invented reeds in the library. */
export async function everyPlace(page: Page): Promise<readonly Place[]> {
  await page.getByRole('button', { name: 'Look at invented reeds' }).click();
  const idOf = async (label: RegExp) => {
    const link = page.getByRole('link', { name: label }).first();
    await link.waitFor();
    return (await link.getAttribute('href'))!.split('/')[2]!;
  };
  const [own, example] = [await idOf(/M-142/), await idOf(/K-117/)];
  const plain = (hash: string, ready: string) => ({ name: hash, hash, ready });
  const bench = (question: string, ready: string) => ({
    name: question,
    hash: `bench/${own}/${question}`,
    ready,
  });
  await page.evaluate(() => (location.hash = '#/cane'));
  const inCane = await linksTo(page, '#/cane/lot/');
  await page.evaluate((hash) => (location.hash = hash), inCane[0]!);
  const pieces = await linksTo(page, '#/cane/piece/');
  return [
    plain('case', 'bench-case .slots'),
    bench('there', 'bench-there-now bench-figures-table'),
    bench('taken', 'bench-taken-off h2'),
    bench('even', 'bench-even h2'),
    bench('beside', 'bench-beside h2'),
    bench('next', 'bench-next h2'),
    bench('notes', 'bench-notes h2'),
    bench('read', 'bench-read'),
    bench('sheet', 'bench-sheet h1'),
    { name: 'round', hash: `round/${own}`, ready: 'bench-reed-round' },
    { name: 'history', hash: `history/${own}`, ready: 'bench-history h1' },
    { name: 'lesson', hash: `lesson/${example}/${own}`, ready: 'bench-lesson h1' },
    plain('cane', 'bench-cane'),
    { name: 'lot', hash: inCane[0]!.slice(2), ready: 'bench-lot-panel .acts' },
    { name: 'piece', hash: pieces[0]!.slice(2), ready: 'bench-piece-panel h2' },
    plain('gauge', 'bench-gauge-page h2'),
    plain('room', 'main h2'),
    plain('setup', 'bench-setup h2'),
    plain('bring-in', 'bench-bring-in h1'),
    plain('rotation', 'bench-rotation h1'),
    plain('find', 'bench-find h1'),
    plain('alike', 'bench-alike h1'),
    plain('grids', 'main table'),
    plain('practice', 'bench-practice h1'),
  ];
}

/** The places around the bench, with nothing in the library, or with a working life of reeds. */
export async function aroundTheBench(page: Page, isFull: boolean): Promise<readonly Place[]> {
  const plain = (hash: string, ready: string) => ({ name: hash, hash, ready });
  const places = [
    plain('cane', 'bench-cane h1'),
    plain('gauge', 'bench-gauge-page h2'),
    plain('room', 'bench-room-chart svg'),
    plain('rotation', 'bench-rotation h1'),
    plain('setup', 'bench-setup h2'),
  ];
  if (!isFull) return [...places, plain('alike', 'bench-alike h1')];
  await page.getByRole('button', { name: /working life/ }).click();
  const [one = '', other = ''] = (await linksTo(page, '#/bench/')).map((href) => href.split('/')[2]!);
  return [
    ...places,
    { name: 'notes', hash: `bench/${one}/notes`, ready: 'bench-notes h2' },
    { name: 'history', hash: `history/${one}`, ready: 'bench-history h1' },
    { name: 'lesson', hash: `lesson/${one}/${other}`, ready: 'bench-lesson h1' },
    // The last: by then all reeds are worked out.
    plain('alike', 'bench-alike bench-way'),
  ];
}

/** Addresses of links, in the order of their words: identifiers, and the order that hangs on them, are drawn. */
async function linksTo(page: Page, start: string): Promise<string[]> {
  const links = page.locator(`a[href^="${start}"]`);
  await links.first().waitFor();
  const found = await links.evaluateAll((all) =>
    all.map((link) => ({ href: link.getAttribute('href')!, words: link.textContent })),
  );
  return found.sort((a, b) => (a.words < b.words ? -1 : 1)).map(({ href }) => href);
}

/** Goes to a place and opens everything that can be folded out there, and draws what is drawn when it comes into sight. */
export async function unfolded(page: Page, place: Place): Promise<void> {
  await opened(page, place);
  const height = await page.evaluate(() => document.documentElement.scrollHeight);
  for (let top = 0; top < height; top += 700) {
    await page.evaluate((to) => scrollTo(0, to), top);
    await page.waitForTimeout(50);
  }
  await page.evaluate(() => scrollTo(0, 0));
}

/** Goes to a place and opens everything that can be folded out there. */
export async function opened(page: Page, { hash, ready }: Place): Promise<void> {
  await page.evaluate((to) => (location.hash = `#/${to}`), hash);
  await page.locator(ready).first().waitFor();
  for (;;) {
    const opened = await page.evaluate(openFolds);
    if (opened === 0) break;
    await page.waitForTimeout(200);
  }
}

/** Runs in the page: opens what can be folded out, and says how much that was. */
export function openFolds(): number {
  let count = 0;
  const walk = (root: Document | ShadowRoot) => {
    for (const element of root.querySelectorAll('*')) {
      // A menu lies over the page on purpose.
      const isMenu = element.matches('.more');
      if (element instanceof HTMLDetailsElement && !element.open && !isMenu && element.checkVisibility()) {
        element.open = true;
        count++;
      }
      if (element.shadowRoot) walk(element.shadowRoot);
    }
  };
  walk(document);
  return count;
}
