import { isBurst, padKey, type PadKey } from '../../src/round/pad-keys.ts';

/** A key or pedal held this long means back one. */
const HOLD_MS = 700;
/** An Enter, or the key that takes, this soon after a reading went on by itself is a habit of the hand. Common practice, no source. */
const HABIT_MS = 600;
const NO_MODIFIERS = { ctrlKey: false, metaKey: false, altKey: false, shiftKey: false };

export type PadCommand = Exclude<PadKey['kind'], 'digit' | 'mark' | 'rub-out' | 'enter'>;

/** What typing leads to. */
export interface TypingHooks {
  /** Enter, or a gauge's Tab: the text typed so far is to be taken. */
  enter(atMs: number): void;
  command(command: PadCommand): void;
  /** A sign key was the beginning of a number after all. */
  unsign(): void;
  /** The text changed. */
  changed(): void;
  /** Whether a text is taken without Enter. */
  goesOn(text: string): boolean;
}

const isTyping = (key: PadKey | undefined) => key?.kind === 'digit' || key?.kind === 'mark';

/** The text being typed into a round: from keys, number pads without NumLock, gauges that type, and screen keyboards. */
export class PadTyping {
  private readonly hooks: TypingHooks;
  /** When the keys of the number being typed were pressed, a sign before it included. */
  private keyTimesMs: readonly number[] = [];
  private isSigned = false;
  private heldSinceMs: number | undefined;
  private wentOnMs = -Infinity;
  text = '';

  constructor(hooks: TypingHooks) {
    this.hooks = hooks;
  }

  clear(): void {
    this.text = '';
    this.keyTimesMs = [];
    this.hooks.changed();
  }

  handleKeyDown(event: KeyboardEvent): void {
    if (event.isComposing) return;
    const { timeStamp } = event;
    if (event.key === 'Tab' && isBurst([...this.keyTimesMs, timeStamp])) {
      event.preventDefault();
      return this.enter(timeStamp);
    }
    const key = padKey(event);
    if (!key || (key.kind === 'rub-out' && this.text !== '')) return;
    event.preventDefault();
    event.stopPropagation();
    if (event.repeat) return this.hold(key.kind, timeStamp);
    this.heldSinceMs = timeStamp;
    this.press(key, timeStamp);
  }

  /** A key of the round's own, on the screen. */
  tap(key: PadKey): void {
    this.press(key, performance.now());
  }

  /** The key of a question was tapped: it says what it answers, and no habit of the hand leads there. */
  answer(): void {
    this.wentOnMs = -Infinity;
    this.enter(performance.now());
  }

  /** Screen keyboards and pasted text come as input, not as keys. */
  handleInput(text: string): void {
    const command = [...text]
      .map((key) => padKey({ ...NO_MODIFIERS, key, code: '' }))
      .find((key) => !isTyping(key));
    this.text = text.replace(/[^\d.,]/g, '');
    this.hooks.changed();
    if (command) this.press(command, performance.now());
    else if (this.hooks.goesOn(this.text)) this.enter(performance.now());
  }

  private press(key: PadKey, atMs: number): void {
    switch (key.kind) {
      case 'digit':
        return this.add(key.digit, atMs);
      case 'mark':
        return this.add('.', atMs);
      case 'enter':
        return this.enter(atMs);
      case 'rub-out':
        return this.rubOut();
      case 'back':
        if (this.text !== '') return this.clear();
        break;
      default:
        break;
    }
    this.isSigned = key.kind === 'again' || key.kind === 'back';
    this.keyTimesMs = this.isSigned ? [atMs] : [];
    this.hooks.command(key.kind);
  }

  /** Takes away the last digit; with none, goes back one. */
  private rubOut(): void {
    if (this.text === '') return this.hooks.command('back');
    this.text = this.text.slice(0, -1);
    this.hooks.changed();
  }

  /** A gauge types its sign, digits and end in one go: then the sign was no command. */
  private enter(atMs: number): void {
    if (this.text === '' && atMs - this.wentOnMs < HABIT_MS) return;
    if (this.isSigned && isBurst([...this.keyTimesMs, atMs])) this.hooks.unsign();
    this.isSigned = false;
    this.keyTimesMs = [];
    this.hooks.enter(atMs);
  }

  private add(character: string, atMs: number): void {
    this.keyTimesMs = [...this.keyTimesMs, atMs];
    this.text += character;
    this.hooks.changed();
    if (!this.hooks.goesOn(this.text)) return;
    this.enter(atMs);
    this.wentOnMs = atMs;
  }

  private hold(kind: PadKey['kind'], atMs: number): void {
    if (kind !== 'enter' || this.heldSinceMs === undefined || atMs - this.heldSinceMs < HOLD_MS) return;
    this.heldSinceMs = undefined;
    this.hooks.command('back');
  }
}
