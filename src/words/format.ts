import { MM_PER, type ThicknessUnit } from '../../shared/units.ts';
import type { Estimate } from '../../shared/estimate.ts';

/** How a maker wants figures written. */
export interface NumberFormat {
  readonly unit: ThicknessUnit;
  readonly decimal: 'point' | 'comma';
}

/** Standard uncertainties in the ± that the screen shows: 95 % of a normal distribution. */
export const COVERAGE = 1.959964;

const MINUS = '\u2212';
const NO_BREAK_SPACE = '\u00a0';
const EN_DASH = '\u2013';

/** What stands where there is no figure. */
export const NO_FIGURE = EN_DASH;

/** Digits after the decimal sign of a figure whose doubt asks for no others. */
const USUAL_DIGITS: Readonly<Record<ThicknessUnit, number>> = { hundredths: 1, mm: 3, thou: 1 };
/** Digits of one reading as it is written on the wood: as many as the usual display shows, more where it has more. */
const READING_DIGITS: Readonly<Record<ThicknessUnit, readonly [least: number, most: number]>> = {
  hundredths: [0, 1],
  mm: [2, 3],
  thou: [1, 1],
};

export interface UnitWords {
  /** On the button that chooses it. */
  readonly name: string;
  /** In a caption. */
  readonly caption: string;
  /** After a figure in a sentence: one, and several. */
  readonly spoken: readonly [one: string, many: string];
}
export const UNIT_WORDS: Readonly<Record<ThicknessUnit, UnitWords>> = {
  hundredths: {
    name: 'hundredths of a mm',
    caption: 'hundredths',
    spoken: ['hundredth', 'hundredths'],
  },
  mm: { name: 'millimetres', caption: 'mm', spoken: ['mm', 'mm'] },
  thou: { name: 'thousandths of an inch', caption: 'thou', spoken: ['thou', 'thou'] },
};

/** A number with this many digits after the decimal sign, a true minus, and no sign on zero. */
export function numberText(
  value: number,
  digits: number,
  { decimal }: Pick<NumberFormat, 'decimal'>,
): string {
  const fixed = Math.abs(value).toFixed(digits);
  const written = decimal === 'comma' ? fixed.replace('.', ',') : fixed;
  return value < 0 && Number(fixed) !== 0 ? `${MINUS}${written}` : written;
}

/** The same with a plus before what is above zero. */
export function signedText(value: number, digits: number, writing: Pick<NumberFormat, 'decimal'>): string {
  const written = numberText(value, digits, writing);
  return value > 0 && Number(value.toFixed(digits)) !== 0 ? `+${written}` : written;
}

/** Digits after the decimal sign that show a doubt with one or two figures, and the value no finer than that. */
export function doubtDigits(doubt: number, usual: number): number {
  if (!(doubt > 0)) return usual;
  const shown = (digits: number) => Number(doubt.toFixed(digits));
  let digits = usual;
  while (digits > 0 && shown(digits) >= 100 * 10 ** -digits) digits--;
  while (shown(digits) === 0 && digits < 12) digits++;
  return digits;
}

/** A figure as it is printed: its number and its 95 % doubt, apart, so that the doubt may be set smaller. */
export interface FigureText {
  readonly value: string;
  /** With the sign ±; absent for a figure without one. */
  readonly doubt: string;
  /** A difference smaller than its doubt: its number is in brackets. */
  readonly inDoubt: boolean;
}

/** Kinds of numbers: how each is written follows from its kind. Base units: mm, mm3, 1, Hz, cents, h, %, °C. */
export type Quantity =
  | 'thickness'
  | 'reading'
  | 'difference'
  | 'distance'
  | 'volume'
  | 'volume taken'
  | 'ratio'
  | 'share'
  | 'share difference'
  | 'frequency'
  | 'pitch'
  | 'hours'
  | 'humidity'
  | 'water'
  | 'temperature';

interface QuantityForm {
  /** Digits after the decimal sign, by the maker's unit where it is a thickness. */
  readonly digits: number | Readonly<Record<ThicknessUnit, number>>;
  /** With its sign, and in brackets where it is inside its doubt. */
  readonly signed?: true;
  /** Base units in one that is written. */
  readonly per?: number;
  readonly unit?: string;
  /** Without needless decimals where it has no doubt. */
  readonly short?: true;
}

const FORMS: Readonly<Record<Exclude<Quantity, 'reading'>, QuantityForm>> = {
  thickness: { digits: USUAL_DIGITS },
  difference: { digits: USUAL_DIGITS, signed: true },
  distance: { digits: 1, unit: 'mm' },
  volume: { digits: 1, unit: 'mm³' },
  'volume taken': { digits: 2, signed: true, unit: 'mm³' },
  ratio: { digits: 2 },
  share: { digits: 1, per: 0.01, unit: '%' },
  'share difference': { digits: 1, per: 0.01, signed: true, unit: '%' },
  frequency: { digits: 1, unit: 'Hz' },
  pitch: { digits: 0, signed: true, unit: 'cents' },
  hours: { digits: 1, unit: 'h', short: true },
  humidity: { digits: 0, unit: '%' },
  water: { digits: 1, unit: '%' },
  temperature: { digits: 1, unit: '°C' },
};

interface Scaled {
  readonly form: QuantityForm;
  readonly digits: number;
  readonly per: number;
}

function scaled(quantity: Exclude<Quantity, 'reading'>, { unit }: NumberFormat): Scaled {
  const form = FORMS[quantity];
  return typeof form.digits === 'number'
    ? { form, digits: form.digits, per: form.per ?? 1 }
    : { form, digits: form.digits[unit], per: MM_PER[unit] };
}

/** A number of a kind with its doubt, without the unit's name. */
function figureText(
  quantity: Exclude<Quantity, 'reading'>,
  value: number,
  u: number,
  writing: NumberFormat,
): FigureText {
  const { form, digits: usual, per } = scaled(quantity, writing);
  const [shown, doubt] = [value / per, (COVERAGE * u) / per];
  const digits = doubtDigits(doubt, usual);
  const inDoubt = form.signed === true && Math.abs(shown) <= doubt;
  const number = (form.signed ? signedText : numberText)(shown, digits, writing);
  return {
    value: inDoubt ? `(${number})` : number,
    doubt: `±${numberText(doubt, digits, writing)}`,
    inDoubt,
  };
}

/** A figure as it is printed, whatever it is; a plain text where it has no doubt, and the reason where there is none. */
export function writtenFigure(
  figure: {
    readonly quantity: Quantity;
    readonly value?: number;
    readonly u?: number;
    readonly absent?: string;
    readonly note?: string;
  },
  writing: NumberFormat,
): FigureText | string | { readonly none: string } {
  const { quantity, value, u, absent = '', note } = figure;
  if (value === undefined) return { none: absent };
  if (quantity === 'reading') return readingText(value, writing);
  if (u === undefined) return plainFigure(quantity, value, writing);
  const text = figureText(quantity, value, u, writing);
  return note === undefined ? text : { ...text, doubt: `${text.doubt} ${note}` };
}

function plainFigure(quantity: Exclude<Quantity, 'reading'>, value: number, writing: NumberFormat): string {
  const { form, digits, per } = scaled(quantity, writing);
  if (form.short) return plainText(Number((value / per).toFixed(digits)), writing);
  return (form.signed ? signedText : numberText)(value / per, digits, writing);
}

/** A number of a kind with its unit, without a doubt: `2.5 h`, `+12 cents`. */
export function quantityText(
  quantity: 'distance' | 'volume' | 'frequency' | 'pitch' | 'hours',
  value: number,
  { decimal }: Pick<NumberFormat, 'decimal'>,
): string {
  return withUnit(plainFigure(quantity, value, { unit: 'mm', decimal }), FORMS[quantity].unit!);
}

/** How long something was played, minutes: `20 min`, and in hours from one on: `1.5 h`. */
export function playedText(minutes: number, decimal: Pick<NumberFormat, 'decimal'>): string {
  return minutes < 60
    ? withUnit(numberText(minutes, 0, decimal), 'min')
    : quantityText('hours', minutes / 60, decimal);
}

/** A thickness with its doubt, without the unit's name: `45.2` `±0.5`. */
export const thicknessFigure = ({ valueMm, uMm }: Estimate, writing: NumberFormat): FigureText =>
  figureText('thickness', valueMm, uMm, writing);

/** A difference of thicknesses with its doubt: `+3.2` `±0.9`, in brackets inside its doubt. */
export const differenceFigure = ({ valueMm, uMm }: Estimate, writing: NumberFormat): FigureText =>
  figureText('difference', valueMm, uMm, writing);

/** A distance along the blade with its doubt, in mm whatever the unit of thickness: `3.7` `±0.1`. */
export const distanceFigure = ({ valueMm, uMm }: Estimate, writing: NumberFormat): FigureText =>
  figureText('distance', valueMm, uMm, writing);

/** A volume of cane that was taken off with its doubt, mm3: `+1.25` `±0.31`. */
export const volumeFigure = ({ value, u }: { value: number; u: number }, writing: NumberFormat): FigureText =>
  figureText('volume taken', value, u, writing);

/** A figure of the air, or of the water in cane, with its doubt and its unit: `41 %` `±5`. */
export function airFigure(
  quantity: 'humidity' | 'water' | 'temperature',
  { value, u }: { readonly value: number; readonly u: number },
  { decimal }: Pick<NumberFormat, 'decimal'>,
): FigureText {
  const text = figureText(quantity, value, u, { unit: 'mm', decimal });
  return { ...text, value: withUnit(text.value, FORMS[quantity].unit!) };
}

/** A doubt alone at 95 %, one digit finer than beside a figure, to set doubts against each other: `±0.62`. */
export function doubtText(uMm: number, writing: NumberFormat): string {
  return `±${numberText((COVERAGE * uMm) / MM_PER[writing.unit], USUAL_DIGITS[writing.unit] + 1, writing)}`;
}

/** A figure in one string: `45.2 ±0.5`. */
export function joined({ value, doubt }: FigureText): string {
  return `${value}${NO_BREAK_SPACE}${doubt}`;
}

/** One reading, as it was read: `47`, `0.47`, `18.5`. */
export function readingText(thicknessMm: number, writing: NumberFormat): string {
  const [least, most] = READING_DIGITS[writing.unit];
  const value = thicknessMm / MM_PER[writing.unit];
  const digits = Number(value.toFixed(least)) === Number(value.toFixed(most)) ? least : most;
  return numberText(value, digits, writing);
}

/** A distance in mm with one digit and its unit: `3.7 mm`. */
export function distanceText(distanceMm: number, writing: Pick<NumberFormat, 'decimal'>): string {
  return quantityText('distance', distanceMm, writing);
}

/** Digits after the decimal sign of a number that is written as short as it goes, at most. */
const MOST_DIGITS = 3;

/** A number on an axis, or one that was typed, without needless decimals: `10`, `0.5`, `−0.25`. */
export function plainText(value: number, writing: Pick<NumberFormat, 'decimal'>): string {
  const rounded = Number(value.toFixed(MOST_DIGITS));
  const digits = String(rounded).split('.')[1]?.length ?? 0;
  return numberText(rounded, digits, writing);
}

/** The shortest writing of a distance that stands in a file or was typed: `10 mm`, `0.5 mm`. */
export function stationText(distanceMm: number, writing: Pick<NumberFormat, 'decimal'>): string {
  return withUnit(plainText(Number(distanceMm.toFixed(2)), writing), 'mm');
}

/**
 * A rounded amount of cane for a sentence, without unit or sign: `3`, `1.5`, `0.03`. Halves are kept where a maker
 * feels them, and less than a half is written finer: what is told is not called nothing.
 */
export function bareAmount(thicknessMm: number, writing: NumberFormat): string {
  const { unit } = writing;
  const size = Math.abs(thicknessMm) / MM_PER[unit];
  const usual = { hundredths: size < 1.75 ? 0.5 : 1, mm: 0.005, thou: 0.5 }[unit];
  const step = size < usual / 2 ? usual / 5 : usual;
  const rounded = Math.round(size / step) * step;
  const least = unit === 'mm' ? 2 : 0;
  const isWhole = Math.abs(rounded * 10 ** least - Math.round(rounded * 10 ** least)) < 1e-6;
  return numberText(rounded, isWhole ? least : least + 1, writing);
}

/** An amount that is asked for: written so that it never says more than it is. */
export function takeText(thicknessMm: number, writing: NumberFormat): string {
  const [per, digits] = [MM_PER[writing.unit], READING_DIGITS[writing.unit][1]];
  const held = Math.floor((thicknessMm / per) * 10 ** digits + 1e-9) / 10 ** digits;
  return readingText(held * per, writing);
}

/** The same with its unit: `3 hundredths`, `0.03 mm`, `1 thou`. */
export function amountText(thicknessMm: number, writing: NumberFormat): string {
  const text = bareAmount(thicknessMm, writing);
  const [one, many] = UNIT_WORDS[writing.unit].spoken;
  return withUnit(text, text === '1' ? one : many);
}

/** A number and its unit that no line end parts. */
export function withUnit(number: string, unit: string): string {
  return `${number}${NO_BREAK_SPACE}${unit}`;
}
