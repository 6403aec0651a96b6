import type { Page } from 'playwright-core';

/** What pictures in sight lack: a table, words for those who hear them, marks that keys come to. */
export async function untoldPictures(page: Page): Promise<string[]> {
  const tables = await page.evaluate(withoutTable);
  return [
    ...tables.map((picture) => `no table of “${picture}”`),
    ...(await page.evaluate(withoutWords)).map((drawing) => `no words for ${drawing}`),
    ...(await page.evaluate(outOfReach)),
    ...(await page.evaluate(unreached)),
  ];
}

/** Runs in the page: drawings whose marks are not one stop of the Tab key, from which the arrows go on, or say nothing. */
function outOfReach(): string[] {
  const found: string[] = [];
  const walk = (root: Document | ShadowRoot) => {
    for (const element of root.querySelectorAll('*')) if (element.shadowRoot) walk(element.shadowRoot);
    for (const drawing of root.querySelectorAll('svg')) {
      const stops = [...drawing.querySelectorAll('[data-stop]')];
      if (stops.length === 0 || !drawing.checkVisibility()) continue;
      const reached = stops.filter((stop) => stop.getAttribute('tabindex') === '0').length;
      const silent = stops.filter((stop) => !stop.getAttribute('aria-label')).length;
      if (reached !== 1 || silent > 0)
        found.push(`${reached} of ${stops.length} marks reached by Tab, ${silent} without words`);
    }
  };
  walk(document);
  return found;
}

/** Runs in the page: pictures in sight whose figures stand in no table, of their own or beside them. */
function withoutTable(): string[] {
  const found: string[] = [];
  const holds = (root: ParentNode): boolean =>
    root.querySelector('table') !== null ||
    [...root.querySelectorAll('*')].some(({ shadowRoot }) => shadowRoot !== null && holds(shadowRoot));
  const walk = (root: Document | ShadowRoot) => {
    for (const element of root.querySelectorAll('*')) {
      if (element.shadowRoot) walk(element.shadowRoot);
      // What is usual has no figures of the maker's.
      const isUsual = /usual .*no (reed|piece) of yours/i.test(element.getAttribute('caption') ?? '');
      if (element.localName !== 'bench-picture' || !element.checkVisibility() || isUsual) continue;
      const beside = element.closest('section, .two') ?? element;
      if (!holds(element) && !holds(beside)) found.push(element.getAttribute('caption') ?? '');
    }
  };
  walk(document);
  return found;
}

/** Runs in the page: drawings of pictures that say nothing to those who hear them, and that nothing beside them says. */
function withoutWords(): string[] {
  const found: string[] = [];
  const walk = (root: Document | ShadowRoot, isPicture: boolean, isHidden: boolean) => {
    for (const element of root.querySelectorAll('*')) {
      const within = isPicture || element.closest('bench-picture') !== null;
      const silent = isHidden || element.closest('[aria-hidden=true]') !== null;
      if (element.shadowRoot) walk(element.shadowRoot, within, silent);
      const isDrawing = element.matches('svg:not(svg svg), canvas');
      if (!isDrawing || !within || silent || !element.checkVisibility()) continue;
      const { width, height } = element.getBoundingClientRect();
      const isNamed = element.getAttribute('aria-label') || element.querySelector('title');
      if (width > 40 && height > 30 && !isNamed) {
        const host = element.getRootNode();
        found.push(host instanceof ShadowRoot ? host.host.localName : element.localName);
      }
    }
  };
  walk(document, false, false);
  return found;
}

/**
 * Runs in the page: marks that no arrow key comes to. From the first on, every group and every mark of it, one way and the
 * other; what a key comes to takes the focus.
 */
async function unreached(): Promise<string[]> {
  const MOST = { groups: 400, within: 60 };
  const found: string[] = [];
  const drawings: SVGSVGElement[] = [];
  const collect = (root: Document | ShadowRoot) => {
    for (const element of root.querySelectorAll('*')) {
      if (element.shadowRoot) collect(element.shadowRoot);
      if (
        element instanceof SVGSVGElement &&
        element.checkVisibility() &&
        element.querySelector('[data-stop]')
      )
        drawings.push(element);
    }
  };
  collect(document);
  for (const drawing of drawings) {
    const ids = () =>
      [...drawing.querySelectorAll('[data-stop]')].map((stop) => stop.getAttribute('data-stop')!);
    const reached = new Set<string | null>();
    drawing.addEventListener('focusin', (event) =>
      reached.add((event.target as Element).getAttribute('data-stop')),
    );
    const { host } = drawing.getRootNode() as ShadowRoot;
    const count = ids().length;
    const press = (key: string, times = 1) => {
      const stop = drawing.querySelector('[data-stop]')!;
      for (let k = 0; k < times; k++)
        stop.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true }));
    };
    // Groups are columns or rows.
    for (const [on, up, down] of [
      ['ArrowRight', 'ArrowUp', 'ArrowDown'],
      ['ArrowDown', 'ArrowRight', 'ArrowLeft'],
    ] as const) {
      press('Home');
      for (let group = 0; group < Math.min(count, MOST.groups); group++) {
        press(down, Math.min(count, MOST.within));
        press(up, Math.min(count, MOST.within));
        press(on);
      }
    }
    await (host as HTMLElement & { updateComplete: Promise<unknown> }).updateComplete;
    await new Promise((resolve) => setTimeout(resolve));
    const left = ids().filter((id) => !reached.has(id));
    if (left.length > 0)
      found.push(
        `${host.localName}: ${left.length} of ${count} marks not reached by keys: ${left.slice(0, 3).join(', ')}`,
      );
    (drawing.getRootNode() as ShadowRoot).querySelector<HTMLElement>(':focus')?.blur();
  }
  return found;
}
