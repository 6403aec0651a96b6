export type Picture = SVGSVGElement | HTMLCanvasElement | HTMLImageElement;

const DRAWINGS = [SVGSVGElement, HTMLCanvasElement, HTMLImageElement];

/** A drawing, or a line of words of the page, and where it stands there, CSS pixels. */
export interface Placed<Part = Picture | string> {
  readonly part: Part;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** A line of words with the style that the page sets it in. */
export interface Words extends Placed<string> {
  readonly style: CSSStyleDeclaration;
}

/** What an element of the bench shows. */
export interface PictureParts {
  readonly pictures: readonly Placed<Picture>[];
  readonly words: readonly Words[];
}

const isOf = (element: Element, kind: RegExp) => kind.test(element.getAttribute('part') ?? '');

function placed<Part>(part: Part, { left, top, width, height }: DOMRect): Placed<Part> {
  return { part, left, top, width, height };
}

/** The lines that the words of an element are broken into on the page. */
function linesOf(element: Element): Words[] {
  const style = getComputedStyle(element);
  const lines: { text: string; box: DOMRect }[] = [];
  const walker = document.createTreeWalker(element, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode())
    for (const { 0: word, index } of (node.nodeValue ?? '').matchAll(/\S+/g)) {
      const range = document.createRange();
      range.setStart(node, index);
      range.setEnd(node, index + word.length);
      const box = range.getBoundingClientRect();
      const last = lines.at(-1);
      if (last && Math.abs(last.box.top - box.top) < box.height / 2) {
        last.text += ` ${word}`;
        last.box = new DOMRect(last.box.left, last.box.top, box.right - last.box.left, last.box.height);
      } else if (box.width > 0) lines.push({ text: word, box });
    }
  return lines.map(({ text, box }) => ({ ...placed(text, box), style }));
}

/**
 * Drawings and canvases that an element shows (`part="picture"` or `canvas`), and words that belong to them
 * (`part="words"`), in its shadow and in those of the elements inside it; what is not seen is left out.
 */
export function pictureParts(root: Element | ShadowRoot): PictureParts {
  const pictures: Placed<Picture>[] = [];
  const words: Words[] = [];
  for (const element of root.querySelectorAll('*')) {
    if (element.shadowRoot) {
      const inside = pictureParts(element.shadowRoot);
      pictures.push(...inside.pictures);
      words.push(...inside.words);
    }
    if (!element.hasAttribute('part') || !element.checkVisibility()) continue;
    const isDrawing = DRAWINGS.some((kind) => element instanceof kind);
    if (isDrawing && isOf(element, /picture|canvas/))
      pictures.push(placed(element as Picture, element.getBoundingClientRect()));
    else if (isOf(element, /words/)) words.push(...linesOf(element));
  }
  return { pictures, words };
}
