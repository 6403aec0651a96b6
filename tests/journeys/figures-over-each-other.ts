/**
 * Runs in the page: figures of a drawing that lie over each other, by more than what is free of ink about their letters.
 * A line of words that is turned is judged by its middle alone.
 */
export function figuresOverEachOther(): string[] {
  const found: string[] = [];
  const drawings: SVGSVGElement[] = [];
  const walk = (root: Document | ShadowRoot) => {
    for (const element of root.querySelectorAll('*')) {
      if (element instanceof SVGSVGElement && !element.ownerSVGElement && element.checkVisibility())
        drawings.push(element);
      if (element.shadowRoot) walk(element.shadowRoot);
    }
  };
  walk(document);
  for (const drawing of drawings) {
    const root = drawing.getRootNode();
    const owner = root instanceof ShadowRoot ? root.host.localName : 'page';
    const texts = [...drawing.querySelectorAll('text')].flatMap((text) => {
      const words = text.textContent?.trim() ?? '';
      const box = text.getBoundingClientRect();
      const isSeen = text.checkVisibility({ opacityProperty: true, visibilityProperty: true });
      const turn = text.getScreenCTM();
      // A card lies over the drawing on purpose, on a ground of its own.
      if (text.closest('.card') || !words || !isSeen || box.width < 1 || !turn || Math.abs(turn.b) > 0.01)
        return [];
      return [{ words, box }];
    });
    texts.forEach((one, k) => {
      for (const other of texts.slice(k + 1)) {
        const across = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
        const down = Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top);
        const low = Math.min(one.box.height, other.box.height);
        if (across > 1 && down > 0.45 * low) found.push(`${owner}: “${one.words}” and “${other.words}”`);
      }
    });
  }
  return [...new Set(found)];
}
