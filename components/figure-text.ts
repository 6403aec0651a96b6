import { MM_PER, type ThicknessUnit } from '../shared/units.ts';
import { numberText, signedText, type Writing } from '../src/words/format.ts';

/** Digits after the decimal sign of a difference at a station, and of a worked-out figure shown without its doubt. */
const DIFFERENCE_DIGITS: Readonly<Record<ThicknessUnit, number>> = { hundredths: 0, mm: 2, thou: 1 };
const FIGURE_DIGITS: Readonly<Record<ThicknessUnit, number>> = { hundredths: 1, mm: 3, thou: 1 };
/** Digits of a number on an axis, at most. */
const AXIS_DIGITS = 3;

/** A difference as it stands at its station, with its sign: `+3`, `−0.02`; zero has none. */
export function differenceText(differenceMm: number, writing: Writing): string {
  return signedText(differenceMm / MM_PER[writing.unit], DIFFERENCE_DIGITS[writing.unit], writing);
}

/** A difference that was worked out: `+3.2`. */
export function signedFigureText(valueMm: number, writing: Writing): string {
  return signedText(valueMm / MM_PER[writing.unit], FIGURE_DIGITS[writing.unit], writing);
}

/** A thickness that was worked out: `45.2`, `0.452`, `17.8`. */
export function figureText(valueMm: number, writing: Writing): string {
  return numberText(valueMm / MM_PER[writing.unit], FIGURE_DIGITS[writing.unit], writing);
}

/** A number on an axis, or a distance in mm, without needless decimals. */
export function plainText(value: number, writing: Pick<Writing, 'decimal'>): string {
  const rounded = Number(value.toFixed(AXIS_DIGITS));
  const digits = String(rounded).split('.')[1]?.length ?? 0;
  return numberText(rounded, digits, writing);
}
