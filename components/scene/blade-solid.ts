import type { BladeGrid, OutlinePoint } from '../map/map-data.ts';
import { gridValue, locate } from '../map/blade-drawing.ts';
import type { Lay } from '../relief/relief-data.ts';

/** Triangles, three numbers a vertex, three vertices a face, outer side counter-clockwise. Lengths in mm. */
export interface Faces {
  readonly positions: Float32Array;
  readonly indices: Uint32Array;
}

/** Faces that carry the thickness at each vertex, mm. */
export interface ThickFaces extends Faces {
  readonly thicknessMm: Float32Array;
}

/** A blade as a closed body in two parts. x across, y from the tip downwards (negative), z thickness, drawn larger. */
export interface BladeSolid {
  /** What the knife touches. */
  readonly bark: ThickFaces;
  /** Underside and walls, with the thickness of the cane at each vertex. */
  readonly body: ThickFaces;
}

/** How a blade is laid out. */
export interface Laying {
  readonly lay: Lay;
  readonly exaggeration: number;
}

/** Rise of a bent blade's middle over its edges at the tip and at the thread, mm. Common practice, no source. */
const RISE_MM = { tip: 0.5, thread: 2.1 };

/** Height of the underside at a place. */
function underside({ ysMm }: BladeGrid, { lay }: Laying, fromTipMm: number, across: number): number {
  if (lay === 'flat') return 0;
  const share = fromTipMm / ysMm[ysMm.length - 1]!;
  return (RISE_MM.tip + share * (RISE_MM.thread - RISE_MM.tip)) * (1 - across * across);
}

function halfWidthAt({ ysMm, halfWidthMm }: BladeGrid, fromTipMm: number): number {
  const [j, share] = locate(ysMm, fromTipMm);
  const next = halfWidthMm[Math.min(j + 1, halfWidthMm.length - 1)]!;
  return halfWidthMm[j]! + share * (next - halfWidthMm[j]!);
}

/** A point over a place of the blade: on the underside for a height of 0, on the bark for the thickness there. */
export function pointOver(
  grid: BladeGrid,
  laying: Laying,
  { fromTipMm, across }: OutlinePoint,
  heightMm: number,
): [x: number, y: number, z: number] {
  return [
    across * halfWidthAt(grid, fromTipMm),
    -fromTipMm,
    underside(grid, laying, fromTipMm, across) + laying.exaggeration * heightMm,
  ];
}

/** The point of the bark at a place; undefined where nothing was read. */
export function pointOnBark(grid: BladeGrid, laying: Laying, place: OutlinePoint) {
  const thicknessMm = gridValue(grid, grid.valuesMm, place);
  return Number.isNaN(thicknessMm) ? undefined : pointOver(grid, laying, place, thicknessMm);
}

interface Nodes {
  readonly positions: number[];
  /** Vertex of each node of the grid, -1 for none yet. */
  readonly vertexOf: Int32Array;
}

/** Cells whose four corners were all read, as their corners' nodes: left and right near the tip, right and left behind. */
function liveCells(grid: BladeGrid, values: ArrayLike<number>): number[][] {
  const nu = grid.us.length;
  const cells: number[][] = [];
  for (let j = 0; j + 1 < grid.ysMm.length; j++)
    for (let i = 0; i + 1 < nu; i++) {
      const at = j * nu + i;
      const corners = [at, at + 1, at + nu + 1, at + nu];
      if (corners.every((node) => !Number.isNaN(values[node]!))) cells.push(corners);
    }
  return cells;
}

function newNodes(grid: BladeGrid): Nodes {
  return { positions: [], vertexOf: new Int32Array(grid.ysMm.length * grid.us.length).fill(-1) };
}

/** The vertex of a node, made when it is first asked for. */
function vertex(nodes: Nodes, grid: BladeGrid, laying: Laying, node: number, heightMm: number): number {
  const known = nodes.vertexOf[node]!;
  if (known >= 0) return known;
  const nu = grid.us.length;
  const place = { fromTipMm: grid.ysMm[Math.floor(node / nu)]!, across: grid.us[node % nu]! };
  const made = nodes.positions.length / 3;
  nodes.positions.push(...pointOver(grid, laying, place, heightMm));
  nodes.vertexOf[node] = made;
  return made;
}

function faces(positions: readonly number[], indices: readonly number[]): Faces {
  return { positions: Float32Array.from(positions), indices: Uint32Array.from(indices) };
}

/** Thickness at each vertex of some nodes. */
function thicknesses({ positions, vertexOf }: Nodes, values: ArrayLike<number>): number[] {
  const found = new Array<number>(positions.length / 3);
  vertexOf.forEach((made, node) => {
    if (made >= 0) found[made] = values[node]!;
  });
  return found;
}

/** A sheet at the given heights over the underside: a ghost, a floor, or the bark itself. */
export function sheet(grid: BladeGrid, laying: Laying, heightMm: ArrayLike<number>): ThickFaces {
  const nodes = newNodes(grid);
  const indices = liveCells(grid, heightMm).flatMap((corners) => {
    const [a, b, c, d] = corners.map((node) => vertex(nodes, grid, laying, node, heightMm[node]!));
    return [a!, d!, c!, a!, c!, b!];
  });
  return { ...faces(nodes.positions, indices), thicknessMm: Float32Array.from(thicknesses(nodes, heightMm)) };
}

/** Sides of cells that no other live cell shares, as node pairs, clockwise seen from the bark. */
function borders(cells: readonly number[][]): [number, number][] {
  const sides = cells.flatMap((corners) =>
    corners.map((from, k): [number, number] => [from, corners[(k + 1) % 4]!]),
  );
  // One number for a pair of nodes: there are far fewer nodes than this.
  const pair = (from: number, to: number) => from * 1e7 + to;
  const known = new Set(sides.map(([from, to]) => pair(from, to)));
  return sides.filter(([from, to]) => !known.has(pair(to, from)));
}

function body(grid: BladeGrid, laying: Laying): ThickFaces {
  const values = grid.valuesMm;
  const [under, upper] = [newNodes(grid), newNodes(grid)];
  const cells = liveCells(grid, values);
  const low = (node: number) => vertex(under, grid, laying, node, 0);
  const bottom = cells.flatMap(([a, b, c, d]) => [low(a!), low(b!), low(c!), low(a!), low(c!), low(d!)]);
  const walls = borders(cells).map(([from, to]) => ({
    low: [low(from), low(to)] as const,
    high: [from, to].map((node) => vertex(upper, grid, laying, node, values[node]!)) as [number, number],
  }));
  const first = under.positions.length / 3;
  const sides = walls.flatMap(({ low: [a, b], high: [c, d] }) => [c + first, d + first, b, c + first, b, a]);
  return {
    ...faces([...under.positions, ...upper.positions], [...bottom, ...sides]),
    thicknessMm: Float32Array.from([...thicknesses(under, values), ...thicknesses(upper, values)]),
  };
}

/** The body of a blade, open where nothing was read, never bridged. */
export function bladeSolid(grid: BladeGrid, laying: Laying): BladeSolid {
  return { bark: sheet(grid, laying, grid.valuesMm), body: body(grid, laying) };
}

/** The rim of the bark: pairs of points, a pair for each side of a cell that nothing lies beyond. */
export function rim(grid: BladeGrid, laying: Laying, heightMm: ArrayLike<number>): number[] {
  const nu = grid.us.length;
  const point = (node: number) =>
    pointOver(
      grid,
      laying,
      { fromTipMm: grid.ysMm[Math.floor(node / nu)]!, across: grid.us[node % nu]! },
      heightMm[node]!,
    );
  return borders(liveCells(grid, heightMm)).flatMap(([from, to]) => [...point(from), ...point(to)]);
}

/** The face of a cut across the blade, from the underside to the bark, seen from the tip. */
export function cutFace(grid: BladeGrid, laying: Laying, fromTipMm: number): Faces {
  const places = Array.from(grid.us, (across) => ({ fromTipMm, across })).filter(
    (place) => !Number.isNaN(gridValue(grid, grid.valuesMm, place)),
  );
  const positions = places.flatMap((place) => [
    ...pointOver(grid, laying, place, 0),
    ...pointOver(grid, laying, place, gridValue(grid, grid.valuesMm, place)),
  ]);
  const indices = places.slice(1).flatMap((_, k) => {
    const [low, high, nextLow, nextHigh] = [0, 1, 2, 3].map((step) => 2 * k + step);
    return [low!, high!, nextHigh!, low!, nextHigh!, nextLow!];
  });
  return faces(positions, indices);
}
