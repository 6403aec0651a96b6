// Puts small pieces of a second copy together, away from the page's own thread.
import '../../../shared/without-code-generation.ts';
import type { Id } from '../../../shared/ids.ts';
import { openBrowserMirror } from './mirror.ts';

/** What the page is told in the end; a trouble where pieces could not be put together. */
export type CompactResponse = { readonly done: true } | { readonly trouble: string };

const scope = self as unknown as {
  onmessage: (event: MessageEvent<Id>) => void;
  postMessage: (said: CompactResponse) => void;
};

scope.onmessage = async ({ data: deviceId }) => {
  try {
    await (await openBrowserMirror())?.compact(deviceId);
    scope.postMessage({ done: true });
  } catch (error) {
    scope.postMessage({ trouble: String(error) });
  }
};
