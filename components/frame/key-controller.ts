import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { isLetterCommand, matchKeys, pressedKey, type Command } from './commands.ts';

/** After this long a begun sequence of keys is forgotten, ms. */
const SEQUENCE_MS = 1500;
const FIELDS = 'input, textarea, select, [contenteditable="true"]';
/** A field in which nothing is being typed says so: Ctrl and a letter then mean the page, not the field. */
const isBusy = (field: Element, { ctrlKey, metaKey }: KeyboardEvent) =>
  field.matches(FIELDS) && !(field.matches('[data-settled]') && (ctrlKey || metaKey));

/** Runs the commands of a table when their keys are pressed outside a field. */
export class KeyController implements ReactiveController {
  private readonly commands: () => readonly Command[];
  private readonly letters: () => boolean;
  private pressed: string[] = [];
  private last = 0;
  private listening: AbortController | undefined;

  /** @param letters Whether commands without Ctrl are switched on. */
  constructor(host: ReactiveControllerHost, commands: () => readonly Command[], letters: () => boolean) {
    this.commands = commands;
    this.letters = letters;
    host.addController(this);
  }

  hostConnected(): void {
    this.listening = new AbortController();
    addEventListener('keydown', (event) => this.handleKey(event), { signal: this.listening.signal });
  }

  hostDisconnected(): void {
    this.listening?.abort();
  }

  private handleKey(event: KeyboardEvent): void {
    const [target] = event.composedPath();
    const inField = target instanceof Element && isBusy(target, event);
    const key = pressedKey(event);
    if (event.defaultPrevented || event.isComposing || inField || key === undefined || key === 'Shift')
      return;
    const allowed = this.commands().filter((command) => this.letters() || !isLetterCommand(command));
    const earlier = event.timeStamp - this.last < SEQUENCE_MS ? this.pressed : [];
    const found = matchKeys(allowed, [...earlier, key]) ?? matchKeys(allowed, [key]);
    this.last = event.timeStamp;
    this.pressed = found === 'begun' ? [...earlier, key] : [];
    if (found === undefined) return;
    event.preventDefault();
    if (found !== 'begun') found.run();
  }
}
