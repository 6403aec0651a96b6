import { InputError } from '../../shared/errors.ts';
import type { Place } from '../../shared/blade.ts';
import type { GaugeCount } from './gauge-count.ts';
import { placeWords } from './place-words.ts';
import { readingText } from './reading-text.ts';
import { likeliestSlip, type Slip } from './slips.ts';

/** What the surface expects at a place. For judging a reading after it was taken; never shown before. */
export interface Expectation {
  readonly valueMm: number;
  /** Standard deviation of one new reading about it: the surface's doubt and the gauge's scatter, mm. */
  readonly sdMm: number;
  /** What was read there last time, mm. */
  readonly lastTimeMm?: number;
}

/** Why a reading is odd. */
export interface Oddness {
  readonly expectedFromMm: number;
  readonly expectedToMm: number;
  readonly lastTimeMm?: number;
  readonly slip?: Slip;
}

/** Beyond this many standard deviations a reading is odd: about one sound reading in four hundred. */
const ODD_SD = 3;
/** The range named to the maker holds 95 % of sound readings. */
const SHOWN_SD = 2;
/** Rounding in the last places of a double. */
const TINY = 1e-9;
/** No gauge at the desk is surer than this. Common practice, no source. */
const LEAST_SD_MM = 0.005;
/** Two readings of one place that agree within this confirm each other. Common practice, no source. */
const SAME_READING_MM = 0.02;

/** Judges a reading that has been taken; undefined when it is not odd. @throws InputError for a negative deviation */
export function oddness(
  thicknessMm: number,
  { valueMm, sdMm, lastTimeMm }: Expectation,
  count: GaugeCount,
): Oddness | undefined {
  if (!(sdMm >= 0)) throw new InputError(`sdMm: must be 0 or more, got ${sdMm}`);
  const sd = Math.max(sdMm, LEAST_SD_MM);
  const off = (mm: number) => Math.abs(mm - valueMm) / sd;
  if (off(thicknessMm) <= ODD_SD + TINY) return undefined;
  const slip = likeliestSlip(thicknessMm, count, (mm) => off(mm) <= SHOWN_SD + TINY);
  return {
    expectedFromMm: Math.max(0, valueMm - SHOWN_SD * sd),
    expectedToMm: valueMm + SHOWN_SD * sd,
    ...(lastTimeMm !== undefined && { lastTimeMm }),
    ...(slip && { slip }),
  };
}

/** A bound of a range in whole counts of the gauge. */
const bound = (mm: number, count: GaugeCount, round: (value: number) => number) => {
  const text = Number(readingText(mm, count));
  return String(round(text));
};

/**
 * `Odd for B, 10 mm, right: 40 to 45 was expected, 43 last time. It is kept. Read again, or go on.`
 */
export function oddSentence(place: Place, odd: Oddness, count: GaugeCount): string {
  const from = bound(odd.expectedFromMm, count, Math.floor);
  const to = bound(odd.expectedToMm, count, Math.ceil);
  const last = odd.lastTimeMm === undefined ? '' : `, ${readingText(odd.lastTimeMm, count)} last time`;
  const slip = odd.slip ? ` It may be ${readingText(odd.slip.thicknessMm, count)} ${odd.slip.how}.` : '';
  return `Odd for ${placeWords(place)}: ${from} to ${to} was expected${last}.${slip} It is kept. Read again, or go on.`;
}

/**
 * Whether a second reading of a place stands in for the first: the first was odd and the second does not agree with it.
 * Otherwise it is a repeat, and both count.
 */
export function standsIn(earlier: { thicknessMm: number; isOdd: boolean }, thicknessMm: number): boolean {
  return earlier.isOdd && Math.abs(earlier.thicknessMm - thicknessMm) > SAME_READING_MM + TINY;
}
