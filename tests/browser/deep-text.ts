/** All that is written in an element and its shadows, without their styles. */
export function deepText(root: Node): string {
  if (root instanceof HTMLStyleElement) return '';
  const inside = root instanceof Element && root.shadowRoot ? deepText(root.shadowRoot) : '';
  const own = root.nodeType === Node.TEXT_NODE ? (root.textContent ?? '') : '';
  return [inside, own, ...[...root.childNodes].map(deepText)].join(' ');
}
