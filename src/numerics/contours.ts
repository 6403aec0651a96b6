/** Values at the nodes of a grid, row by row; NaN where there is nothing. */
export interface Field {
  readonly nx: number;
  readonly ny: number;
  /** Length nx * ny. */
  readonly values: ArrayLike<number>;
}

/** Points in grid coordinates, column and row in turn: a node has whole numbers, a crossing lies on a grid line. */
export type GridLine = readonly number[];

/** A field with what every level asks of it: cells whose four corners have values, and the sides nothing lies behind. */
export interface Cells extends Field {
  /** Each cell's corner with the least column and row, as the number of its node. */
  readonly cells: readonly number[];
  /** Least and largest value of each cell. */
  readonly lows: readonly number[];
  readonly highs: readonly number[];
  /** Cell and side, in turn; side k runs from corner k to corner k + 1. */
  readonly borders: readonly number[];
}

/** From one vertex to the next ones; more than one only where two regions touch in a node. */
type Links = Map<number, number | number[]>;

/** A field made ready for its levels. A cell with a NaN corner is left out. */
export function cellsOf(field: Field): Cells {
  const { nx, ny, values } = field;
  const isCell = (i: number, j: number) => {
    if (i < 0 || j < 0 || i + 1 >= nx || j + 1 >= ny) return false;
    const at = j * nx + i;
    return !Number.isNaN(values[at]! + values[at + 1]! + values[at + nx]! + values[at + nx + 1]!);
  };
  const [cells, lows, highs, borders]: number[][] = [[], [], [], []];
  for (let j = 0; j + 1 < ny; j++)
    for (let i = 0; i + 1 < nx; i++) {
      if (!isCell(i, j)) continue;
      const at = j * nx + i;
      const [a, b, c, d] = [values[at]!, values[at + 1]!, values[at + nx + 1]!, values[at + nx]!];
      cells!.push(at);
      lows!.push(Math.min(a, b, c, d));
      highs!.push(Math.max(a, b, c, d));
      if (!isCell(i, j - 1)) borders!.push(at, 0);
      if (!isCell(i + 1, j)) borders!.push(at, 1);
      if (!isCell(i, j + 1)) borders!.push(at, 2);
      if (!isCell(i - 1, j)) borders!.push(at, 3);
    }
  return { nx, ny, values, cells: cells!, lows: lows!, highs: highs!, borders: borders! };
}

/**
 * Level lines by marching squares: linear along grid lines, so that lines reach the border straight and are never rounded
 * or led along it. Where a cell's diagonal corners are above the level and the other two below, the mean of the four
 * decides whether the two are one region. A line ends at the border of the field or meets its own beginning.
 */
export function contourLines(field: Cells, level: number): GridLine[] {
  return strung(field, level, levelLinks(field, level));
}

/**
 * Outlines of the region at or above a level, closed, holes turning the other way.
 *
 * @param level -Infinity gives the outline of the whole field.
 */
export function contourRings(field: Cells, level: number): GridLine[] {
  const links = levelLinks(field, level);
  for (let k = 0; k < field.borders.length; k += 2) {
    linkBorder(field, level, field.borders[k]!, field.borders[k + 1]!, links);
  }
  return strung(field, level, links);
}

function link(links: Links, from: number, to: number): void {
  const known = links.get(from);
  if (known === undefined) links.set(from, to);
  else links.set(from, typeof known === 'number' ? [known, to] : [...known, to]);
}

/** Takes one link away from a vertex, or undefined where none is left. */
function take(links: Links, from: number): number | undefined {
  const known = links.get(from);
  if (typeof known === 'object') {
    const last = known.pop();
    if (known.length === 0) links.delete(from);
    return last;
  }
  links.delete(from);
  return known;
}

/** Node at a corner of a cell: clockwise as a blade is drawn, rows downwards. */
function node(nx: number, at: number, corner: number): number {
  const k = corner % 4;
  return at + (k === 1 || k === 2 ? 1 : 0) + (k >= 2 ? nx : 0);
}

/** Vertices: node n is n; the crossing right of it is N + n, the one below it 2N + n, with N nodes in all. */
function crossing({ nx, ny }: Field, at: number, side: number): number {
  const start = Math.min(node(nx, at, side), node(nx, at, side + 1));
  return (side % 2 === 0 ? 1 : 2) * nx * ny + start;
}

function levelLinks(field: Cells, level: number): Links {
  const links: Links = new Map();
  field.cells.forEach((at, k) => {
    if (field.lows[k]! < level && field.highs[k]! >= level) linkLevel(field, level, at, links);
  });
  return links;
}

/**
 * Sides where a cell's level lines leave the region and where they come back in, by the corners inside (bit k is corner k)
 * and by the way round: along the corner outside, or, two regions being apart, along the corner inside.
 */
const CROSSED = Array.from({ length: 16 }, (_, corners) => {
  const isIn = (corner: number) => (corners >> (corner % 4)) % 2 === 1;
  return [1, 3].map((step) =>
    [0, 1, 2, 3]
      .filter((side) => isIn(side) && !isIn(side + 1))
      .map((exit) => {
        let entry = (exit + step) % 4;
        while (isIn(entry) || !isIn(entry + 1)) entry = (entry + step) % 4;
        return [exit, entry] as const;
      }),
  );
});

/** Level lines of one cell, the region on their right as a blade is drawn. */
function linkLevel(field: Field, level: number, at: number, links: Links): void {
  const { nx, values } = field;
  const [a, b, c, d] = [values[at]!, values[at + 1]!, values[at + nx + 1]!, values[at + nx]!];
  const corners = (a >= level ? 1 : 0) + (b >= level ? 2 : 0) + (c >= level ? 4 : 0) + (d >= level ? 8 : 0);
  const [around, apart] = CROSSED[corners]!;
  const crossed = around!.length === 2 && (a + b + c + d) / 4 < level ? apart! : around!;
  for (const [exit, entry] of crossed) {
    link(links, crossing(field, at, exit), crossing(field, at, entry));
  }
}

/** The part of a cell's outer side that lies in the region. */
function linkBorder(field: Field, level: number, at: number, side: number, links: Links): void {
  const [from, to] = [node(field.nx, at, side), node(field.nx, at, side + 1)];
  const inFrom = field.values[from]! >= level;
  const inTo = field.values[to]! >= level;
  if (!inFrom && !inTo) return;
  const between = crossing(field, at, side);
  link(links, inFrom ? from : between, inTo ? to : between);
}

/** Strings links together and uses them up: open chains first, each from its very beginning. */
function strung(field: Field, level: number, links: Links): GridLine[] {
  const reached = new Set<number>();
  for (const next of links.values()) {
    if (typeof next === 'number') reached.add(next);
    else next.forEach((one) => reached.add(one));
  }
  const starts = [...links.keys()].filter((from) => !reached.has(from));
  const found = starts.map((start) => follow(field, level, links, start));
  for (const start of links.keys()) while (links.has(start)) found.push(follow(field, level, links, start));
  return found;
}

function follow(field: Field, level: number, links: Links, start: number): number[] {
  const line: number[] = [];
  place(field, level, start, line);
  let next = take(links, start);
  while (next !== undefined) {
    place(field, level, next, line);
    if (next === start) break;
    next = take(links, next);
  }
  return line;
}

/** Adds where a vertex lies to a line. */
function place({ nx, ny, values }: Field, level: number, vertex: number, line: number[]): void {
  const count = nx * ny;
  const from = vertex % count;
  const [i, j] = [from % nx, Math.floor(from / nx)];
  if (vertex < count) {
    line.push(i, j);
    return;
  }
  const along = vertex < 2 * count;
  const a = values[from]!;
  const b = values[along ? from + 1 : from + nx]!;
  const share = (level - a) / (b - a);
  line.push(along ? i + share : i, along ? j : j + share);
}
