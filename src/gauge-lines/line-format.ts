import { group } from 'd3-array';
import type { LineFormat } from '../../shared/gauge.ts';
import { MAX_THICKNESS_MM, MM_PER } from '../../shared/units.ts';

/** A sign, or a comma or point before or inside digits, belongs to the number; a minus after a digit does not. */
const NUMBERS = /(?<![\d.,])[+\-\u2212]?\s?(?:\d+(?:[.,]\d+)?|[.,]\d+)/g;
/** Where numbers have points, commas part them, as in `1,0.450,mm`. */
const POINT_NUMBERS = /(?<![\d.])[+\-\u2212]?\s?(?:\d+(?:\.\d+)?|\.\d+)/g;
/** Stands in a shape for words that change, such as whether a value is within its tolerance. */
const CHANGING = '*';
/** Words after a number that say that it is none. */
const NO_VALUE = /err|bat|fault|over/i;
const UNITS: readonly (readonly [RegExp, number])[] = [
  [/^[\s,;]*(mm|millim)/i, 1],
  [/^[\s,;]*(in\b|inch|")/i, MM_PER.thou * 1000],
  [/^[\s,;]*(um|\u00b5m|\u03bcm)/i, 0.001],
];

/** One way to read a sample line, for the maker to choose from. */
export interface LineReading {
  readonly format: LineFormat;
  /** What the sample would read, mm. */
  readonly thicknessMm: number;
}

/** A line with its numbers replaced by `#` and its spaces drawn together. */
function shapeOf(line: string): string {
  return line.replace(patternFor(line), '#').replace(/\s+/g, ' ').trim();
}

const patternFor = (line: string) => (/\.\d/.test(line) ? POINT_NUMBERS : NUMBERS);

function numbersIn(line: string): RegExpExecArray[] {
  return [...line.matchAll(patternFor(line))];
}

/** What stands before the end of the last number and its unit, and the words after them. */
function parted(shape: string): { readonly stem: string; readonly suffix: string } {
  const stem =
    /^.*#(?:[\s,;]*(?:mm|millimet\w+|inch|in|"|um|\u00b5m|\u03bcm)(?![a-z]))?/i.exec(shape)?.[0].trimEnd() ??
    shape;
  return { stem, suffix: shape.slice(stem.length).trim() };
}

function hasShape(line: string, shape: string): boolean {
  const own = shapeOf(line);
  if (!shape.endsWith(CHANGING)) return own === shape;
  const { stem, suffix } = parted(own);
  return `${stem} ${CHANGING}` === shape && !NO_VALUE.test(suffix);
}

/** The shape of most lines; where their last words change, the words are left open. */
function commonShape(lines: readonly string[]): string | undefined {
  const shapes = lines.map(shapeOf).filter((shape) => shape.includes('#'));
  const [[stem, members] = []] = [...group(shapes, (shape) => parted(shape).stem)].sort(
    (a, b) => b[1].length - a[1].length,
  );
  if (stem === undefined || !members) return undefined;
  return new Set(members).size > 1 ? `${stem} ${CHANGING}` : members[0];
}

/**
 * Every way in which the lines of a gauge that is being moved can hold its reading, likeliest first: the number that
 * changes is the reading, one that stays is a channel or an address.
 *
 * @param lines As they came, garbage and messages among them.
 * @returns Readings of the last line of the common shape; empty where no line holds a number.
 */
export function readingsOfLines(lines: readonly string[]): LineReading[] {
  const shape = commonShape(lines);
  const last = shape === undefined ? undefined : lines.findLast((line) => hasShape(line, shape));
  if (shape === undefined || last === undefined) return [];
  const offers = readingsOfSample(last).map((offer) => ({ ...offer, format: { ...offer.format, shape } }));
  const varies = ({ format }: LineReading) =>
    new Set(lines.filter((line) => hasShape(line, shape)).map((line) => numbersIn(line)[format.which]?.[0]))
      .size;
  return [...offers].sort((a, b) => Number(varies(b) > 1) - Number(varies(a) > 1));
}

function decimalOf(text: string): LineFormat['decimal'] {
  if (text.includes('.')) return 'point';
  return text.includes(',') ? 'comma' : 'none';
}

function valueOf(text: string): number {
  return Number(text.replace(/\s/g, '').replace('\u2212', '-').replace(',', '.'));
}

/** Units that stand before their number, as in `MM+000.450`. */
const BEFORE: readonly (readonly [RegExp, number])[] = [
  [/(?<![a-z])mm\s*$/i, 1],
  [/(?<![a-z])in(ch)?\s*$/i, MM_PER.thou * 1000],
];

/** Millimetres in one unit: as the line says; otherwise mm for a number with its mark, both counts for a whole one. */
function unitsOf(before: string, after: string, decimal: LineFormat['decimal']): number[] {
  const named =
    UNITS.find(([pattern]) => pattern.test(after)) ?? BEFORE.find(([pattern]) => pattern.test(before));
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
    return unitsOf(line.slice(0, match.index), after, decimal).map((mmPerUnit): LineReading => {
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
  if (!hasShape(line, shape)) return undefined;
  const text = numbersIn(line)[which]?.[0];
  if (text === undefined || decimalOf(text) !== decimal) return undefined;
  const mm = Number((valueOf(text) * mmPerUnit).toFixed(6));
  return Math.abs(mm) <= MAX_THICKNESS_MM ? mm : undefined;
}
