import { interpolateGrid } from '../surface/interpolating-surface.ts';
import type { MapGrid, ValueMap } from './surface-map.ts';

/** One reading of a blade. */
interface Read {
  readonly fromTipMm: number;
  readonly across: number;
  readonly thicknessMm: number;
}

/** Places nearer than this are one row or one column, mm and shares of the half-width: as finely as places are written. */
const SAME = 1e-3;

/**
 * Thickness of a blade by the tensor cubic through every reading; NaN beyond the outermost of them, where it would only
 * swing. Undefined unless every row was read at the same two places across or more, so that no value is made up.
 *
 * @param readings One for each place, mm.
 */
export function throughReadings(readings: readonly Read[], grid: MapGrid): ValueMap | undefined {
  const ys = apart(readings.map(({ fromTipMm }) => fromTipMm));
  const us = apart(readings.map(({ across }) => across));
  if (ys.length < 2 || us.length < 2 || readings.length !== ys.length * us.length) return undefined;
  const rows = ys.map((y) => us.map((u) => readings.find((one) => isAt(one, y, u))?.thicknessMm));
  if (rows.some((row) => row.includes(undefined))) return undefined;
  const surface = interpolateGrid({ ys, us, values: rows as number[][] }, 'not-a-knot');
  const isWithin = (values: readonly number[], x: number) =>
    x >= values[0]! - SAME && x <= values.at(-1)! + SAME;
  return {
    ...grid,
    valuesMm: Float64Array.from(
      grid.ysMm.flatMap((y) =>
        grid.us.map((u) => (isWithin(ys, y) && isWithin(us, u) ? surface(y, u) : NaN)),
      ),
    ),
  };
}

const isAt = ({ fromTipMm, across }: Read, y: number, u: number) =>
  Math.abs(fromTipMm - y) < SAME && Math.abs(across - u) < SAME;

/** Values in rising order, those that are the same once. */
function apart(values: readonly number[]): number[] {
  const rising = [...values].sort((a, b) => a - b);
  return rising.filter((value, i) => i === 0 || value - rising[i - 1]! >= SAME);
}
