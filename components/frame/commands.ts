/** Something that a key does, wherever the page is. One table drives the keys and their list. */
export interface Command {
  /** The keys as they are pressed one after the other; each is a `KeyboardEvent.key`, `Ctrl+` before it where held. */
  readonly keys: readonly string[];
  readonly words: string;
  readonly run: () => void;
}

/** Whether a command is one or more single letters or signs, which a maker may switch off. */
export const isLetterCommand = ({ keys }: Command) => keys.every((key) => !key.startsWith('Ctrl+'));

/** The name of a pressed key, with Ctrl (or Cmd) where held; undefined where Alt is held. */
export function pressedKey(
  event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey' | 'shiftKey'>,
) {
  if (event.altKey) return undefined;
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
  const shift = event.shiftKey && (event.ctrlKey || event.metaKey) ? 'Shift+' : '';
  return event.ctrlKey || event.metaKey ? `Ctrl+${shift}${key}` : event.key;
}

/** What the keys pressed so far come to: a command, the beginning of one, or nothing. */
export function matchKeys(
  commands: readonly Command[],
  pressed: readonly string[],
): Command | 'begun' | undefined {
  const begins = ({ keys }: Command) => pressed.every((key, i) => keys[i] === key);
  const whole = commands.find((command) => begins(command) && command.keys.length === pressed.length);
  return whole ?? (commands.some(begins) ? 'begun' : undefined);
}
