/** One tone inside a sound: where it is and how strong, as the amplitude of a sine. */
export interface Partial {
  readonly hz: number;
  readonly amplitude: number;
}

/** Hann window: its main lobe is four bins wide, and what leaks from further away is under -31 dB and falls fast. */
export function hannWindow(length: number): Float64Array {
  return Float64Array.from({ length }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / length));
}

/**
 * Amplitude of the sine at one frequency in windowed samples, by Goertzel's recurrence.
 *
 * Source: Goertzel 1958, from memory; the Hann window's mean of one half makes it an amplitude.
 *
 * @param windowed Samples times the window.
 */
export function amplitudeAt(windowed: Float64Array, sampleRate: number, hz: number): number {
  const angle = (2 * Math.PI * hz) / sampleRate;
  const twiceCos = 2 * Math.cos(angle);
  let [last, before] = [0, 0];
  for (const sample of windowed) {
    const now = sample + twiceCos * last - before;
    before = last;
    last = now;
  }
  const power = last * last + before * before - twiceCos * last * before;
  return (4 * Math.sqrt(Math.max(0, power))) / windowed.length;
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** Narrower than this the peak of a steady tone is known better than any player holds it. */
const CLOSE_ENOUGH_HZ = 0.02;

/** The strongest frequency near a guess, by golden section on a spectrum with one peak there. */
export function peakNear(
  windowed: Float64Array,
  sampleRate: number,
  guessHz: number,
  withinHz: number,
): Partial {
  let [low, high] = [guessHz - withinHz, guessHz + withinHz];
  let [left, right] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
  let [atLeft, atRight] = [amplitudeAt(windowed, sampleRate, left), amplitudeAt(windowed, sampleRate, right)];
  while (high - low > CLOSE_ENOUGH_HZ) {
    if (atLeft > atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - GOLDEN * (high - low);
      atLeft = amplitudeAt(windowed, sampleRate, left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + GOLDEN * (high - low);
      atRight = amplitudeAt(windowed, sampleRate, right);
    }
  }
  const hz = (low + high) / 2;
  return { hz, amplitude: amplitudeAt(windowed, sampleRate, hz) };
}
