/** A box that something stands in: its middle, and half its sides, drawing units. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly halfWidth: number;
  readonly halfHeight: number;
}

/** Width of a digit and, on the average, of a letter, in sizes of type. */
const GLYPH = 0.56;

/** The box around a text that is turned, degrees. */
export function textBox(text: string, [x, y]: readonly [number, number], fontSize: number, turn = 0): Box {
  const [width, height] = [(text.length * GLYPH * fontSize) / 2, fontSize / 2];
  const angle = (turn * Math.PI) / 180;
  const [cos, sin] = [Math.abs(Math.cos(angle)), Math.abs(Math.sin(angle))];
  return { x, y, halfWidth: width * cos + height * sin, halfHeight: width * sin + height * cos };
}

/** Distance between two boxes; negative where they overlap. */
function gap(one: Box, other: Box): number {
  return Math.max(
    Math.abs(one.x - other.x) - one.halfWidth - other.halfWidth,
    Math.abs(one.y - other.y) - one.halfHeight - other.halfHeight,
  );
}

/** Room around a box among others. */
export function roomFor(box: Box, others: readonly Box[]): number {
  let least = Infinity;
  for (const other of others) least = Math.min(least, gap(box, other));
  return least;
}

/** The corners of a box, a margin further out. */
export function cornersOf({ x, y, halfWidth, halfHeight }: Box, margin: number): [number, number][] {
  return [-1, 1].flatMap((right) =>
    [-1, 1].map((down): [number, number] => [
      x + right * (halfWidth + margin),
      y + down * (halfHeight + margin),
    ]),
  );
}
