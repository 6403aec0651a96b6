import { CarrierError, type CarrierTrouble } from './carrier.ts';
import { isWaiting, type Waiting } from './progress.ts';
import type { SharingState } from './sharing.ts';

const TROUBLES: Readonly<Record<CarrierTrouble, string>> = {
  away: 'Nobody answers at this address.',
  busy: 'The server is busy, or has failed.',
  name: 'The name or the password is not right; the server does not tell which.',
  passphrase: 'The case is locked with another passphrase.',
  forbidden: 'The server knows this name, but does not let it into this case.',
  address: 'There is a server at this address, but no case of this name.',
  other: 'What answers at this address is no server of shared cases.',
  version: 'The server is too old: Apache CouchDB 3, or what speaks its protocol, is needed.',
  full: 'The server has no room left. Nothing is lost here: make room there, then go on.',
  conflict: 'The server contradicts itself. Nothing is lost here.',
  'too much': 'The server sends, or is sent, more at once than either takes.',
  hostile: 'The server does not send a case of reeds.',
};

/** What is wrong, in a plain sentence. */
export function troubleWords(error: unknown): string {
  if (!(error instanceof CarrierError)) return 'Something has failed here. Nothing is lost; share again.';
  const more = error.trouble === 'hostile' ? ` ${error.message}` : '';
  return `${TROUBLES[error.trouble]}${more}`;
}

/** How it looks from here that nobody has answered. */
export interface Reach {
  readonly hasNetwork: boolean;
  /** Something answers when it need not let this page read the answer. */
  readonly answers: boolean;
  /** Where this page comes from. */
  readonly origin: string;
}

/** Why nobody answers, as far as a browser tells a page. */
export function awayWords({ hasNetwork, answers, origin }: Reach): string {
  if (!hasNetwork) return 'This device has no network.';
  if (answers)
    return `A server answers at this address, but does not let this page read what it says: allow ${origin} in its cross-origin settings.`;
  return 'Nobody answers at this address. Is it right, is the server on, and does this browser trust its certificate? Open the address in a window of its own to see.';
}

const counted = (count: number, one: string) => (count === 1 ? `1 ${one} waits` : `${count} ${one}s wait`);

/** `3 readings wait, 12:04`, with the time since when; undefined when nothing waits. */
export function waitingWords(waiting: Waiting): string | undefined {
  if (!isWaiting(waiting)) return undefined;
  const { all, readings, ids, rounds, since } = waiting;
  const what = all
    ? 'All that is here waits to be compared'
    : readings > 0
      ? counted(readings, 'reading')
      : counted(ids.length || rounds.length, 'change');
  return since === undefined ? what : `${what}, ${since.slice(11, 16)}`;
}

const percent = (share: number) => `${Math.floor(100 * share)} %`;

/** How sharing stands, in a sentence. */
export function stateWords(state: SharingState): string {
  switch (state.is) {
    case 'starting':
      return 'The server is being asked.';
    case 'stopped':
      return 'Paused.';
    case 'copying':
      return state.way === 'down'
        ? `The case is coming here, ${percent(state.share)}.`
        : `What is here is going there, ${percent(state.share)}.`;
    case 'even':
      return `Both sides have the same, ${state.at.slice(11, 16)}.`;
    case 'away':
      return `${troubleWords(state.error)} It is tried again by itself.`;
    case 'trouble':
      return troubleWords(state.error);
  }
}
