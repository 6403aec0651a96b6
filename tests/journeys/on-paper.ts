/** What of a page would stand on paper. */
export interface OnPaper {
  /** Sentences, pictures and tables that are printed. */
  readonly says: number;
  readonly pictures: number;
  readonly tables: number;
  /** What only moves, unfolds or is pressed, and has no business there: each as its element and its words. */
  readonly controls: readonly string[];
}

/** Runs in the page, while it is shown as it is printed. */
export function onPaper(): OnPaper {
  const elements: Element[] = [];
  const walk = (root: Document | ShadowRoot) => {
    for (const element of root.querySelectorAll('*')) {
      const { width, height } = element.getBoundingClientRect();
      const isSeen = width > 2 && height > 2 && element.checkVisibility({ visibilityProperty: true });
      if (isSeen) elements.push(element);
      if (element.shadowRoot) walk(element.shadowRoot);
    }
  };
  walk(document);
  const count = (selector: string) => elements.filter((element) => element.matches(selector)).length;
  const controls = elements
    .filter((element) => element.matches('input, select, textarea, button, summary'))
    .map((element) => {
      const root = element.getRootNode();
      const owner = root instanceof ShadowRoot ? root.host.localName : 'page';
      const words = element.getAttribute('aria-label') ?? element.textContent ?? '';
      return `${owner} ${element.localName} ${words.replace(/\s+/g, ' ').trim().slice(0, 40)}`;
    });
  return { says: count('.say'), pictures: count('svg[role], canvas'), tables: count('table'), controls };
}
