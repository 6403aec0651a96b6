import { StorageError } from '../ledger/errors.ts';
import { FORMAT_VERSION } from '../../shared/stamp.ts';

/** Where it happened, as far as that says nothing about the maker. */
export interface Surroundings {
  readonly browser: string;
  readonly windowPx: readonly [width: number, height: number];
  /** Name of the place, without the identifiers in its address. */
  readonly place: string;
}

const MOST_FRAMES = 12;
const FRAME =
  /^\s*(?:at\s+(?<v8>[\w$.<> ]*?)\s*\(?|(?<other>[\w$.<>/]*)@)\S*?(?<file>[\w.-]+\.[jt]s)\S*?:(?<line>\d+):(?<column>\d+)\)?$/;

/** The errors behind one another, by name alone: a message may hold what the maker wrote. */
function names(error: unknown): string {
  const chain: string[] = [];
  for (let at = error; at instanceof Error && chain.length < 10;) {
    chain.push(at instanceof StorageError ? `${at.name} (${at.trouble})` : at.name);
    at = 'inner' in at && at.inner ? at.inner : at.cause;
  }
  return chain.join(' < ') || typeof error;
}

/** Names of functions, files of the program, lines; no addresses, no messages. */
function frames(error: unknown): string[] {
  if (!(error instanceof Error) || !error.stack) return [];
  const stack = error.message ? error.stack.replaceAll(error.message, '') : error.stack;
  return stack.split('\n').flatMap((text) => {
    const found = FRAME.exec(text)?.groups;
    if (!found) return [];
    const { v8, other, file, line, column } = found;
    return [`  ${v8 || other || 'anonymous'} ${file}:${line}:${column}`];
  });
}

/** What helps to find a fault of the program, and nothing that the maker wrote, measured or is called. */
export function diagnosticText(error: unknown, { browser, windowPx, place }: Surroundings): string {
  return [
    `Hundredths, library format ${FORMAT_VERSION}`,
    `browser: ${browser}`,
    `window: ${windowPx.join(' x ')} px, place: ${place}`,
    `error: ${names(error)}`,
    ...frames(error).slice(0, MOST_FRAMES),
  ].join('\n');
}
