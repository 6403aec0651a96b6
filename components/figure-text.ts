import { MM_PER, type ThicknessUnit } from '../shared/units.ts';

export const MINUS = '\u2212';
export const NO_BREAK_SPACE = '\u00a0';
export const EN_DASH = '\u2013';

interface UnitWords {
  /** As it stands in a caption. */
  readonly caption: string;
  /** As it is read out after a figure. */
  readonly spoken: string;
  /** Digits after the point of a reading, at least and at most, and of a difference. */
  readonly digits: readonly [least: number, most: number];
  readonly signedDigits: number;
}

export const UNIT_WORDS: Readonly<Record<ThicknessUnit, UnitWords>> = {
  hundredths: { caption: 'hundredths', spoken: 'hundredths', digits: [0, 1], signedDigits: 0 },
  mm: { caption: 'mm', spoken: 'millimetres', digits: [2, 3], signedDigits: 2 },
  thou: { caption: 'thou', spoken: 'thousandths of an inch', digits: [1, 1], signedDigits: 1 },
};

function number(value: number, least: number, most: number): string {
  // The language is fixed: a decimal point, so that a figure reads the same in a file and on the screen.
  return value.toLocaleString('en', {
    minimumFractionDigits: least,
    maximumFractionDigits: most,
    useGrouping: false,
  });
}

function withSign(text: string): string {
  if (Number(text) === 0) return text.replace('-', '');
  return text.startsWith('-') ? text.replace('-', MINUS) : `+${text}`;
}

/** A thickness in the maker's unit, without the unit's name: `47`, `0.47`, `18.5`. */
export function thicknessText(thicknessMm: number, unit: ThicknessUnit): string {
  const [least, most] = UNIT_WORDS[unit].digits;
  return number(thicknessMm / MM_PER[unit], least, most).replace('-', MINUS);
}

/** A difference with its sign: `+3`, `−0.02`; zero has none. */
export function differenceText(differenceMm: number, unit: ThicknessUnit): string {
  const digits = UNIT_WORDS[unit].signedDigits;
  return withSign(number(differenceMm / MM_PER[unit], digits, digits));
}

/** A distance in mm, one digit after the point unless told: `3.7`. */
export function distanceText(distanceMm: number, least = 1, most = least): string {
  return number(distanceMm, least, most).replace('-', MINUS);
}

/** Where across a blade a place lies, in words. */
export function acrossWords(across: number): string {
  if (Math.abs(across) < 0.1) return 'middle';
  const side = across < 0 ? 'left' : 'right';
  return Math.abs(across) >= 0.65 ? `${side} edge` : side;
}

/** Standard uncertainties in the 95 % that the screen shows: the normal distribution's, as the GUM gives it. */
export const COVERAGE_FACTOR = 1.96;

const DOUBT_DIGITS: Readonly<Record<ThicknessUnit, number>> = { hundredths: 1, mm: 3, thou: 1 };

/** A figure that was worked out, to the first place of its doubt: `45.2`, `0.452`, `17.8`. */
export function figureText(valueMm: number, unit: ThicknessUnit): string {
  return number(valueMm / MM_PER[unit], DOUBT_DIGITS[unit], DOUBT_DIGITS[unit]).replace('-', MINUS);
}

/** A difference that was worked out, with its sign: `+3.2`. */
export function signedFigureText(valueMm: number, unit: ThicknessUnit): string {
  return withSign(number(valueMm / MM_PER[unit], DOUBT_DIGITS[unit], DOUBT_DIGITS[unit]));
}

/** The 95 % doubt of a figure from its standard uncertainty: `±0.5`. */
export function doubtText(uMm: number, unit: ThicknessUnit): string {
  return `±${number((COVERAGE_FACTOR * uMm) / MM_PER[unit], DOUBT_DIGITS[unit], DOUBT_DIGITS[unit])}`;
}
