import type { Page } from 'playwright-core';

/** A word of the page, as it is read or heard: a text, a name, a hint, what stands in a field. */
export interface PageWord {
  readonly from: 'text' | 'aria-label' | 'title' | 'placeholder' | 'value' | 'aria-valuetext';
  readonly words: string;
}

/** Everything that the page says where it can be seen, in the order in which it stands. */
export function pageWords(page: Page): Promise<PageWord[]> {
  return page.evaluate(gather);
}

/** The texts of the page alone, as one. */
export async function pageText(page: Page): Promise<string> {
  const words = await pageWords(page);
  return words.flatMap(({ from, words: text }) => (from === 'text' ? [text] : [])).join('\n');
}

/** Runs in the page. */
function gather(): PageWord[] {
  const found: PageWord[] = [];
  const plain = (text: string) => text.replace(/\s+/g, ' ').replaceAll('\u2011', '-').trim();
  const take = (from: PageWord['from'], text: string | null | undefined) => {
    const words = plain(text ?? '');
    if (words) found.push({ from, words });
  };
  const walk = (nodes: Iterable<Node>, line: string[]) => {
    const end = () => take('text', line.splice(0).join(''));
    for (const node of nodes) {
      if (node instanceof Text) line.push(node.data);
      if (!(node instanceof Element) || /^(style|script|title|desc)$/i.test(node.localName)) continue;
      const { display } = getComputedStyle(node);
      // What is said to a screen reader alone is clipped, not hidden; what has no box of its own may hold some that have.
      if (display !== 'contents' && !node.checkVisibility({ visibilityProperty: true })) continue;
      const isLine = !/^(inline|contents)/.test(display) || node.localName === 'text';
      if (isLine) end();
      for (const name of ['aria-label', 'title', 'placeholder', 'aria-valuetext'] as const)
        take(name, node.getAttribute(name));
      if (node instanceof HTMLInputElement && node.type !== 'date') take('value', node.value);
      const inside =
        node.shadowRoot?.childNodes ??
        (node instanceof HTMLSlotElement && node.assignedNodes().length > 0
          ? node.assignedNodes()
          : node.childNodes);
      walk(inside, line);
      if (isLine) end();
    }
  };
  const rest: string[] = [];
  walk(document.body.childNodes, rest);
  take('text', rest.join(''));
  return found;
}
