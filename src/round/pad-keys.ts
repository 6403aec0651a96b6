/** What a key means during a round. */
export type PadKey =
  | { readonly kind: 'digit'; readonly digit: string }
  | { readonly kind: 'mark' }
  | { readonly kind: 'enter' | 'rub-out' | 'back' | 'skip' | 'again' | 'unsure' | 'undo' | 'redo' };

/** The parts of a keyboard event that are looked at. */
export interface KeyPress {
  readonly key: string;
  readonly code: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly shiftKey: boolean;
}

const BY_KEY: Readonly<Record<string, PadKey>> = {
  Enter: { kind: 'enter' },
  // What foot switches and the keys for showing slides send.
  ' ': { kind: 'enter' },
  PageDown: { kind: 'enter' },
  PageUp: { kind: 'back' },
  Backspace: { kind: 'rub-out' },
  '.': { kind: 'mark' },
  ',': { kind: 'mark' },
  '-': { kind: 'back' },
  '\u2212': { kind: 'back' },
  '*': { kind: 'skip' },
  '+': { kind: 'again' },
  '/': { kind: 'unsure' },
};

/** Keys of the number pad, which keep their place whatever the layout or NumLock makes of them. */
const BY_CODE: Readonly<Record<string, PadKey>> = {
  NumpadEnter: { kind: 'enter' },
  NumpadDecimal: { kind: 'mark' },
  NumpadComma: { kind: 'mark' },
  NumpadSubtract: { kind: 'back' },
  NumpadMultiply: { kind: 'skip' },
  NumpadAdd: { kind: 'again' },
  NumpadDivide: { kind: 'unsure' },
};

function chord({ key, shiftKey }: KeyPress): PadKey | undefined {
  const letter = key.toLowerCase();
  if (letter === 'y' || (letter === 'z' && shiftKey)) return { kind: 'redo' };
  return letter === 'z' ? { kind: 'undo' } : undefined;
}

/** Reads a key press, the number pad with NumLock off included; undefined for keys that mean nothing here. */
export function padKey(press: KeyPress): PadKey | undefined {
  const { key, code, ctrlKey, metaKey, altKey } = press;
  if (ctrlKey || metaKey) return chord(press);
  if (altKey) return undefined;
  const pad = /^Numpad(\d)$/.exec(code);
  if (pad) return { kind: 'digit', digit: pad[1]! };
  if (/^\d$/.test(key)) return { kind: 'digit', digit: key };
  return BY_CODE[code] ?? BY_KEY[key];
}

/** Keys of a gauge that types follow each other within this; published limits lie between 30 and 100 ms. From memory. */
const BURST_GAP_MS = 40;
/** A sign, two digits, a mark and the end: what is shorter may be a quick hand. */
const FEWEST_KEYS = 5;

/** Whether keys were pressed by a gauge that types, and not by a hand. */
export function isBurst(timesMs: readonly number[]): boolean {
  return (
    timesMs.length >= FEWEST_KEYS && timesMs.every((at, i) => i === 0 || at - timesMs[i - 1]! <= BURST_GAP_MS)
  );
}
