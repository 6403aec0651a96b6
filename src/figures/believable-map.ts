import type { Blade } from '../../shared/blade.ts';
import { believableChangeMm, scatterAtMm } from '../gauge/believable-change.ts';
import type { ReedPosterior } from '../surface/reed-posterior.ts';
import type { SurfacePlace } from '../surface/reed-model.ts';
import { estimate } from './functional.ts';
import { slopeAt, type Direction } from './slopes.ts';
import { between, shareBetween, slopeMap, type MapGrid, type ValueMap } from './surface-map.ts';
import type { ZoneArea } from './zone-mean.ts';

/**
 * The smallest change between two single readings of a place that is more than their scatter, over a blade, mm at 95 %:
 * 1.96 sqrt(2) u, with u the scatter of one reading there, from its seating and from how far it is misplaced times the
 * slope of the surface. The slope's own doubt adds to it, so that few readings promise no fine change; across by a share. It is a limit, and
 * has no uncertainty of its own.
 */
export function believableMap(model: ReedPosterior, blade: Blade, pass: number, grid: MapGrid): ValueMap {
  const along = slopeSizes(model, blade, pass, grid, 'along');
  const across = slopeSizes(model, blade, pass, grid, 'across');
  const perScatter = believableChangeMm(1);
  const valuesMm = along.map(
    (size, k) => perScatter * scatterAtMm(model.noise, { along: size, across: across[k]! }),
  );
  return { ...grid, valuesMm };
}

/**
 * What of a slope's doubt adds to its size. What hides between the columns is free to wave from one to the next, so that a
 * thickness is as unsure as it should be there; cane is smoother than that, and its slopes stray by this share of what is
 * allowed. Tuned on blades with a known truth.
 */
const DOUBT_SHARES: Readonly<Record<Direction, number>> = { along: 1, across: 0.6 };
/** A doubt that only adds to a slope is found at so many distances, straight between them. */
const DOUBT_ROWS = 16;

/** Slopes and what counts of their doubts together, as root sums of squares. */
function slopeSizes(
  model: ReedPosterior,
  blade: Blade,
  pass: number,
  grid: MapGrid,
  direction: Direction,
): Float64Array {
  const { valuesMm } = slopeMap(model, blade, pass, grid, direction);
  const last = grid.ysMm.length - 1;
  const rows = Math.min(DOUBT_ROWS, grid.ysMm.length);
  const ysMm = Array.from(
    { length: rows },
    (_, i) => grid.ysMm[0]! + ((grid.ysMm[last]! - grid.ysMm[0]!) * i) / (rows - 1),
  );
  const { uMm } = slopeMap(model, blade, pass, { ysMm, us: grid.us }, direction);
  const share = DOUBT_SHARES[direction];
  const columns = grid.us.length;
  const sizes = new Float64Array(valuesMm.length);
  grid.ysMm.forEach((fromTipMm, row) => {
    const [above, down] = shareBetween(ysMm, fromTipMm);
    for (let j = 0; j < columns; j++) {
      const at = above * columns + j;
      const doubt = share * ((1 - down) * uMm[at]! + down * uMm[at + columns]!);
      const value = valuesMm[row * columns + j]!;
      sizes[row * columns + j] = Math.sqrt(value * value + doubt * doubt);
    }
  });
  return sizes;
}

/** The same at one place. */
export function believableAtMm(model: ReedPosterior, place: Omit<SurfacePlace, 'derivative'>): number {
  const size = (direction: Direction) => {
    const { valueMm, uMm } = estimate(model, slopeAt(model, place, direction));
    return Math.hypot(valueMm, DOUBT_SHARES[direction] * uMm);
  };
  return believableChangeMm(scatterAtMm(model.noise, { along: size('along'), across: size('across') }));
}

/** The root mean square of such a map over an area: what is believable at a usual place there. Undefined without area. */
export function believableOverMm(map: ValueMap, { nodes, areaMm2 }: ZoneArea): number | undefined {
  if (!(areaMm2 > 0)) return undefined;
  const squares = nodes.reduce(
    (sum, { x, y, area }) => sum + area * between(map, map.valuesMm, x, y) ** 2,
    0,
  );
  return Math.sqrt(squares / areaMm2);
}
