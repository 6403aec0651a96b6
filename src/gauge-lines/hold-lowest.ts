import { median } from 'd3-array';

/** A number from a gauge that sends all the time. */
export interface Sample {
  readonly mm: number;
  readonly atMs: number;
}

/** What has been held so far. */
export interface Held {
  /** Lowest value that stood still; absent while none has. */
  readonly lowestMm?: number;
  /** How many times the value came to a stand. */
  readonly stands: number;
}

/** How long, and how nearly, a value must stand still. */
export interface Stillness {
  readonly forMs: number;
  readonly withinMm: number;
}

/** Longer than a passing touch, shorter than a soft tip's creep. Common practice, no source. */
const USUAL: Stillness = { forMs: 300, withinMm: 0.004 };
const FEWEST_SAMPLES = 3;
/** More than a gauge sends in the longest stand worth looking at. */
const MOST_SAMPLES = 100;
/** Rounding in the last place of a double. */
const TINY_MM = 1e-9;

/**
 * Holds the lowest stable value while the reed is rocked on the tongue: a swing through a low point does not count,
 * only a value that stands still. A value is the middle one of the samples of its stand.
 *
 * @returns A function that takes the next sample, in the order of time, and gives what is held.
 */
export function holdLowest({ forMs, withinMm }: Stillness = USUAL): (sample: Sample) => Held {
  let stand: readonly Sample[] = [];
  let held: Held = { stands: 0 };
  let still = false;
  return (sample) => {
    stand = standEndingWith(stand, sample, withinMm);
    const wasStill = still;
    still = stand.length >= FEWEST_SAMPLES && sample.atMs - stand[0]!.atMs >= forMs && sample.mm > 0;
    if (still) {
      const value = median(stand, ({ mm }) => mm)!;
      held = {
        lowestMm: Math.min(held.lowestMm ?? Infinity, value),
        stands: held.stands + (wasStill ? 0 : 1),
      };
    }
    return held;
  };
}

/** The longest run of samples up to the last one that all lie within a range. */
function standEndingWith(before: readonly Sample[], last: Sample, withinMm: number): readonly Sample[] {
  const run = [...before, last];
  let [low, high, from] = [last.mm, last.mm, run.length - 1];
  for (let i = run.length - 2; i >= 0; i--) {
    low = Math.min(low, run[i]!.mm);
    high = Math.max(high, run[i]!.mm);
    if (high - low > withinMm + TINY_MM) break;
    from = i;
  }
  return run.slice(Math.max(from, run.length - MOST_SAMPLES));
}
