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
 */
export function areaNodes(corners: readonly Point[], cells: Cells): AreaNode[] {
  if (corners.length < 3) return [];
  const edges = corners.map((from, i) => [from, corners[(i + 1) % corners.length]!] as const);
  const cuts = strips(edges, cells);
  return cuts.slice(1).flatMap((to, i) => nodesOfStrip(edges, cuts[i]!, to, cells));
}

type Edge = readonly [Point, Point];

/** Where strips begin and end: at corners and where edges enter or leave the rectangle. */
function strips(edges: readonly Edge[], { x: [x0, x1], y: limits }: Cells): number[] {
  const cuts = edges.flatMap(([a, b]) => [
    a[0],
    ...limits.flatMap((y) => ((a[1] - y) * (b[1] - y) < 0 ? [crossingX(a, b, y)] : [])),
  ]);
  const inside = cuts.map((x) => Math.min(Math.max(x, x0), x1)).sort((a, b) => a - b);
  return inside.filter((x, i) => i === 0 || x > inside[i - 1]!);
}

function crossingX(a: Point, b: Point, y: number): number {
  return a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0]);
}

function nodesOfStrip(edges: readonly Edge[], from: number, to: number, cells: Cells): AreaNode[] {
  const middle = (from + to) / 2;
  const crossed = edges.filter(([a, b]) => a[0] < middle !== b[0] < middle);
  return gaussNodes(from, to, cells.longestX).flatMap(({ at: x, weight }) =>
    intervals(crossed, x, cells.y).flatMap(([low, high]) =>
      gaussNodes(low, high, cells.longestY).map((node) => ({ x, y: node.at, area: weight * node.weight })),
    ),
  );
}

/** The intervals of y inside the polygon at x, cut to limits. */
function intervals(
  crossed: readonly Edge[],
  x: number,
  [y0, y1]: readonly [number, number],
): (readonly [number, number])[] {
  const ys = crossed
    .map(([a, b]) => a[1] + ((x - a[0]) / (b[0] - a[0])) * (b[1] - a[1]))
    .map((y) => Math.min(Math.max(y, y0), y1))
    .sort((a, b) => a - b);
  const found: [number, number][] = [];
  for (let i = 0; i + 1 < ys.length; i += 2) if (ys[i + 1]! > ys[i]!) found.push([ys[i]!, ys[i + 1]!]);
  return found;
}

function gaussNodes(from: number, to: number, longest: number): { at: number; weight: number }[] {
  const count = Math.max(1, Math.ceil((to - from) / longest - 1e-9));
  const length = (to - from) / count;
  const nodes: { at: number; weight: number }[] = [];
  for (let i = 0; i < count; i++) {
    for (let k = 0; k < RULE.nodes.length; k++) {
      nodes.push({ at: from + (i + RULE.nodes[k]!) * length, weight: RULE.weights[k]! * length });
    }
  }
  return nodes;
}
