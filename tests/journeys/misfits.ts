/**
 * Runs in the page: what does not fit there. A page wider than the window, words that are cut off, lines of words that lie
 * over each other, and targets too small to be hit.
 *
 * Targets: at least 44 px each way, or the exceptions of WCAG 2.2, success criterion 2.5.8: inline in a sentence, or so far
 * from the next that a circle of 24 px about the middle of each touches no other target. Source: W3C, WCAG 2.2, 2023.
 */
export function misfits(): string[] {
  const found: string[] = [];
  const elements: Element[] = [];
  const walk = (root: Document | ShadowRoot) => {
    for (const element of root.querySelectorAll('*')) {
      elements.push(element);
      if (element.shadowRoot) walk(element.shadowRoot);
    }
  };
  walk(document);
  const isSeen = (element: Element) =>
    element.checkVisibility({ opacityProperty: true, visibilityProperty: true }) &&
    element.getBoundingClientRect().width > 1;
  const nameOf = (element: Element) => {
    const host = element.getRootNode();
    const owner = host instanceof ShadowRoot ? host.host.localName : '';
    const words = (element.textContent ?? '').trim().replace(/\s+/g, ' ').slice(0, 30);
    return `${owner} ${element.localName}${element.className && typeof element.className === 'string' ? `.${element.className}` : ''} "${words}"`;
  };

  const wider = document.documentElement.scrollWidth - innerWidth;
  if (wider > 0) found.push(`wider than the window by ${wider} px`);

  /** The box that scrolls or cuts an element, if any. */
  const shownIn = (element: Element) => {
    for (let up: Element | null = element; up;) {
      const root: Node = up.getRootNode();
      up = up.assignedSlot ?? up.parentElement ?? (root instanceof ShadowRoot ? root.host : null);
      if (up && getComputedStyle(up).overflowX !== 'visible') return up;
    }
    return undefined;
  };

  // Lines of words.
  interface Line {
    readonly element: Element;
    readonly box: DOMRect;
  }
  const lines: Line[] = [];
  for (const element of elements) {
    if (element.closest('svg') || !isSeen(element) || /^(style|script|option)$/.test(element.localName))
      continue;
    for (const node of element.childNodes) {
      if (node.nodeType !== Node.TEXT_NODE || !node.nodeValue?.trim()) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const box of range.getClientRects())
        if (box.width > 1 && box.height > 1) lines.push({ element, box });
    }
  }
  for (const { element, box } of lines) {
    const holder = shownIn(element);
    const style = getComputedStyle(element);
    if (style.clip !== 'auto' || style.clipPath !== 'none') continue;
    const scrolls = holder && /auto|scroll/.test(getComputedStyle(holder).overflowX);
    const edge = holder?.getBoundingClientRect();
    if (edge && edge.width <= 2) continue;
    if (holder && edge && !scrolls && (box.right > edge.right + 1 || box.left < edge.left - 1))
      found.push(`cut: ${nameOf(element)}`);
    if (!scrolls && (box.right > innerWidth + 1 || box.left < -1))
      found.push(`out of the page: ${nameOf(element)}`);
  }
  const byTop = lines
    .filter(({ element }) => {
      const holder = shownIn(element);
      return !holder || holder.getBoundingClientRect().width > 2;
    })
    .sort((one, other) => one.box.top - other.box.top);
  byTop.forEach(({ element, box }, k) => {
    for (const { element: other, box: below } of byTop.slice(k + 1)) {
      if (below.top > box.bottom) break;
      if (other === element || element.contains(other) || other.contains(element)) continue;
      const across = Math.min(box.right, below.right) - Math.max(box.left, below.left);
      const down = Math.min(box.bottom, below.bottom) - Math.max(box.top, below.top);
      // Boxes of lines are higher than their letters: a third of one is free of ink.
      if (across > 2 && down > Math.min(box.height, below.height) * 0.4)
        found.push(`over each other: ${nameOf(element)} and ${nameOf(other)}`);
    }
  });

  // Targets.
  const TARGETS =
    // A mark stands where its figures put it: the exception of 2.5.8 for what is essential.
    'a[href]:not(.stop), button, input:not([type=hidden]), select, textarea, summary, [role=slider], [role=button]';
  const PRESSED = 'button, summary, select, textarea, input:not([type=hidden])';
  const boxOf = (element: Element) => {
    const own = element.getBoundingClientRect();
    const label = element instanceof HTMLInputElement ? element.closest('label') : null;
    if (!label || !/checkbox|radio|file/.test((element as HTMLInputElement).type)) return own;
    const outer = label.getBoundingClientRect();
    const [left, top] = [Math.min(own.left, outer.left), Math.min(own.top, outer.top)];
    return new DOMRect(
      left,
      top,
      Math.max(own.right, outer.right) - left,
      Math.max(own.bottom, outer.bottom) - top,
    );
  };
  const targets = elements
    .filter(
      (element) => element.matches(TARGETS) && isSeen(element) && !(element as HTMLButtonElement).disabled,
    )
    .map((element) => ({ element, box: boxOf(element) }));
  const isInline = (element: Element) =>
    getComputedStyle(element).display === 'inline' &&
    [...(element.parentElement?.childNodes ?? [])].some(
      (node) => node.nodeType === Node.TEXT_NODE && node.nodeValue!.trim() !== '',
    );
  const near = (x: number, y: number, box: DOMRect) =>
    Math.hypot(Math.max(box.left - x, 0, x - box.right), Math.max(box.top - y, 0, y - box.bottom));
  const isSmall = ({ width, height }: DOMRect) => width < 24 || height < 24;
  for (const { element, box } of targets) {
    if ((box.width >= 44 && box.height >= 44) || isInline(element)) continue;
    const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
    const crowded = targets.find(({ element: other, box: next }) => {
      if (other === element || other.contains(element) || element.contains(other)) return false;
      if (near(x, y, next) < 12) return true;
      return isSmall(next) && Math.hypot(x - next.left - next.width / 2, y - next.top - next.height / 2) < 24;
    });
    if (crowded) found.push(`too near: ${nameOf(element)} and ${nameOf(crowded.element)}`);
    // A maker's own rule, stricter than the standard: what is pressed with wet hands is 44 px high.
    else if (element.matches(PRESSED) && (box.height < 43.5 || box.width < 43.5))
      found.push(`small: ${nameOf(element)} ${Math.round(box.width)} by ${Math.round(box.height)}`);
  }
  return [...new Set(found)];
}
