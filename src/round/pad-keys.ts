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

/** Signs nearer than this to the digit after them come from a gauge that types, not from a hand. From memory: published
 * limits for telling devices from typists lie between 30 and 100 ms a key. */
const BURST_GAP_MS = 40;

/** Whether a sign key was the beginning of a number that a gauge typed, and no command. */
export function isSignOfBurst(signAtMs: number, digitAtMs: number): boolean {
  return digitAtMs - signAtMs <= BURST_GAP_MS;
}
