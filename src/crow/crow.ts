import { cents } from '../climate/pitch.ts';
import { fitStraightLine } from '../gauge/straight-line.ts';
import { decibels, SILENCE_DB, type Heard } from './ear.ts';
import type { Partial } from './partial.ts';

/** A crow as it was heard over a few seconds; each figure with its standard uncertainty. */
export interface Crow {
  readonly kind: 'crow';
  readonly hz: number;
  /** Of the lowest note, cents. */
  readonly uCents: number;
  /** How far the note wandered about its drift, one standard deviation in cents. */
  readonly wanderCents: number;
  readonly driftCentsPerS: { readonly value: number; readonly u: number };
  /** Level of the octave less that of the lowest note; absent where the octave was seldom heard. */
  readonly octaveBalanceDb?: { readonly value: number; readonly u: number };
  /** Frequency of the octave over twice that of the lowest note, cents; absent with it. */
  readonly octaveOffCents?: number;
  /** Seconds in which the note sounded. */
  readonly seconds: number;
}

/** Nothing loud enough was heard, or nothing with one note. */
export type NoCrow = { readonly kind: 'silence' } | { readonly kind: 'noise' };

/** A crow needs this many stretches; with fewer, or with a smaller share of the loud ones, it was noise. */
const FEWEST = 8;
const LEAST_SHARE = 0.4;
/** Stretches further than this from the middle note are slips of the ear. */
const MOST_OFF_CENTS = 150;
/** The clock of a sound card: 100 parts in a million. Common practice, no source. */
const CLOCK_CENTS = 0.17;

const median = (values: readonly number[]) => {
  const sorted = [...values].sort((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
};
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const sd = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, value) => sum + (value - mean(values)) ** 2, 0) / (values.length - 1));

/**
 * Puts the stretches of a few seconds together: the note at their middle, how it drifted and wandered, and the balance
 * of its octave.
 *
 * @param heard One stretch after another.
 * @param stepS Seconds from the beginning of one to the beginning of the next.
 * @param lengthS Seconds of each: stretches that overlap tell less than their number.
 */
export function crowFrom(heard: readonly Heard[], stepS: number, lengthS: number): Crow | NoCrow {
  const loud = heard.filter(({ levelDb }) => levelDb > SILENCE_DB);
  if (loud.length < FEWEST) return { kind: 'silence' };
  const notes = heard.flatMap(({ low, octave }, i) => (low ? [{ atS: i * stepS, low, octave }] : []));
  if (notes.length < FEWEST || notes.length < LEAST_SHARE * loud.length) return { kind: 'noise' };
  const middleHz = median(notes.map(({ low }) => low.hz));
  const near = notes.filter(({ low }) => Math.abs(cents(middleHz, low.hz)) <= MOST_OFF_CENTS);
  if (near.length < LEAST_SHARE * loud.length || near.length < FEWEST) return { kind: 'noise' };
  const off = near.map(({ low }) => cents(middleHz, low.hz));
  const times = near.map(({ atS }) => atS);
  const line = fitStraightLine(times, off);
  const left = off.map((value, i) => value - line.intercept - line.slope * times[i]!);
  // Overlapping stretches: as many independent ones as fit side by side.
  const independent = Math.max(1, Math.min(near.length, (near.length * stepS) / Math.max(stepS, lengthS)));
  const thinned = Math.sqrt(near.length / independent);
  const wanderCents = sd(left);
  return {
    kind: 'crow',
    hz: middleHz * 2 ** (mean(off) / 1200),
    uCents: Math.hypot(wanderCents / Math.sqrt(independent), CLOCK_CENTS),
    wanderCents,
    driftCentsPerS: { value: line.slope, u: line.uSlope * thinned },
    ...octaveOf(near, independent),
    seconds: near.length * stepS,
  };
}

function octaveOf(
  notes: readonly { readonly low: Partial; readonly octave: Partial | undefined }[],
  independent: number,
): Pick<Crow, 'octaveBalanceDb' | 'octaveOffCents'> {
  const both = notes.flatMap(({ low, octave }) => (octave ? [{ low, octave }] : []));
  if (both.length < LEAST_SHARE * notes.length || both.length < 2) return {};
  const balances = both.map(({ low, octave }) => decibels(octave.amplitude / low.amplitude));
  const share = both.length / notes.length;
  return {
    octaveBalanceDb: { value: mean(balances), u: sd(balances) / Math.sqrt(Math.max(1, independent * share)) },
    octaveOffCents: mean(both.map(({ low, octave }) => cents(2 * low.hz, octave.hz))),
  };
}
