import type { Blade } from '../../shared/blade.ts';
import type { PlacedZone } from '../blade/zones.ts';
import { areaNodes, type AreaNode } from '../numerics/polygon.ts';
import { addSparse, type SparseWeights } from '../numerics/sparse-row.ts';
import { basisAt } from '../numerics/uniform-b-spline.ts';
import type { Functional, PassGeometry, ReedModel } from '../surface/reed-model.ts';

/** Cells small enough that the quadrature gives a zone mean and its uncertainty to 3e-6 mm. */
const CELL_ALONG_MM = 0.5;
const CELL_ACROSS = 1 / 3;

/** Which part of the blade counts. */
export type Side = 'left' | 'right' | 'both';

/** Both is the two halves: a zone's mean is that of its halves to the last digit. */
const SIDES: Readonly<Record<Side, readonly (readonly [number, number])[]>> = {
  left: [[-1, 0]],
  right: [[0, 1]],
  both: [
    [-1, 0],
    [0, 1],
  ],
};

/** Places and real areas (mm2) of a zone on a pass's blade. */
export interface ZoneArea {
  /** x is the distance from the tip, y the place across. */
  readonly nodes: readonly AreaNode[];
  readonly areaMm2: number;
}

/** Many figures of a pass ask for the same areas. */
const areas = new WeakMap<PassGeometry, WeakMap<PlacedZone, Map<Side, ZoneArea>>>();

/**
 * Quadrature of a zone by area in real millimetres: dA = halfWidth(y) du dy.
 *
 * @param side Only the left or right half of the blade, split at the centre line.
 */
export function zoneArea(zone: PlacedZone, geometry: PassGeometry, side: Side = 'both'): ZoneArea {
  const ofPass = areas.get(geometry) ?? new WeakMap<PlacedZone, Map<Side, ZoneArea>>();
  areas.set(geometry, ofPass);
  const ofZone = ofPass.get(zone) ?? new Map<Side, ZoneArea>();
  ofPass.set(zone, ofZone);
  const area = ofZone.get(side) ?? quadrature(zone, geometry, side);
  ofZone.set(side, area);
  return area;
}

function quadrature(zone: PlacedZone, geometry: PassGeometry, side: Side): ZoneArea {
  const x = [0, geometry.bladeLengthMm] as const;
  const nodes = SIDES[side].flatMap((y) =>
    zone.outlines.flatMap((outline) =>
      areaNodes(outline, { x, y, longestX: CELL_ALONG_MM, longestY: CELL_ACROSS }, geometry.halfWidthMm),
    ),
  );
  let areaMm2 = 0;
  for (const { area } of nodes) areaMm2 += area;
  return { nodes, areaMm2 };
}

/** Both blades weigh an area alike, and so does each of its figures. The first line tells whether the blade is the same. */
const weighed = new WeakMap<
  ZoneArea,
  { readonly line: readonly SparseWeights[]; readonly weights: Float64Array }
>();

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
  const [first] = area.nodes;
  if (!(area.areaMm2 > 0) || !first) return undefined;
  const line = model.lineWeights({ blade, pass, fromTipMm: first.x });
  const known = weighed.get(area);
  const weights = known?.line === line ? known.weights : weigh(model, { blade, pass }, area);
  weighed.set(area, { line, weights });
  return { [blade]: [{ pass, weights }] };
}

function weigh(
  model: ReedModel,
  { blade, pass }: { readonly blade: Blade; readonly pass: number },
  area: ZoneArea,
): Float64Array {
  const target = new Float64Array(model.blades[blade]?.mean.length ?? 0);
  const line = new Float64Array(model.across.count);
  for (let i = 0; i < area.nodes.length; i++) {
    const { x, y, area: share } = area.nodes[i]!;
    const { first, weights } = basisAt(model.across, y);
    for (let k = 0; k < 4; k++) line[first + k]! += share * weights[k]!;
    if (area.nodes[i + 1]?.x === x) continue;
    const rows = model.lineWeights({ blade, pass, fromTipMm: x });
    line.forEach((share, column) => addSparse(target, rows[column]!, share / area.areaMm2));
    line.fill(0);
  }
  return target;
}
