import { waitUntil } from '@open-wc/testing-helpers';

/** Waits for a condition for as long as a busy machine may need. */
export const until = (condition: () => unknown) => waitUntil(() => Boolean(condition()), 'the condition');
