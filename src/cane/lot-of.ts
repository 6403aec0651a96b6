import type { Lot } from '../../shared/cane.ts';
import type { Reed } from '../../shared/reed.ts';

/** Letters and signs before the number of a label: `M` of `M-142`. */
const LETTERS = /^(?<code>.*?)[\s\-_.]*\d+$/;

/**
 * The lot that a reed's cane is of: as it is written, else the one whose letters its label begins with. A reed whose tying
 * is written down without a lot has none.
 */
export function lotOf<One extends Pick<Lot, 'id' | 'code'>>(
  { lotId, label, tie }: Pick<Reed, 'lotId' | 'label' | 'tie'>,
  lots: readonly One[],
): One | undefined {
  if (lotId !== undefined) return lots.find(({ id }) => id === lotId);
  const code = LETTERS.exec(label)?.groups?.['code']?.toLowerCase();
  const named = tie || !code ? [] : lots.filter((lot) => lot.code.toLowerCase() === code);
  return named.length === 1 ? named[0] : undefined;
}
