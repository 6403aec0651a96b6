import { gaussLegendre } from './gauss-legendre.ts';

export type Point = readonly [number, number];

/** A place to evaluate an integrand, and the area it stands for. */
export interface AreaNode {
  readonly x: number;
  readonly y: number;
  readonly area: number;
}

/** A rectangle that a polygon is cut to, and the longest cell of the quadrature in it. */
export interface Cells {
  readonly x: readonly [from: number, to: number];
  readonly y: readonly [from: number, to: number];
  readonly longestX: number;
  readonly longestY: number;
}

const RULE = gaussLegendre(3);

/**
 * Nodes and areas with which a sum over nodes is the integral over the part of a polygon inside a rectangle. The
 * polygon is cut into strips in which its edges are straight and do not leave the rectangle; across a strip it is one
 * or more intervals (even-odd rule). Three Gauss points to a cell: exact for polynomials up to degree 5 in y, and in x
 * after the integral over y; else the error falls with the sixth power of the cells.
 *
 * @param corners In order, not closed, in either direction; fewer than three give no nodes.
 * @param density What area counts for at each x.
 * @returns Nodes of one x after the other.
 */
export function areaNodes(
  corners: readonly Point[],
  cells: Cells,
  density: (x: number) => number = () => 1,
): AreaNode[] {
  const nodes: AreaNode[] = [];
  if (corners.length < 3) return nodes;
  const cuts = strips(corners, cells);
  for (let i = 1; i < cuts.length; i++) addStrip(nodes, corners, cuts[i - 1]!, cuts[i]!, cells, density);
  return nodes;
}

/** Where strips begin and end: at corners and where edges enter or leave the rectangle. */
function strips(corners: readonly Point[], { x: [x0, x1], y: limits }: Cells): number[] {
  const cuts: number[] = [];
  const add = (x: number) => cuts.push(Math.min(Math.max(x, x0), x1));
  corners.forEach((from, i) => {
    const to = corners[(i + 1) % corners.length]!;
    add(from[0]);
    for (const y of limits) if ((from[1] - y) * (to[1] - y) < 0) add(crossingX(from, to, y));
  });
  cuts.sort((a, b) => a - b);
  return cuts.filter((x, i) => i === 0 || x > cuts[i - 1]!);
}

function crossingX(a: Point, b: Point, y: number): number {
  return a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0]);
}

function addStrip(
  nodes: AreaNode[],
  corners: readonly Point[],
  from: number,
  to: number,
  { y: limits, longestX, longestY }: Cells,
  density: (x: number) => number,
): void {
  const count = cellCount(from, to, longestX);
  const length = (to - from) / count;
  for (let i = 0; i < count; i++)
    for (let k = 0; k < RULE.nodes.length; k++) {
      const x = from + (i + RULE.nodes[k]!) * length;
      const width = RULE.weights[k]! * length * density(x);
      const ends = crossedAt(corners, x, limits);
      for (let e = 0; e + 1 < ends.length; e += 2)
        addInterval(nodes, x, width, ends[e]!, ends[e + 1]!, longestY);
    }
}

/** Where the line at x crosses the polygon, in rising order, cut to limits: it runs inside from each to the next. */
function crossedAt(corners: readonly Point[], x: number, [y0, y1]: readonly [number, number]): number[] {
  const ends: number[] = [];
  for (let i = 0; i < corners.length; i++) {
    const a = corners[i]!;
    const b = corners[i + 1 === corners.length ? 0 : i + 1]!;
    if (a[0] < x === b[0] < x) continue;
    const y = a[1] + ((x - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
    ends.push(Math.min(Math.max(y, y0), y1));
  }
  return ends.length > 2 ? ends.sort((a, b) => a - b) : inOrder(ends);
}

function inOrder(ends: number[]): number[] {
  return ends[0]! > ends[1]! ? [ends[1]!, ends[0]!] : ends;
}

function addInterval(
  nodes: AreaNode[],
  x: number,
  width: number,
  low: number,
  high: number,
  longest: number,
): void {
  if (!(high > low)) return;
  const count = cellCount(low, high, longest);
  const length = (high - low) / count;
  for (let j = 0; j < count; j++)
    for (let m = 0; m < RULE.nodes.length; m++)
      nodes.push({ x, y: low + (j + RULE.nodes[m]!) * length, area: width * RULE.weights[m]! * length });
}

function cellCount(from: number, to: number, longest: number): number {
  return Math.max(1, Math.ceil((to - from) / longest - 1e-9));
}

/** Whether a place lies inside a closed outline. Source: even-odd rule. */
export function isInPolygon(outline: readonly Point[], x: number, y: number): boolean {
  return outline.reduce((inside, [ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    const crosses = ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax);
    return crosses ? !inside : inside;
  }, false);
}
