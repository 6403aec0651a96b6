import type { ThicknessUnit } from '../../../shared/units.ts';
import type { Delimiter } from './table.ts';

export type DecimalSign = 'point' | 'comma';

/** A number as it stands in a cell, and the unit written behind it. */
export interface WrittenNumber {
  readonly value: number;
  readonly unit?: ThicknessUnit;
}

const UNIT_WORDS: Readonly<Record<string, ThicknessUnit>> = {
  mm: 'mm',
  hundredths: 'hundredths',
  '/100': 'hundredths',
  '/100mm': 'hundredths',
  thou: 'thou',
  '/1000in': 'thou',
  '/1000"': 'thou',
};

const MINUS = /\u2212/g;
/** No-break, figure, thin and narrow no-break spaces, which part thousands or a number from its unit. */
const THIN_SPACES = /[\u00a0\u2007\u2009\u202f]/g;
const NUMBER_AND_UNIT = /^([+-]?[\d.,]+(?:[eE][+-]?\d{1,3})?)\s*(\D.{0,10}|\/1000?\D{0,3})?$/;
const GROUPED: Readonly<Record<DecimalSign, RegExp>> = {
  point: /^[+-]?\d{1,3}(,\d{3})+(\.\d+)?$/,
  comma: /^[+-]?\d{1,3}(\.\d{3})+(,\d+)?$/,
};
const PLAIN = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i;
/** Three figures behind the sign and one to three, without a leading zero, before it: thousands or decimals. */
const OPEN = /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/;

/** The digits and the unit of a cell that may hold a number, or undefined. */
function taken(text: string): { digits: string; unit?: ThicknessUnit } | undefined {
  const [, digits, word] =
    NUMBER_AND_UNIT.exec(text.trim().replace(MINUS, '-').replace(THIN_SPACES, '')) ?? [];
  if (digits === undefined || !/\d/.test(digits)) return undefined;
  if (word === undefined) return { digits };
  const key = word.toLowerCase().replace(/\s/g, '');
  return Object.hasOwn(UNIT_WORDS, key) ? { digits, unit: UNIT_WORDS[key]! } : undefined;
}

/** Whether a cell reads as a number with either decimal sign. */
export function looksNumeric(text: string): boolean {
  return parseNumber(text, 'point') !== undefined || parseNumber(text, 'comma') !== undefined;
}

/**
 * A number as people write it: `decimal` sign, the other sign or a thin space between thousands, U+2212 for minus, a
 * unit behind it. Undefined where the text is anything else.
 */
export function parseNumber(text: string, decimal: DecimalSign): WrittenNumber | undefined {
  const parts = taken(text);
  if (parts === undefined) return undefined;
  const { digits, unit } = parts;
  const groups = decimal === 'point' ? /,/g : /\./g;
  const whole = GROUPED[decimal].test(digits) ? digits.replace(groups, '') : digits;
  const plain = decimal === 'comma' ? withPoint(whole) : whole;
  if (!PLAIN.test(plain)) return undefined;
  const value = Number(plain) + 0;
  return unit === undefined ? { value } : { value, unit };
}

/** Commas become points; a point already there becomes a sign that no number has. */
function withPoint(digits: string): string {
  return digits.replace(/[.,]/g, (sign) => (sign === ',' ? '.' : '?'));
}

/** A decimal sign that the numbers settle, or the first that they leave open. */
export type DecimalDecision =
  | { readonly decimal: DecimalSign; readonly seen: boolean }
  | { readonly open: string };

/**
 * Decides between decimal points and decimal commas from all numbers of a file. `1.234` by itself is open: it may be a
 * thousand and more. In a file with commas between its cells an unquoted point can only be a decimal sign.
 */
export function decideDecimal(texts: Iterable<string>, delimiter: Delimiter): DecimalDecision {
  const sure = { point: 0, comma: 0 };
  const open: string[] = [];
  for (const text of texts) {
    const digits = taken(text)?.digits ?? '';
    const signs = digits.match(/[.,]/g) ?? [];
    if (signs.length !== 1) continue;
    if (OPEN.test(digits)) open.push(text.trim());
    else sure[signs[0] === '.' ? 'point' : 'comma'] += 1;
  }
  if (sure.point + sure.comma > 0)
    return { decimal: sure.comma > sure.point ? 'comma' : 'point', seen: true };
  const first = open[0];
  if (first === undefined) return { decimal: 'point', seen: false };
  return delimiter === ',' && open.every((text) => text.includes('.'))
    ? { decimal: 'point', seen: true }
    : { open: first };
}

/** A number with all its figures and this decimal sign, written so that it is never open to two readings. */
export function numberText(value: number, decimal: DecimalSign): string {
  const text = String(value);
  if (decimal === 'point') return text;
  return OPEN.test(text) ? `${text.replace('.', ',')}0` : text.replace('.', ',');
}
