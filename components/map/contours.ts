/** Values at the nodes of a grid, row by row; NaN where there is nothing. */
export interface Field {
  readonly nx: number;
  readonly ny: number;
  /** Length nx * ny. */
  readonly values: ArrayLike<number>;
}

/** Points in grid coordinates, column and row in turn: a node has whole numbers, a crossing lies on a grid line. */
export type GridLine = readonly number[];

/** What is at or above a level. */
export interface Contour {
  /** Outlines of the region, closed, holes turning the other way. */
  readonly rings: readonly GridLine[];
  /** The level itself: ends at the border of the field, or meets its own beginning. */
  readonly lines: readonly GridLine[];
}

/** From one vertex to the next ones; more than one only where two regions touch in a node. */
type Links = Map<number, number[]>;

const CORNERS = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
] as const;
/** The neighbour behind each side of a cell: side k runs from corner k to corner k + 1. */
const NEIGHBOURS = [
  [0, -1],
  [1, 0],
  [0, 1],
  [-1, 0],
] as const;

/**
 * Outlines and level lines by marching squares: linear along grid lines, so lines reach the border straight and are
 * never rounded or led along it. A cell with a NaN corner is left out. Where a cell's diagonal corners are above the level
 * and the other two below, the mean of the four decides whether the two are one region.
 *
 * @param level Values equal to it are inside; -Infinity gives the outline of the whole field.
 */
export function contour(field: Field, level: number): Contour {
  const { nx, ny } = field;
  const inner: Links = new Map();
  const border: Links = new Map();
  for (let j = 0; j + 1 < ny; j++)
    for (let i = 0; i + 1 < nx; i++)
      if (isCell(field, i, j)) {
        linkLevel(field, level, i, j, inner);
        linkBorder(field, level, i, j, border);
      }
  const point = (vertex: number) => positionOf(field, level, vertex);
  return {
    lines: chains(copy(inner)).map((chain) => chain.flatMap(point)),
    rings: chains(merged(inner, border)).map((chain) => chain.flatMap(point)),
  };
}

function isCell({ nx, ny, values }: Field, i: number, j: number): boolean {
  if (i < 0 || j < 0 || i + 1 >= nx || j + 1 >= ny) return false;
  const at = j * nx + i;
  return !Number.isNaN(values[at]! + values[at + 1]! + values[at + nx]! + values[at + nx + 1]!);
}

function link(links: Links, from: number, to: number): void {
  const known = links.get(from);
  if (known) known.push(to);
  else links.set(from, [to]);
}

/** Vertices: node n is n; the crossing right of it is N + n, the one below it 2N + n, with N nodes in all. */
function node({ nx }: Field, i: number, j: number, corner: number): number {
  const [di, dj] = CORNERS[corner % 4]!;
  return (j + dj) * nx + i + di;
}

function crossing(field: Field, i: number, j: number, side: number): number {
  const count = field.nx * field.ny;
  const start = Math.min(node(field, i, j, side), node(field, i, j, side + 1));
  return side % 2 === 0 ? count + start : 2 * count + start;
}

/** Level lines of one cell, the region on their right as a blade is drawn, rows downwards. */
function linkLevel(field: Field, level: number, i: number, j: number, links: Links): void {
  const value = (corner: number) => field.values[node(field, i, j, corner)]!;
  const exits: number[] = [];
  for (let side = 0; side < 4; side++) if (value(side) >= level && value(side + 1) < level) exits.push(side);
  const mean = exits.length === 2 ? (value(0) + value(1) + value(2) + value(3)) / 4 : NaN;
  for (const exit of exits) {
    // The line comes back in around the corner outside, or, two regions being apart, around the corner inside.
    const step = mean < level ? 3 : 1;
    let entry = (exit + step) % 4;
    while (!(value(entry) < level && value(entry + 1) >= level)) entry = (entry + step) % 4;
    link(links, crossing(field, i, j, exit), crossing(field, i, j, entry));
  }
}

/** The parts of a cell's outer sides that lie in the region. */
function linkBorder(field: Field, level: number, i: number, j: number, links: Links): void {
  for (let side = 0; side < 4; side++) {
    const [di, dj] = NEIGHBOURS[side]!;
    if (isCell(field, i + di, j + dj)) continue;
    const [from, to] = [node(field, i, j, side), node(field, i, j, side + 1)];
    const inFrom = field.values[from]! >= level;
    const inTo = field.values[to]! >= level;
    if (!inFrom && !inTo) continue;
    const between = crossing(field, i, j, side);
    link(links, inFrom ? from : between, inTo ? to : between);
  }
}

function copy(links: Links): Links {
  return new Map(Array.from(links, ([from, to]) => [from, [...to]]));
}

function merged(one: Links, other: Links): Links {
  const all = copy(one);
  for (const [from, targets] of other) for (const to of targets) link(all, from, to);
  return all;
}

/** Strings links together; uses them up. Open chains first, each from its very beginning. */
function chains(links: Links): number[][] {
  const reached = new Set(Array.from(links.values()).flat());
  const starts = [...links.keys()].filter((from) => !reached.has(from));
  const found = starts.map((start) => follow(links, start));
  for (const start of links.keys()) while (links.get(start)!.length > 0) found.push(follow(links, start));
  return found;
}

function follow(links: Links, start: number): number[] {
  const chain = [start];
  let next = links.get(start)?.pop();
  while (next !== undefined) {
    chain.push(next);
    if (next === start) break;
    next = links.get(next)?.pop();
  }
  return chain;
}

function positionOf({ nx, ny, values }: Field, level: number, vertex: number): [number, number] {
  const count = nx * ny;
  const from = vertex % count;
  const [i, j] = [from % nx, Math.floor(from / nx)];
  if (vertex < count) return [i, j];
  const along = vertex < 2 * count;
  const a = values[from]!;
  const b = values[along ? from + 1 : from + nx]!;
  const share = (level - a) / (b - a);
  return along ? [i + share, j] : [i, j + share];
}
