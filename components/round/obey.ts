import type { PadCommand } from './pad-typing.ts';
import type { RoundDesk } from './round-desk.ts';

/** Does what a key says. */
export function obey(desk: RoundDesk, command: PadCommand): void {
  switch (command) {
    case 'back':
      return desk.back();
    case 'skip':
      return desk.skip('out of reach');
    case 'again':
      return desk.again();
    case 'unsure':
      return desk.toggleUnsure();
    case 'undo':
    case 'redo':
      return desk.step(command);
  }
}
