import type { Piece } from '../../shared/cane.ts';
import { controlChart, type ControlChart } from '../learning/control-chart.ts';
import { pieceEvenness } from './evenness.ts';

/** What is followed from piece to piece. */
export type DriftFigure = 'centre' | 'sideDifference';

export interface DriftPoint {
  readonly piece: Piece;
  readonly valueMm: number;
  readonly uMm: number;
}

/** A figure of the gouge over the pieces, in the order in which they were gouged. */
export interface GougeDrift {
  readonly points: readonly DriftPoint[];
  /** Absent under eight pieces: their limits would mean nothing. */
  readonly chart?: ControlChart;
}

/** Fewest pieces whose moving ranges give limits worth drawing. */
export const FEWEST_PIECES = 8;

/** By the day, then by the count since the blade was sharpened, then by number. */
function inOrder(a: Piece, b: Piece): number {
  return (
    (a.gougedOn ?? '').localeCompare(b.gougedOn ?? '') ||
    (a.sinceSharpened ?? 0) - (b.sinceSharpened ?? 0) ||
    a.number - b.number
  );
}

/** Drift of the gouging machine: the figure by piece with the limits of a chart for single values (ISO 7870-2). */
export function gougeDrift(pieces: readonly Piece[], figure: DriftFigure): GougeDrift {
  const points = [...pieces].sort(inOrder).flatMap((piece): DriftPoint[] => {
    const estimate = pieceEvenness(piece.readings)[figure];
    return estimate ? [{ piece, ...estimate }] : [];
  });
  if (points.length < FEWEST_PIECES) return { points };
  return { points, chart: controlChart(points.map(({ valueMm }) => valueMm)) };
}
