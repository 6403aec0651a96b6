import type { Piece } from '../../shared/cane.ts';
import { controlChart, type ControlChart } from '../learning/control-chart.ts';
import type { Estimate } from '../surface/reed-model.ts';
import { pieceEvenness } from './evenness.ts';
import { USUAL_GOUGE_NOISE, type GougeNoise } from './gouge-noise.ts';

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
export function gougeDrift(
  pieces: readonly Piece[],
  figure: DriftFigure,
  noise: GougeNoise = USUAL_GOUGE_NOISE,
): GougeDrift {
  const points = [...pieces].sort(inOrder).flatMap((piece): DriftPoint[] => {
    const estimate = pieceEvenness(piece.readings, noise)[figure];
    return estimate ? [{ piece, ...estimate }] : [];
  });
  if (points.length < FEWEST_PIECES) return { points };
  return { points, chart: controlChart(points.map(({ valueMm }) => valueMm)) };
}

/**
 * Mean of a figure over pieces. With several its doubt comes from how far they lie apart, and is never under that of
 * the readings.
 *
 * @returns undefined without a point.
 */
export function meanOfPieces(points: readonly DriftPoint[]): Estimate | undefined {
  if (points.length === 0) return undefined;
  const n = points.length;
  const valueMm = points.reduce((sum, point) => sum + point.valueMm, 0) / n;
  const fromReadings = Math.hypot(...points.map(({ uMm }) => uMm)) / n;
  if (n === 1) return { valueMm, uMm: fromReadings };
  const spread = points.reduce((sum, point) => sum + (point.valueMm - valueMm) ** 2, 0);
  return { valueMm, uMm: Math.max(fromReadings, Math.sqrt(spread / (n - 1) / n)) };
}

/** Pieces by the machine that gouged them; those without a name are taken to come from one. */
export function byGouger(
  pieces: readonly Piece[],
): readonly { readonly gouger: string; readonly pieces: readonly Piece[] }[] {
  const machines = new Map<string, Piece[]>();
  for (const piece of pieces) {
    const gouger = piece.gouger ?? '';
    machines.set(gouger, [...(machines.get(gouger) ?? []), piece]);
  }
  return [...machines].map(([gouger, own]) => ({ gouger, pieces: own }));
}

/** How many of the last pieces tell how the machine is now. Common practice, no source. */
const LATELY = 3;

/** Whether the gouge has changed lately; undefined while there are no limits. */
export function hasMoved({ chart }: GougeDrift): boolean | undefined {
  return chart?.signals.slice(-LATELY).some((signals) => signals.length > 0);
}
