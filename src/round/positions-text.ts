import { ascending } from 'd3-array';
import { InputError } from '../../shared/errors.ts';
import { plainText, type NumberFormat } from '../words/format.ts';
import { acrossFromMm } from './round-plans.ts';

/** How positions across are written: shares of the half-width, or millimetres off the middle. */
export type AcrossUnit = 'share' | 'mm';

const rounded = (value: number, places: number) => Number(value.toFixed(places)) + 0;

/**
 * Positions across typed as a list: `-0.8 0 0.8`, `-0,8; 0; 0,8`, `-2.5, 0, 2.5` in mm. Left of the middle is negative.
 *
 * @param halfWidthMm Of the blade at the row's distance; used for millimetres.
 * @returns Fractions of the half-width, rising, each once.
 * @throws InputError naming what cannot be read, or lies beyond the edge.
 */
export function typedPositions(
  text: string,
  unit: AcrossUnit,
  halfWidthMm: number,
  writing: Pick<NumberFormat, 'decimal'>,
): number[] {
  const words = text.split(/;|,\s+|\s+/).filter(Boolean);
  const values = words.map((word) => {
    const value = Number(word.replace(',', '.').replace('\u2212', '-'));
    if (!Number.isFinite(value))
      throw new InputError(
        `\u201c${word}\u201d is not a position. Type numbers, such as ${listText([-0.8, 0, 0.8], writing)}.`,
      );
    const share = unit === 'mm' ? acrossFromMm(value, halfWidthMm) : value;
    if (Math.abs(share) > 1)
      throw new InputError(
        `${word} lies beyond the edge: shares go from -1 at the left edge to 1 at the right.`,
      );
    return rounded(share, 3);
  });
  return [...new Set(values)].sort(ascending);
}

/** A list that `typedPositions` reads back. */
export function positionsText(
  across: readonly number[],
  unit: AcrossUnit,
  halfWidthMm: number,
  writing: Pick<NumberFormat, 'decimal'>,
): string {
  const written = (share: number) => (unit === 'mm' ? rounded(share * halfWidthMm, 2) : share);
  return listText(across.map(written), writing);
}

const listText = (values: readonly number[], writing: Pick<NumberFormat, 'decimal'>) =>
  values.map((value) => plainText(value, writing)).join(' ');
