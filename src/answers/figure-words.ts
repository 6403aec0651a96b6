import { MM_PER, type ThicknessUnit } from '../../shared/units.ts';
import type { Estimate } from '../surface/reed-model.ts';

export const MINUS = '\u2212';
const NO_BREAK = '\u00a0';
/** Standard uncertainties in half a 95 % interval. Source: normal distribution. */
export const NORMAL_95 = 1.96;

/** Decimals that a figure is shown with, so that its doubt has one or two figures. */
const DECIMALS: Readonly<Record<ThicknessUnit, number>> = { hundredths: 1, mm: 3, thou: 1 };

export interface Writing {
  readonly unit: ThicknessUnit;
  readonly decimal: 'point' | 'comma';
}

/** A number with a fixed count of decimals, a real minus sign and the maker's decimal sign. */
export function fixed(value: number, decimals: number, decimal: Writing['decimal']): string {
  const text = Math.abs(value).toFixed(decimals);
  const signed = value < 0 && Number(text) !== 0 ? MINUS + text : text;
  return decimal === 'comma' ? signed.replace('.', ',') : signed;
}

/** A figure as it is shown: its value, and half its 95 % interval behind a plus-minus sign. */
export interface FigureText {
  readonly value: string;
  readonly doubt: string;
}

/** A thickness: `45.2`, `±0.5`. */
export function thicknessFigure({ valueMm, uMm }: Estimate, { unit, decimal }: Writing): FigureText {
  const scale = 1 / MM_PER[unit];
  return {
    value: fixed(valueMm * scale, DECIMALS[unit], decimal),
    doubt: `\u00b1${fixed(NORMAL_95 * uMm * scale, DECIMALS[unit], decimal)}`,
  };
}

/** Whether a figure differs from zero by more than its 95 % doubt. */
export function isMeasurable({ valueMm, uMm }: Estimate): boolean {
  return Math.abs(valueMm) > NORMAL_95 * uMm;
}

/** A difference: signed, and in brackets where it is inside its doubt. */
export function differenceFigure(figure: Estimate, writing: Writing): FigureText {
  const { value, doubt } = thicknessFigure(figure, writing);
  const sign = figure.valueMm > 0 && Number(value.replace(',', '.')) !== 0 ? '+' : '';
  const text = `${sign}${value}`;
  return { value: isMeasurable(figure) ? text : `(${text})`, doubt };
}

/** A size in whole units for a sentence, or with one decimal in millimetres: `3`, `0.03`. */
export function roughly(mm: number, { unit, decimal }: Writing): string {
  return fixed(Math.abs(mm) / MM_PER[unit], unit === 'mm' ? 2 : unit === 'thou' ? 1 : 0, decimal);
}

/** A distance with its unit: `3.7 mm`. */
export function distance(mm: number, { decimal }: Writing, decimals = 1): string {
  return `${fixed(mm, decimals, decimal)}${NO_BREAK}mm`;
}

/** A distance on the blade without needless decimals: `10 mm`, `0.5 mm`. */
export function place(mm: number, writing: Writing): string {
  return distance(mm, writing, Number.isInteger(Math.round(mm * 10) / 10) ? 0 : 1);
}

/** Where across a blade: middle, left, right edge. */
export function acrossWords(across: number): string {
  if (Math.abs(across) < 0.1) return 'middle';
  const side = across < 0 ? 'left' : 'right';
  return Math.abs(across) >= 0.65 ? `${side} edge` : side;
}

/** Items in a sentence: `a`, `a and b`, `a, b and c`. */
export function listed(items: readonly string[]): string {
  return items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}
