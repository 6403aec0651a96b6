import type { Lot, Piece } from '../../shared/cane.ts';
import type { Estimate } from '../../shared/estimate.ts';
import type { Reed } from '../../shared/reed.ts';
import { countWord, listed, sentence } from '../words/figure-words.ts';
import { differenceFigure, joined, UNIT_WORDS, withUnit, type NumberFormat } from '../words/format.ts';
import { byGouger, gougeDrift, hasMoved } from './gouge-drift.ts';
import { lotOf } from './lot-of.ts';
import type { PieceColumn } from './lot-pieces.ts';

interface Cane {
  readonly lots: readonly Lot[];
  readonly pieces: readonly Piece[];
  readonly reeds: readonly Reed[];
}

/**
 * What is to be said of the cane: the last piece whose sides are surely too different, or how much there is; and whether a
 * gouge has moved.
 *
 * @param columns Pieces of the lot that is shown.
 */
export function sayCane(
  { lots, pieces, reeds }: Cane,
  columns: readonly PieceColumn[],
  writing: NumberFormat,
): { readonly say: string; readonly mind?: string } {
  if (lots.length === 0) return { say: 'No lots. A reed needs none.' };
  const mind = sayMachines(pieces);
  const wrong = columns.findLast(({ judged }) => judged === 'too different');
  if (wrong?.sideDifference) {
    const { piece, reed, sideDifference } = wrong;
    const apart = apartText(sideDifference, writing);
    const whose = reed
      ? `${reed.label} came from piece ${piece.number}, whose sides`
      : `The sides of piece ${piece.number}`;
    return { say: `${whose} are ${apart} apart, over your limit.`, mind };
  }
  const ofLots = reeds.filter((reed) => lotOf(reed, lots)).length;
  const counted = (count: number, one: string) => `${countWord(count)} ${count === 1 ? one : `${one}s`}`;
  const words = `${counted(lots.length, 'lot')}, ${counted(pieces.length, 'piece')} gouged, ${counted(ofLots, 'reed')} made.`;
  return { say: sentence(words), mind };
}

/** How far two sides are apart, with its doubt and its unit. */
export function apartText(difference: Estimate, writing: NumberFormat): string {
  return withUnit(joined(differenceFigure(difference, writing)), UNIT_WORDS[writing.unit].spoken[1]);
}

function sayMachines(pieces: readonly Piece[]): string {
  const judged = byGouger(pieces).flatMap(({ gouger, pieces: own }) =>
    (['centre', 'sideDifference'] as const).map((figure) => ({
      gouger: gouger || 'the gouge',
      moved: hasMoved(gougeDrift(own, figure)),
    })),
  );
  const moved = [...new Set(judged.filter((one) => one.moved).map(({ gouger }) => gouger))];
  if (moved.length > 0)
    return `${sentence(listed(moved))} ${moved.length === 1 ? 'has' : 'have'} changed lately: look at the blade.`;
  return judged.some((one) => one.moved === false) ? 'The gouge is steady.' : '';
}
