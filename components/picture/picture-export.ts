import type { Picture, PictureParts, Words } from './picture-parts.ts';

/** What a picture's file says under it. */
export interface PictureNote {
  /** What is shown, with its unit. */
  readonly caption: string;
  /** The day, as it shall stand in the file. */
  readonly date: string;
}

const SVG = 'http://www.w3.org/2000/svg';
/** Everything that style sheets say of a drawing; a file has no style sheet, so it is written on each part. */
const DRAWN = [
  'fill',
  'fill-opacity',
  'fill-rule',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-linecap',
  'stroke-linejoin',
  'opacity',
  'paint-order',
  'font-family',
  'font-size',
  'font-style',
  'font-weight',
  'text-anchor',
  'dominant-baseline',
] as const;

/** What means something to a page alone. */
const FOR_THE_PAGE = /^(class|part|role|tabindex|aria-.*)$/;

const LINE_PX = 18;
const CAPTION_SIZE = 13;
const FONT = 'system-ui, sans-serif';

/** Ids get a prefix, so that two pictures in one file keep their own patterns. */
function withPrefix(value: string, prefix: string): string {
  return value.replace(/url\(["']?#([^"')]+)["']?\)/g, `url(#${prefix}$1)`);
}

function writeStyles(from: Element, to: Element, prefix: string): void {
  const style = getComputedStyle(from);
  for (const name of DRAWN) to.setAttribute(name, withPrefix(style.getPropertyValue(name), prefix));
  const clip = to.getAttribute('clip-path');
  if (clip) to.setAttribute('clip-path', withPrefix(clip, prefix));
  for (const name of to.getAttributeNames()) if (FOR_THE_PAGE.test(name)) to.removeAttribute(name);
  if (to.id) to.id = prefix + to.id;
  Array.from(from.children).forEach((child, k) => writeStyles(child, to.children[k]!, prefix));
}

function imageOf(address: string): SVGElement {
  const image = document.createElementNS(SVG, 'image');
  image.setAttribute('href', address);
  return image;
}

/** A copy that needs no style sheet and no document. */
function standingAlone(picture: Picture, prefix: string): SVGElement {
  if (picture instanceof HTMLImageElement) return imageOf(picture.src);
  if (picture instanceof HTMLCanvasElement) {
    // Whoever draws it may draw it finer for the file, at once.
    picture.dispatchEvent(new Event('bench-picture-take'));
    return imageOf(picture.toDataURL('image/png'));
  }
  const copy = picture.cloneNode(true) as SVGSVGElement;
  writeStyles(picture, copy, prefix);
  copy.setAttribute('overflow', 'visible');
  return copy;
}

function write(part: SVGElement, attributes: Readonly<Record<string, string | number>>): void {
  for (const [name, value] of Object.entries(attributes)) part.setAttribute(name, String(value));
}

function textOf(text: string, attributes: Readonly<Record<string, string | number>>): SVGTextElement {
  const line = document.createElementNS(SVG, 'text');
  write(line, attributes);
  line.textContent = text;
  return line;
}

/** Words of the page, where they stand on it. */
function wordsOf({ part, height, style }: Words, left: number, top: number, scale: number): SVGTextElement {
  return textOf(part, {
    x: left,
    y: top + (height * scale) / 2,
    fill: style.color,
    'font-family': style.fontFamily,
    'font-size': parseFloat(style.fontSize) * scale,
    'font-style': style.fontStyle,
    'font-weight': style.fontWeight,
    'dominant-baseline': 'central',
  });
}

/** Breaks words into lines that are no wider than the picture. */
function broken(words: string, width: number): string[] {
  const measure = document.createElement('canvas').getContext('2d')!;
  measure.font = `${CAPTION_SIZE}px ${FONT}`;
  return words.split(' ').reduce<string[]>((lines, word) => {
    const longer = lines.length > 0 ? `${lines.at(-1)} ${word}` : word;
    if (lines.length > 0 && measure.measureText(longer).width <= width)
      return [...lines.slice(0, -1), longer];
    return [...lines, word];
  }, []);
}

/** Units of the file for one CSS pixel: the largest drawing keeps its own. */
function scaleOf(pictures: PictureParts['pictures']): number {
  const largest = pictures.reduce((best, one) => (one.width > best.width ? one : best));
  const own =
    largest.part instanceof SVGSVGElement ? largest.part.viewBox.baseVal.width : largest.part.clientWidth;
  return own > 0 && largest.width > 0 ? own / largest.width : 1;
}

/** Pictures as they stand on the page, over their caption and date, as one drawing that needs nothing else. */
function composed({ pictures, words }: PictureParts, { caption, date }: PictureNote): SVGSVGElement {
  const scale = scaleOf(pictures);
  const all = [...pictures, ...words];
  const [left, top] = [Math.min(...all.map((one) => one.left)), Math.min(...all.map((one) => one.top))];
  const width = scale * (Math.max(...all.map((one) => one.left + one.width)) - left);
  const bottom = scale * (Math.max(...all.map((one) => one.top + one.height)) - top);
  const under = [...broken(caption, width), date].filter(Boolean);
  const height = bottom + (under.length + 1) * LINE_PX;
  const svg = document.createElementNS(SVG, 'svg');
  write(svg, { width, height, viewBox: `0 0 ${width} ${height}` });
  const style = getComputedStyle(pictures[0]!.part);
  const ground = document.createElementNS(SVG, 'rect');
  write(ground, { width, height, fill: style.getPropertyValue('--bench-plate').trim() || '#ffffff' });
  svg.append(ground);
  pictures.forEach((one, k) => {
    const copy = standingAlone(one.part, `p${k}-`);
    const place = { x: scale * (one.left - left), y: scale * (one.top - top) };
    write(copy, { ...place, width: scale * one.width, height: scale * one.height });
    svg.append(copy);
  });
  for (const one of words)
    svg.append(wordsOf(one, scale * (one.left - left), scale * (one.top - top), scale));
  const ink = style.getPropertyValue('--bench-ink').trim() || '#000000';
  const look = { x: 0, fill: ink, 'font-family': FONT, 'font-size': CAPTION_SIZE };
  under.forEach((line, k) => svg.append(textOf(line, { ...look, y: bottom + (k + 1) * LINE_PX })));
  return svg;
}

/**
 * Pictures as the text of one SVG file, as they stand on the page, with their words, caption and date, every style written
 * out.
 *
 * @param parts At least one picture.
 */
export function svgText(parts: PictureParts, note: PictureNote): string {
  return new XMLSerializer().serializeToString(composed(parts, note));
}

/**
 * The same as a PNG.
 *
 * @param scale Pixels in the file for one unit of the drawing.
 */
export async function pngBlob(parts: PictureParts, note: PictureNote, scale = 2): Promise<Blob> {
  const svg = composed(parts, note);
  const { width, height } = svg.viewBox.baseVal;
  const text = new XMLSerializer().serializeToString(svg);
  const address = URL.createObjectURL(new Blob([text], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(width * scale);
    canvas.height = Math.round(height * scale);
    canvas.getContext('2d')!.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((resolve, reject) =>
      canvas.toBlob((blob) =>
        blob ? resolve(blob) : reject(new Error('The picture is too large to save.')),
      ),
    );
  } finally {
    URL.revokeObjectURL(address);
  }
}
