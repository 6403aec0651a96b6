import type { Blade } from '../../shared/blade.ts';
import type { PlacedZone } from '../blade/zones.ts';
import { clipToRectangle, polygonNodes, type AreaNode, type Point } from '../numerics/polygon.ts';
import type { Functional, PassGeometry, ReedModel } from '../surface/reed-model.ts';
import { sumOfPlaces } from './functional.ts';

/** Cells small enough that the five-point rule on each gives a zone mean to 1e-6 mm. */
const CELL_ALONG_MM = 1;
const CELL_ACROSS = 0.5;

/** Which part of the blade counts. */
export type Side = 'left' | 'right' | 'both';

const SIDES: Readonly<Record<Side, readonly [number, number]>> = {
  left: [-1, 0],
  right: [0, 1],
  both: [-1, 1],
};

/** Places and real areas (mm2) of a zone on a pass's blade. */
export interface ZoneArea {
  /** x is the distance from the tip, y the place across. */
  readonly nodes: readonly AreaNode[];
  readonly areaMm2: number;
}

/**
 * Quadrature of a zone by area in real millimetres: dA = halfWidth(y) du dy.
 *
 * @param side Only the left or right half of the blade, split at the centre line.
 */
export function zoneArea(zone: PlacedZone, geometry: PassGeometry, side: Side = 'both'): ZoneArea {
  const nodes = zone.outlines.flatMap((outline) => cells(outline, SIDES[side], geometry.bladeLengthMm));
  const weighted = nodes.map(({ x, y, area }) => ({ x, y, area: area * geometry.halfWidthMm(x) }));
  return { nodes: weighted, areaMm2: weighted.reduce((sum, { area }) => sum + area, 0) };
}

function cells(
  outline: readonly Point[],
  [left, right]: readonly [number, number],
  lengthMm: number,
): AreaNode[] {
  const along = outline.map(([y]) => y);
  const from = Math.max(0, Math.min(...along));
  const to = Math.min(lengthMm, Math.max(...along));
  const nodes: AreaNode[] = [];
  for (let y = from; y < to; y += CELL_ALONG_MM) {
    for (let u = left; u < right; u += CELL_ACROSS) {
      const cell = clipToRectangle(outline, [y, Math.min(to, y + CELL_ALONG_MM)], [u, u + CELL_ACROSS]);
      nodes.push(...polygonNodes(cell));
    }
  }
  return nodes;
}

/**
 * Area-weighted mean thickness of a zone as a functional, or undefined for a zone without area.
 *
 * @param pass Place of the pass in the model's list.
 */
export function meanOver(
  model: ReedModel,
  blade: Blade,
  pass: number,
  area: ZoneArea,
): Functional | undefined {
  if (!(area.areaMm2 > 0)) return undefined;
  return sumOfPlaces(
    model,
    area.nodes.map(({ x, y, area: share }) => ({
      blade,
      pass,
      fromTipMm: x,
      across: y,
      factor: share / area.areaMm2,
    })),
  );
}
