/** What a picture's file says under it. */
export interface PictureNote {
  /** What is shown, with its unit. */
  readonly caption: string;
  /** The day, as it shall stand in the file. */
  readonly date: string;
}

type Picture = SVGSVGElement | HTMLCanvasElement;

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
const GAP_PX = 12;
const FONT = 'system-ui, sans-serif';

interface Box {
  readonly width: number;
  readonly height: number;
}

/** Size of a picture in the file: a drawing's own units, a canvas's CSS pixels. */
function sizeOf(picture: Picture): Box {
  if (picture instanceof SVGSVGElement) {
    const { width, height } = picture.viewBox.baseVal;
    return { width, height };
  }
  const width = picture.clientWidth || picture.width;
  return { width, height: (width * picture.height) / picture.width };
}

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

/** A copy that needs no style sheet and no document. */
function standingAlone(picture: Picture, prefix: string): SVGElement {
  const { width, height } = sizeOf(picture);
  if (picture instanceof HTMLCanvasElement) {
    const image = document.createElementNS(SVG, 'image');
    image.setAttribute('href', picture.toDataURL('image/png'));
    return sized(image, width, height);
  }
  const copy = picture.cloneNode(true) as SVGSVGElement;
  writeStyles(picture, copy, prefix);
  return sized(copy, width, height);
}

function sized<Part extends SVGElement>(part: Part, width: number, height: number): Part {
  part.setAttribute('width', String(width));
  part.setAttribute('height', String(height));
  return part;
}

function textLine(text: string, y: number, colour: string): SVGTextElement {
  const line = document.createElementNS(SVG, 'text');
  const attributes = { x: '0', y: String(y), fill: colour, 'font-family': FONT, 'font-size': '13' };
  for (const [name, value] of Object.entries(attributes)) line.setAttribute(name, value);
  line.textContent = text;
  return line;
}

/** Pictures side by side over their caption and date, as one drawing that needs nothing else. */
function composed(
  pictures: readonly Picture[],
  { caption, date }: PictureNote,
): { svg: SVGSVGElement } & Box {
  const sizes = pictures.map(sizeOf);
  const width = sizes.reduce((sum, size) => sum + size.width, 0) + GAP_PX * (pictures.length - 1);
  const tallest = Math.max(...sizes.map((size) => size.height));
  const height = tallest + 3 * LINE_PX;
  const svg = sized(document.createElementNS(SVG, 'svg'), width, height);
  svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
  const style = getComputedStyle(pictures[0]!);
  const ground = sized(document.createElementNS(SVG, 'rect'), width, height);
  ground.setAttribute('fill', style.getPropertyValue('--bench-plate').trim() || '#ffffff');
  svg.append(ground);
  let left = 0;
  pictures.forEach((picture, k) => {
    const copy = standingAlone(picture, `p${k}-`);
    copy.setAttribute('x', String(left));
    svg.append(copy);
    left += sizes[k]!.width + GAP_PX;
  });
  const ink = style.getPropertyValue('--bench-ink').trim() || '#000000';
  svg.append(textLine(caption, tallest + LINE_PX, ink), textLine(date, tallest + 2 * LINE_PX, ink));
  return { svg, width, height };
}

/**
 * Pictures as the text of one SVG file, side by side, with their caption and date under them and every style written out.
 *
 * @param pictures Drawings and canvases on the page, at least one.
 */
export function svgText(pictures: readonly Picture[], note: PictureNote): string {
  return new XMLSerializer().serializeToString(composed(pictures, note).svg);
}

/**
 * The same as a PNG.
 *
 * @param scale Pixels in the file for one unit of the drawing.
 */
export async function pngBlob(pictures: readonly Picture[], note: PictureNote, scale = 2): Promise<Blob> {
  const { svg, width, height } = composed(pictures, note);
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

/** Drawings and canvases that an element of the bench shows, in its shadow and in those of the elements inside it. */
export function picturesIn(root: Element | ShadowRoot): Picture[] {
  return Array.from(root.querySelectorAll('*')).flatMap((element) => {
    const isPicture = element instanceof SVGSVGElement || element instanceof HTMLCanvasElement;
    if (isPicture && /picture|canvas/.test(element.getAttribute('part') ?? '')) {
      return element.checkVisibility() ? [element] : [];
    }
    return element.shadowRoot ? picturesIn(element.shadowRoot) : [];
  });
}
