const ZERO_C_IN_K = 273.15;
const CENTS_PER_OCTAVE = 1200;

/**
 * How far an air column moves in pitch from one temperature to another, cents; sharp is positive. A crow is mostly the
 * reed, and breath warms the bore, so a played instrument moves less.
 *
 * Source: the speed of sound in an ideal gas goes as the square root of its temperature.
 */
export function pitchDriftCents(fromC: number, toC: number): number {
  return (CENTS_PER_OCTAVE / 2) * Math.log2((toC + ZERO_C_IN_K) / (fromC + ZERO_C_IN_K));
}

/** Interval from one frequency up to another, cents. */
export function cents(fromHz: number, toHz: number): number {
  return CENTS_PER_OCTAVE * Math.log2(toHz / fromHz);
}

const STEPS: Readonly<Record<string, number>> = { C: -9, D: -7, E: -5, F: -4, G: -2, A: 0, B: 2 };
const NAMES = ['C', 'C#', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'] as const;

/**
 * Frequency of a tempered note such as `C5`, `F#4` or `Bb3` at a pitch standard; undefined when it names no note.
 *
 * Source: equal temperament; ISO 16:1975 sets the standard A at 440 Hz.
 */
export function noteHz(note: string, standardHz: number): number | undefined {
  const match = /^([A-G])(#|b)?(\d)$/.exec(note);
  if (!match) return undefined;
  const [, letter = '', accidental, octave] = match;
  const shift = accidental === '#' ? 1 : accidental === 'b' ? -1 : 0;
  return standardHz * 2 ** ((STEPS[letter]! + shift) / 12 + Number(octave) - 4);
}

/** The nearest tempered note to a frequency, and how far above it the frequency lies. */
export function nearestNote(hz: number, standardHz: number): { note: string; cents: number } {
  const semitones = 12 * Math.log2(hz / standardHz);
  const nearest = Math.round(semitones);
  const fromC0 = nearest + 57;
  const name = NAMES[((fromC0 % 12) + 12) % 12]!;
  return { note: `${name}${Math.floor(fromC0 / 12)}`, cents: 100 * (semitones - nearest) };
}
