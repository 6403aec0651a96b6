import { MM_PER, type ThicknessUnit } from '../shared/units.ts';
import { fixed, NORMAL_95, type Writing } from '../src/answers/figure-words.ts';

interface UnitWords {
  /** As it stands in a caption. */
  readonly caption: string;
  /** As it is read out after a figure. */
  readonly spoken: string;
  /** Digits after the point of a reading, at least and at most, of a difference at a station, of a worked-out figure. */
  readonly reading: readonly [least: number, most: number];
  readonly difference: number;
  readonly figure: number;
}

export const UNIT_WORDS: Readonly<Record<ThicknessUnit, UnitWords>> = {
  hundredths: { caption: 'hundredths', spoken: 'hundredths', reading: [0, 1], difference: 0, figure: 1 },
  mm: { caption: 'mm', spoken: 'millimetres', reading: [2, 3], difference: 2, figure: 3 },
  thou: { caption: 'thou', spoken: 'thousandths of an inch', reading: [1, 1], difference: 1, figure: 1 },
};

/** As many decimals as the value needs, within bounds. */
function trimmed(value: number, least: number, most: number, decimal: Writing['decimal']): string {
  let digits = most;
  while (digits > least && Math.abs(value - Number(value.toFixed(digits - 1))) < 10 ** -most / 2) digits--;
  return fixed(value, digits, decimal);
}

function signed(value: number, digits: number, decimal: Writing['decimal']): string {
  const text = fixed(value, digits, decimal);
  return value > 0 && Number(value.toFixed(digits)) !== 0 ? `+${text}` : text;
}

/** A reading in the maker's unit, as it was taken, without the unit's name: `47`, `0.47`, `18.5`. */
export function readingText(thicknessMm: number, { unit, decimal }: Writing): string {
  return trimmed(thicknessMm / MM_PER[unit], ...UNIT_WORDS[unit].reading, decimal);
}

/** A difference at a station, with its sign: `+3`, `−0.02`; zero has none. */
export function differenceText(differenceMm: number, { unit, decimal }: Writing): string {
  return signed(differenceMm / MM_PER[unit], UNIT_WORDS[unit].difference, decimal);
}

/** A difference that was worked out, to the first place of its doubt: `+3.2`. */
export function signedFigureText(valueMm: number, { unit, decimal }: Writing): string {
  return signed(valueMm / MM_PER[unit], UNIT_WORDS[unit].figure, decimal);
}

/** A figure that was worked out, to the first place of its doubt: `45.2`, `0.452`, `17.8`. */
export function figureText(valueMm: number, { unit, decimal }: Writing): string {
  return fixed(valueMm / MM_PER[unit], UNIT_WORDS[unit].figure, decimal);
}

/** The 95 % doubt of a figure from its standard uncertainty: `±0.5`. */
export function doubtText(uMm: number, { unit, decimal }: Writing): string {
  return `±${fixed((NORMAL_95 * uMm) / MM_PER[unit], UNIT_WORDS[unit].figure, decimal)}`;
}

/** A number on an axis, or a distance in mm: no needless decimals. */
export function plainText(value: number, decimal: Writing['decimal']): string {
  return trimmed(value, 0, 3, decimal);
}
