// Builds the page, where it is not already built from the sources as they are.
import { stripVTControlCharacters } from 'node:util';
import { isUpToDate } from './built-from.mjs';
import { PlainError } from './plain-error.mjs';

export const BUILD = 'dist';

/** What is wrong with the sources, and where, in one line: the bundler draws it over several. */
function inOneLine({ message, errors: [first = { message }] = [] }) {
  const text = stripVTControlCharacters(first.message);
  const [what] = text.replace(/^\[\S+\] /, '').split('\n');
  const [where] = /\S+:\d+:\d+/.exec(text) ?? [];
  return `${what.replace(/\.$/, '')}${where ? ` (${where})` : ''}.`;
}

/** @throws {PlainError} when the page cannot be built */
export async function buildWhatChanged() {
  if (isUpToDate(BUILD)) return;
  console.log('Building the page ...');
  try {
    const { build } = await import('vite');
    await build({ logLevel: 'silent' });
  } catch (error) {
    throw new PlainError(`The page could not be built: ${inOneLine(error)}`, { cause: error });
  }
}
