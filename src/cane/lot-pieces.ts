import type { Piece } from '../../shared/cane.ts';
import type { Estimate } from '../../shared/estimate.ts';
import type { Reed } from '../../shared/reed.ts';
import type { WishedGouge } from '../../shared/settings.ts';
import { pieceEvenness } from './evenness.ts';
import type { GougeNoise } from './gouge-noise.ts';
import { compareGouge, type GougeComparison } from './wished-gouge.ts';

/** What became of a piece. */
export type PieceFate = 'not judged' | 'thrown' | 'in the drawer' | 'blank' | 'alive' | 'ended';

/** One gouged piece in its lot: how it is gouged, and what became of it. */
export interface PieceColumn {
  readonly piece: Piece;
  readonly centre?: Estimate;
  readonly sideDifference?: Estimate;
  /** Both sides at their usual distance from the middle, mm. */
  readonly sides?: { readonly side1Mm: number; readonly side2Mm: number };
  readonly judged?: GougeComparison['sides'];
  readonly fate: PieceFate;
  readonly reed?: Reed;
  /** The blade was sharpened, or the bed set, before this piece. */
  readonly isAnew: boolean;
}

function fateOf({ fate }: Piece, reed: Reed | undefined): PieceFate {
  if (reed) return reed.state === 'retired' ? 'ended' : reed.state === 'blank' ? 'blank' : 'alive';
  if (fate === undefined) return 'not judged';
  return fate === 'rejected' ? 'thrown' : 'in the drawer';
}

/** The pieces of a lot in the order in which they were numbered. */
export function pieceColumns(
  pieces: readonly Piece[],
  reeds: readonly Reed[],
  wished: WishedGouge,
  noise: GougeNoise,
): PieceColumn[] {
  const made = new Map(reeds.flatMap((reed) => (reed.pieceId ? [[reed.pieceId, reed] as const] : [])));
  const ordered = [...pieces].sort((a, b) => a.number - b.number);
  return ordered.map((piece, k): PieceColumn => {
    const { centre, sides, sideDifference } = pieceEvenness(piece.readings, noise);
    const { sides: judged } = compareGouge({ ...(sideDifference && { sideDifference }) }, undefined, wished);
    const reed = made.get(piece.id);
    const half = (sideDifference?.valueMm ?? 0) / 2;
    const before = ordered[k - 1]?.sinceSharpened;
    return {
      piece,
      ...(centre && { centre }),
      ...(sideDifference && { sideDifference }),
      ...(sides &&
        sideDifference && {
          sides: { side1Mm: sides.valueMm + half, side2Mm: sides.valueMm - half },
        }),
      ...(judged && { judged }),
      fate: fateOf(piece, reed),
      ...(reed && { reed }),
      isAnew: before !== undefined && piece.sinceSharpened !== undefined && piece.sinceSharpened <= before,
    };
  });
}
