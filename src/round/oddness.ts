import { InputError } from '../../shared/errors.ts';
import type { Place } from '../../shared/blade.ts';
import type { GaugeCount, RoundFormat } from './gauge-count.ts';
import { placeWords } from './place-words.ts';
import { MM_PER_COUNT, readingText } from './reading-text.ts';
import { likeliestSlip, type Slip } from './slips.ts';

/** What the surface expects at a place. For judging a reading after it was taken; never shown before. */
export interface Expectation {
  readonly valueMm: number;
  /** Standard deviation of one new reading about it: the surface's doubt and the gauge's scatter, mm. */
  readonly sdMm: number;
  /** What was read there last time, mm. */
  readonly lastTimeMm?: number;
  /** What tells it: earlier passes, what was read beside it in this one, or the maker's other reeds. */
  readonly by?: 'before' | 'beside' | 'reeds';
}

/** Why a reading is odd. */
export interface Oddness {
  readonly expectedFromMm: number;
  readonly expectedToMm: number;
  readonly lastTimeMm?: number;
  readonly by?: Expectation['by'];
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
  { valueMm, sdMm, lastTimeMm, by }: Expectation,
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
    ...(by && { by }),
    ...(slip && { slip }),
  };
}

/** A bound of a range in whole counts of the gauge. */
const bound = (mm: number, writing: RoundFormat, round: (value: number) => number) => {
  const per = MM_PER_COUNT[writing.count];
  return readingText(per * round(Number((mm / per).toFixed(2))), writing);
};

/** `40 to 45`: whole counts of the gauge about a range. */
export const rangeText = (fromMm: number, toMm: number, writing: RoundFormat) =>
  `${bound(Math.max(0, fromMm), writing, Math.floor)} to ${bound(toMm, writing, Math.ceil)}`;

/** `40 to 45 was expected, 43 last time`, `16 to 20 fits what stands beside it`. */
function expectedWords(
  { expectedFromMm, expectedToMm, lastTimeMm, by }: Oddness,
  writing: RoundFormat,
): string {
  const range = rangeText(expectedFromMm, expectedToMm, writing);
  if (by === 'beside') return `${range} fits what stands beside it`;
  if (by === 'reeds') return `${range} fits your other reeds`;
  return `${range} was expected${lastTimeMm === undefined ? '' : `, ${readingText(lastTimeMm, writing)} last time`}`;
}

/**
 * `Odd for B, 10 mm, right: 40 to 45 was expected, 43 last time. It is kept. Read again, or go on.`
 */
export function oddSentence(place: Place, odd: Oddness, writing: RoundFormat): string {
  const slip = odd.slip ? ` It may be ${readingText(odd.slip.thicknessMm, writing)} ${odd.slip.how}.` : '';
  return `Odd for ${placeWords(place, writing)}: ${expectedWords(odd, writing)}.${slip} It is kept. Read again, or go on.`;
}

/** `16 to 20 fits what stands beside it. Is it 16, with the key beside it struck?` */
export function oddQuestion(odd: Oddness, writing: RoundFormat): string {
  const { slip } = odd;
  const asked = slip ? `Is it ${readingText(slip.thicknessMm, writing)}, ${slip.how}?` : 'Is it as read?';
  return `Here ${expectedWords(odd, writing)}. ${asked}`;
}

/** `35 at B, 10 mm, right: 40 to 45 was expected.` */
export function oddAtEnd(place: Place, thicknessMm: number, odd: Oddness, writing: RoundFormat): string {
  return `${readingText(thicknessMm, writing)} at ${placeWords(place, writing)}: ${expectedWords(odd, writing)}.`;
}

/**
 * Whether a second reading of a place stands in for the first: the first was odd and the second does not agree with it.
 * Otherwise it is a repeat, and both count.
 */
export function standsIn(earlier: { thicknessMm: number; isOdd: boolean }, thicknessMm: number): boolean {
  return earlier.isOdd && Math.abs(earlier.thicknessMm - thicknessMm) > SAME_READING_MM + TINY;
}
