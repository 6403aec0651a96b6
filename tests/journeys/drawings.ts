/**
 * Drawings that are not pictures to keep: a ruler under the bar, ways through passes and clips, aids while a round is read,
 * scales that a value is written on, forms that are drawn on a blade, and pages that are printed as a whole.
 */
export const NOT_KEPT = [
  'bench-graduations',
  'bench-pass-strip',
  'bench-clip-ruler',
  'bench-reed-round',
  'bench-sheet',
  'bench-lesson-card',
  'bench-station-picker',
  'bench-own-zones',
  'bench-two-sides',
  'bench-light-dial',
  'bench-note-field',
  'bench-own-zones',
];

/** Runs in the page: drawings in sight, each as its element and whether it can be saved. */
export function drawings(notKept: readonly string[]): { name: string; saved: boolean }[] {
  const found: { name: string; saved: boolean }[] = [];
  const walk = (root: Document | ShadowRoot, hosts: readonly string[], owner: string) => {
    for (const element of root.querySelectorAll('*')) {
      const above = [...hosts];
      for (let up: Element | null = element; up; up = up.parentElement) above.push(up.localName);
      if (element.shadowRoot) walk(element.shadowRoot, above, element.localName);
      if (!(element instanceof SVGSVGElement || element instanceof HTMLCanvasElement)) continue;
      const { width, height, right } = element.getBoundingClientRect();
      // Laid out beside the page, so that it has a size: where pictures are drawn that are kept.
      const isAside = right < 0;
      if (width < 40 || height < 16 || isAside || !element.checkVisibility()) continue;
      if (above.some((name) => notKept.includes(name))) continue;
      found.push({ name: owner, saved: above.includes('bench-picture') });
    }
  };
  walk(document, [], '');
  return found;
}
