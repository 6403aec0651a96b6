import type { LineFormat } from '../../shared/gauge.ts';
import { MAX_THICKNESS_MM, MM_PER } from '../../shared/units.ts';

/** A sign, or a comma or point inside digits, belongs to the number; a minus after a digit does not. */
const NUMBERS = /(?<![\d.,])[+\-\u2212]?\s?\d+(?:[.,]\d+)?/g;
const UNITS: readonly (readonly [RegExp, number])[] = [
  [/^\s*(mm|millim)/i, 1],
  [/^\s*(in\b|inch|")/i, MM_PER.thou * 1000],
  [/^\s*(um|\u00b5m|\u03bcm)/i, 0.001],
];

/** One way to read a sample line, for the maker to choose from. */
export interface LineReading {
  readonly format: LineFormat;
  /** What the sample would read, mm. */
  readonly thicknessMm: number;
}

/** A line with its numbers replaced by `#` and its spaces drawn together. */
function shapeOf(line: string): string {
  return line.replace(NUMBERS, '#').replace(/\s+/g, ' ').trim();
}

function numbersIn(line: string): RegExpExecArray[] {
  return [...line.matchAll(NUMBERS)];
}

function decimalOf(text: string): LineFormat['decimal'] {
  if (text.includes('.')) return 'point';
  return text.includes(',') ? 'comma' : 'none';
}

function valueOf(text: string): number {
  return Number(text.replace(/\s/g, '').replace('\u2212', '-').replace(',', '.'));
}

/** Millimetres in one unit: as the line says; otherwise mm for a number with its mark, both counts for a whole one. */
function unitsOf(after: string, decimal: LineFormat['decimal']): number[] {
  const named = UNITS.find(([pattern]) => pattern.test(after));
  if (named) return [named[1]];
  return decimal === 'none' ? [MM_PER.hundredths, MM_PER.hundredths / 10] : [1, MM_PER.thou * 1000];
}

/**
 * Every way in which a sample line can hold a thickness, likeliest first: a number with a decimal mark before a whole
 * one, a later number before an earlier one, a value within (0, 2] mm before others of either sign. The maker chooses
 * by the thickness that the gauge shows.
 */
export function readingsOfSample(line: string): LineReading[] {
  const shape = shapeOf(line);
  const found = numbersIn(line).flatMap((match, which) => {
    const decimal = decimalOf(match[0]);
    const value = valueOf(match[0]);
    const after = line.slice(match.index + match[0].length);
    return unitsOf(after, decimal).map((mmPerUnit): LineReading => {
      const signed = value < 0 ? -mmPerUnit : mmPerUnit;
      return { format: { shape, which, decimal, mmPerUnit: signed }, thicknessMm: value * signed };
    });
  });
  const rank = ({ format, thicknessMm }: LineReading) =>
    (thicknessMm > 0 && thicknessMm <= MAX_THICKNESS_MM ? 0 : 100) +
    (format.decimal === 'none' ? 10 : 0) -
    format.which;
  return found.sort((a, b) => rank(a) - rank(b));
}

/**
 * The thickness that a line holds by a taught format, mm; undefined for a line of another shape (garbage, half a line,
 * a message) or a number that no reading can be. Zero and negative values are given as they are: a gauge at rest.
 */
export function readLine(line: string, { shape, which, decimal, mmPerUnit }: LineFormat): number | undefined {
  if (shapeOf(line) !== shape) return undefined;
  const text = numbersIn(line)[which]?.[0];
  if (text === undefined || decimalOf(text) !== decimal) return undefined;
  const mm = Number((valueOf(text) * mmPerUnit).toFixed(6));
  return Math.abs(mm) <= MAX_THICKNESS_MM ? mm : undefined;
}
