// The runner gives this to whoever asks for '@open-wc/testing-helpers': the same, with the patience that a busy machine
// needs. A test that fails waits longer; none passes or fails by the clock.
import { waitUntil as waitShortly } from '@open-wc/testing-helpers';

export * from '@open-wc/testing-helpers';

declare const PATIENCE_MS: number;

export const waitUntil: typeof waitShortly = (condition, message, options) =>
  waitShortly(condition, message, { timeout: PATIENCE_MS, ...options });
