import { MM_PER, type ThicknessUnit } from '../shared/units.ts';
import { numberText, signedText, type NumberFormat } from '../src/words/format.ts';

/** Digits after the decimal sign of what stands at a place of a blade, and of a worked-out figure shown without its doubt. */
const PLACE_DIGITS: Readonly<Record<ThicknessUnit, number>> = { hundredths: 0, mm: 2, thou: 1 };
const FIGURE_DIGITS: Readonly<Record<ThicknessUnit, number>> = { hundredths: 1, mm: 3, thou: 1 };

/** A difference as it stands at its station, with its sign: `+3`, `−0.02`; zero has none. */
export function differenceText(differenceMm: number, writing: NumberFormat): string {
  return signedText(differenceMm / MM_PER[writing.unit], PLACE_DIGITS[writing.unit], writing);
}

/** A thickness that was worked out, as it stands at its place: `47`, `0.47`, `18.4`. */
export function placeText(thicknessMm: number, writing: NumberFormat): string {
  return numberText(thicknessMm / MM_PER[writing.unit], PLACE_DIGITS[writing.unit], writing);
}

/** A difference that was worked out: `+3.2`. */
export function signedFigureText(valueMm: number, writing: NumberFormat): string {
  return signedText(valueMm / MM_PER[writing.unit], FIGURE_DIGITS[writing.unit], writing);
}

/** A thickness that was worked out: `45.2`, `0.452`, `17.8`. */
export function figureText(valueMm: number, writing: NumberFormat): string {
  return numberText(valueMm / MM_PER[writing.unit], FIGURE_DIGITS[writing.unit], writing);
}
