import type { Page } from 'playwright-core';

/** A number as it stands on the page: its figure's name where it has one, and without its doubt. */
export interface Printed {
  /** The screen: question and pass, or lesson. */
  readonly where: string;
  /** Whose it is and what: `M-142, pass 3: zone.blend.mean`. */
  readonly name?: string;
  readonly row: string;
  readonly head: string;
  readonly value: string;
  readonly doubt?: string;
}

/** Every number that stands in a table of figures on the page, and every other that bears its figure's name. */
export function printedFigures(page: Page, where: string): Promise<Printed[]> {
  return page.evaluate(gather, where);
}

/** Runs in the page. */
function gather(where: string): Printed[] {
  const found: Printed[] = [];
  const words = (element: Element | null | undefined) =>
    element?.textContent?.replace(/\s+/g, ' ').trim() ?? '';
  const take = (cell: HTMLTableCellElement) => {
    const name = cell.getAttribute('data-figure') ?? undefined;
    if (cell.querySelector('.none') || !/\d/.test(words(cell))) return;
    // What is drawn has its number and its doubt in one sentence for those who cannot see it.
    const said = cell.querySelector(':scope > .said');
    const [value = '', spoken] = words(said ?? cell).split(' ±');
    const doubt = words(cell.querySelector('.doubt')).replace('±', '').split(' ')[0] || spoken?.split(',')[0];
    const table = cell.closest('table');
    found.push({
      where,
      row: words(cell.parentElement?.querySelector('th')),
      head: words(table?.tHead?.rows[0]?.cells[cell.cellIndex]),
      value: value.replace(/^\(|\)$/g, ''),
      ...(name !== undefined && { name }),
      ...(doubt && { doubt }),
    });
  };
  const walk = (root: Document | ShadowRoot, host: string) => {
    for (const element of root.querySelectorAll('*')) {
      const isInTable = /figures-table|whiskers/.test(host) && element.matches('tbody td');
      if ((isInTable || element.matches('[data-figure]')) && element.checkVisibility())
        take(element as HTMLTableCellElement);
      if (element.shadowRoot) walk(element.shadowRoot, element.localName);
    }
  };
  walk(document, 'page');
  return found;
}

/** Names that stand for more than one value, or more than one doubt, and where. */
export function contradictions(figures: readonly Printed[]): string[] {
  const byName = new Map<string, Printed[]>();
  for (const figure of figures) {
    if (figure.name === undefined) continue;
    byName.set(figure.name, [...(byName.get(figure.name) ?? []), figure]);
  }
  return [...byName].flatMap(([name, all]) => {
    const values = new Set(all.map(({ value }) => value));
    const doubts = new Set(all.flatMap(({ doubt }) => doubt ?? []));
    if (values.size <= 1 && doubts.size <= 1) return [];
    return [
      `${name}: ${all.map(({ value, doubt, where }) => `${value} ±${doubt ?? ''} (${where})`).join(', ')}`,
    ];
  });
}
