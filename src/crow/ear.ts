import { PitchDetector } from 'pitchy';
import { amplitudeAt, hannWindow, peakNear, type Partial } from './partial.ts';

/** What one short stretch of sound holds. */
export interface Heard {
  /** Root mean square of the samples, dB under full scale. */
  readonly levelDb: number;
  /** The lowest note; absent where there is none. */
  readonly low?: Partial;
  /** Its octave; absent where it is not heard. */
  readonly octave?: Partial;
}

/** Under this level nothing is heard: a quiet room through a usual microphone. Common practice, no source. */
export const SILENCE_DB = -55;
const LEAST_CLARITY = 0.5;
/** Reeds crow between about B4 and E6, alone or an octave under; wider, so that a bad one is heard too. */
const LOWEST_HZ = 200;
const HIGHEST_HZ = 2500;
/** A note more than this under the other is not heard beside it. Common practice, no source. */
const FAINTEST_DB = -30;
/** A tone stands out when it is this many times as strong as what lies beside it. */
const OUT_OF_NOISE = 4;
/** Bins beyond the window's main lobe, on both sides, where only noise is. */
const BESIDE_BINS = [3, 4, 5, 6];

export const decibels = (ratio: number) => 20 * Math.log10(ratio);

/**
 * An ear for stretches of one length. The pitch comes from the McLeod pitch method; since that follows the stronger of
 * two octaves, the octave under it is looked for too, and both are then placed by the peak of their own spectrum.
 *
 * Source: McLeod & Wyvill 2005, A smarter way to find pitch (library pitchy); Goertzel 1958 for the peaks.
 *
 * @param length Samples of each stretch; 85 ms or more keep two octaves apart.
 */
export function makeEar(length: number, sampleRate: number): (samples: Float32Array) => Heard {
  const detector = PitchDetector.forFloat32Array(length);
  const window = hannWindow(length);
  const binHz = sampleRate / length;
  return (samples) => {
    const levelDb = decibels(Math.sqrt(samples.reduce((sum, one) => sum + one * one, 0) / length));
    if (!(levelDb > SILENCE_DB)) return { levelDb };
    const [hz, clarity] = detector.findPitch(samples, sampleRate);
    if (clarity < LEAST_CLARITY || hz < LOWEST_HZ || hz > HIGHEST_HZ) return { levelDb };
    const windowed = window.map((weight, i) => weight * samples[i]!);
    const near = (guess: number) => standingOut(windowed, sampleRate, guess, binHz);
    const found = near(hz);
    const under = hz / 2 >= LOWEST_HZ ? near(hz / 2) : undefined;
    const over = near(2 * hz);
    const isAudible = (one: Partial | undefined, other: Partial | undefined) =>
      one !== undefined && other !== undefined && decibels(one.amplitude / other.amplitude) > FAINTEST_DB;
    const [low, octave] = isAudible(under, found) ? [under, found] : [found, over];
    return {
      levelDb,
      ...(low && { low }),
      ...(low && octave && isAudible(octave, low) && { octave }),
    };
  };
}

/** The tone near a frequency, if it stands out of the noise beside it. */
function standingOut(
  windowed: Float64Array,
  sampleRate: number,
  guessHz: number,
  binHz: number,
): Partial | undefined {
  const peak = peakNear(windowed, sampleRate, guessHz, binHz);
  const beside = BESIDE_BINS.flatMap((bins) => [peak.hz - bins * binHz, peak.hz + bins * binHz]).map((hz) =>
    amplitudeAt(windowed, sampleRate, hz),
  );
  const noise = Math.hypot(...beside) / Math.sqrt(beside.length);
  return peak.amplitude > OUT_OF_NOISE * noise ? peak : undefined;
}
