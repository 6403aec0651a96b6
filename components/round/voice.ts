/** What the bench says back, so that the maker need not look up. */
export interface Voice {
  /** A reading was kept. */
  taken(words: string): void;
  /** A reading was kept and is odd. */
  odd(words: string): void;
  /** The last station was read. */
  end(words: string): void;
}

interface Beep {
  readonly hertz: number;
  readonly atS: number;
  readonly forS: number;
}

/** Told apart by number and direction, not by pitch alone. */
const TONES: Readonly<Record<keyof Voice, readonly Beep[]>> = {
  taken: [{ hertz: 880, atS: 0, forS: 0.05 }],
  odd: [
    { hertz: 392, atS: 0, forS: 0.09 },
    { hertz: 294, atS: 0.13, forS: 0.14 },
  ],
  end: [
    { hertz: 523, atS: 0, forS: 0.09 },
    { hertz: 659, atS: 0.12, forS: 0.09 },
    { hertz: 784, atS: 0.24, forS: 0.18 },
  ],
};
const LOUDNESS = 0.12;
const RAMP_S = 0.008;

function playTone(context: AudioContext, beeps: readonly Beep[]): void {
  for (const { hertz, atS, forS } of beeps) {
    const start = context.currentTime + atS;
    const gain = new GainNode(context, { gain: 0 });
    gain.gain.setValueAtTime(0, start);
    gain.gain.linearRampToValueAtTime(LOUDNESS, start + RAMP_S);
    gain.gain.linearRampToValueAtTime(0, start + forS);
    const oscillator = new OscillatorNode(context, { frequency: hertz });
    oscillator.connect(gain).connect(context.destination);
    oscillator.start(start);
    oscillator.stop(start + forS);
  }
}

/** Says nothing. */
export const silence = (): Voice => ({ taken: () => undefined, odd: () => undefined, end: () => undefined });

/** Short tones: one for taken, two falling for odd, three rising for the end. */
export function tones(): Voice {
  let context: AudioContext | undefined;
  const play = (kind: keyof Voice) => {
    context ??= new AudioContext();
    playTone(context, TONES[kind]);
  };
  return { taken: () => play('taken'), odd: () => play('odd'), end: () => play('end') };
}

/** The part of the browser's speech that the bench uses. */
export type Speaking = Pick<SpeechSynthesis, 'getVoices' | 'cancel' | 'speak'>;

/** A voice of this machine: one that would send words elsewhere is never used. */
function localVoice(speaking: Speaking): SpeechSynthesisVoice | undefined {
  const voices = speaking.getVoices().filter(({ localService }) => localService);
  return voices.find(({ lang }) => lang.startsWith('en')) ?? voices[0];
}

/** Spoken words by a voice of this machine, or tones where there is none. */
export function speech(
  speaking: Speaking | undefined = 'speechSynthesis' in globalThis ? speechSynthesis : undefined,
  fallback: Voice = tones(),
): Voice {
  const say = (kind: keyof Voice, words: string) => {
    const voice = speaking && localVoice(speaking);
    if (!voice) return fallback[kind](words);
    const utterance = new SpeechSynthesisUtterance(words);
    utterance.voice = voice;
    if (kind !== 'end') speaking.cancel();
    speaking.speak(utterance);
    if (kind !== 'taken') fallback[kind](words);
  };
  return {
    taken: (words) => say('taken', words),
    odd: (words) => say('odd', words),
    end: (words) => say('end', words),
  };
}
