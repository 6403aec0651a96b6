import type { Blade } from '../../shared/blade.ts';
import { sparseBilinear, sparseDot, type SparseWeights } from '../numerics/sparse-row.ts';
import type { BaseSpace } from '../surface/base-surface.ts';
import { placeRow, type KnownBlade, type KnownCane } from './known-cane.ts';

/** Thickness down one line of a blade, tabulated from `fromMm` every `TABLE_STEP_MM`, mm from the cork end. */
export interface Column {
  readonly fromMm: number;
  readonly mm: Float64Array;
  /** Standard deviation of the true thickness there. */
  readonly uMm: Float64Array;
  /** The cane that was read. */
  readonly hull: readonly [from: number, to: number];
}

/** What is known of the cane down the line through a place; undefined where it was never read. */
export type CaneState = (blade: Blade, across: number, zMm: number) => Column | undefined;

export const TABLE_STEP_MM = 0.2;
const SPREAD_EVERY = 4;
const MARGIN_MM = 2.4;

/** The cane as earlier passes found it, before the next knife. */
export function caneState({ blades }: KnownCane): CaneState {
  const columns = new Map<string, Column>();
  return (blade, across) => {
    const from = blades[blade];
    if (!from) return undefined;
    const key = `${blade}${across}`;
    const column = columns.get(key) ?? tabulate(from, across);
    columns.set(key, column);
    return column;
  };
}

/** A line that is tabulated after each pass is weighed once. */
const lines = new WeakMap<BaseSpace, Map<string, readonly SparseWeights[]>>();

function rowsDown(
  sweeping: KnownBlade['sweeping'],
  { fromMm, places, across }: { readonly fromMm: number; readonly places: number; readonly across: number },
): readonly SparseWeights[] {
  const { base } = sweeping.toFit;
  const ofBase = lines.get(base) ?? new Map<string, readonly SparseWeights[]>();
  lines.set(base, ofBase);
  const key = `${fromMm} ${places} ${across}`;
  const rows =
    ofBase.get(key) ??
    Array.from({ length: places }, (_, i) => placeRow(sweeping, fromMm + i * TABLE_STEP_MM, across));
  ofBase.set(key, rows);
  return rows;
}

function tabulate({ sweeping, hull }: KnownBlade, across: number): Column {
  const { mean, joint } = sweeping.state;
  const fromMm = hull[0] - MARGIN_MM;
  const places = Math.ceil((hull[1] + MARGIN_MM - fromMm) / TABLE_STEP_MM / SPREAD_EVERY) * SPREAD_EVERY + 1;
  const mm = new Float64Array(places);
  const uMm = new Float64Array(places);
  const rows = rowsDown(sweeping, { fromMm, places, across });
  for (let i = 0; i < places; i++) {
    const row = rows[i]!;
    mm[i] = sparseDot(row, mean);
    if (i % SPREAD_EVERY > 0) continue;
    uMm[i] = Math.sqrt(Math.max(0, sparseBilinear(row, joint, mean.length, row)));
    // Standard deviations at every few places, straight lines between them.
    for (let j = 1; i > 0 && j < SPREAD_EVERY; j++)
      uMm[i - j] = uMm[i]! + ((uMm[i - SPREAD_EVERY]! - uMm[i]!) * j) / SPREAD_EVERY;
  }
  return { fromMm, mm, uMm, hull };
}
