import type { FloorTable, Zone } from '../../shared/style.ts';
import { isInPolygon, type Point } from '../numerics/polygon.ts';
import { floorAt } from './floors.ts';

/** A floor that holds to a zone's end is another so far beyond it, mm. */
const BEYOND_MM = 0.1;
const MOST_ROWS = 60;
const INSIDE = 1e-3;

const rising = (values: readonly number[]) =>
  [...new Set(values.map((value) => Number(value.toFixed(3))))].sort((a, b) => a - b);

function isIn(outlines: readonly (readonly Point[])[], fromTipMm: number, across: number): boolean {
  // On the line itself a place counts as inside: a little towards the zone's middle is looked at too.
  return outlines.some((outline) => {
    const middle = [0, 1].map((k) => outline.reduce((sum, one) => sum + one[k]!, 0) / outline.length);
    const inwards = (value: number, k: 0 | 1) => value + INSIDE * (middle[k]! - value);
    return isInPolygon(outline, inwards(fromTipMm, 0), inwards(across, 1));
  });
}

/** Extents of a zone: distances from the tip, and how far out on either side. */
function extents(outlines: readonly (readonly Point[])[]) {
  const along = outlines.flat().map(([y]) => y);
  const out = outlines.flat().map(([, u]) => Math.abs(u));
  const isOverMiddle = outlines.some(
    (outline) => outline.some(([, u]) => u < 0) && outline.some(([, u]) => u > 0),
  );
  return {
    fromMm: Math.min(...along),
    toMm: Math.max(...along),
    inner: isOverMiddle ? 0 : Math.min(...out),
    outer: Math.max(...out),
  };
}

/** The floor of a place of the table as it stands there, between places as it is worked out. */
export function floorThere(table: FloorTable, y: number, u: number): number | null {
  const kept = table.floorMm[table.fromTipMm.indexOf(y)]?.[table.across.indexOf(u)];
  return kept === undefined ? (floorAt(table, y, u) ?? null) : kept;
}

/**
 * A table of floors with one floor all over a zone, for a blade with the style's own lengths: rows are put in at its ends and
 * just beyond, a column where none goes through it, all with the floors that were there; then its places are set.
 *
 * @param floorMm undefined for no floor there.
 */
export function withZoneFloor(
  table: FloorTable,
  { outlines: corners }: Pick<Zone, 'outlines'>,
  floorMm: number | undefined,
): FloorTable {
  const outlines = corners.map((outline) =>
    outline.map(({ fromTipMm, across }): Point => [fromTipMm, across]),
  );
  const { fromMm, toMm, inner, outer } = extents(outlines);
  const rows = rising([
    ...table.fromTipMm,
    ...[fromMm - BEYOND_MM, fromMm, toMm, toMm + BEYOND_MM].filter((y) => y >= 0),
  ]);
  const hasColumn = table.across.some((u) => u >= inner && u <= outer);
  const columns = hasColumn ? table.across : rising([...table.across, (inner + outer) / 2]);
  if (rows.length > MOST_ROWS) return table;
  return {
    fromTipMm: rows,
    across: columns,
    floorMm: rows.map((y) =>
      columns.map((u) => {
        const isInside = isIn(outlines, y, u) || isIn(outlines, y, -u);
        return isInside ? (floorMm ?? null) : floorThere(table, y, u);
      }),
    ),
  };
}
