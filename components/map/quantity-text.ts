import type { ThicknessUnit } from '../../shared/units.ts';
import { readingText, UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import { differenceText, figureText } from '../figure-text.ts';
import type { Quantity } from '../theme/ramp.ts';

const TEXT: Readonly<Record<Quantity, (valueMm: number, writing: NumberFormat) => string>> = {
  thickness: readingText,
  difference: differenceText,
  doubt: figureText,
  believable: figureText,
  slope: figureText,
};

/** A number of a map, in the maker's unit and without its name. */
export function quantityText(quantity: Quantity, valueMm: number, writing: NumberFormat): string {
  return TEXT[quantity](valueMm, writing);
}

const perMm = (quantity: Quantity) => (quantity === 'slope' ? ' a millimetre' : '');

/** The unit of a map's numbers, in a caption. */
export function quantityUnit(quantity: Quantity, unit: ThicknessUnit): string {
  return `${UNIT_WORDS[unit].caption}${perMm(quantity)}`;
}

/** The unit of a map's number, as it is spoken after it. */
export function spokenUnit(quantity: Quantity, unit: ThicknessUnit, number: string): string {
  const [one, many] = UNIT_WORDS[unit].spoken;
  return `${/^[+\u2212]?1$/.test(number) ? one : many}${perMm(quantity)}`;
}
