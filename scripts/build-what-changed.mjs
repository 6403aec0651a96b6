// Builds the page, where it is not already built from the sources as they are.
import { isUpToDate } from './built-from.mjs';
import { PlainError } from './plain-error.mjs';

export const BUILD = 'dist';

/** @throws {PlainError} when the page cannot be built */
export async function buildWhatChanged() {
  if (isUpToDate(BUILD)) return;
  console.log('Building the page ...');
  const { build } = await import('vite');
  try {
    await build({ logLevel: 'error' });
  } catch (error) {
    throw new PlainError(`The page could not be built: ${error.message.split('\n')[0]}`, { cause: error });
  }
}
