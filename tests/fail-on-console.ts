import fc from 'fast-check';
import { afterEach, beforeEach, expect, vi } from 'vitest';

// Every run draws the same cases, so that a failure repeats.
fc.configureGlobal({ seed: 20_260_301 });

// A warning nobody reads is a defect nobody sees: any console output fails the test that caused it.
beforeEach(() => {
  for (const method of ['log', 'info', 'warn', 'error'] as const) vi.spyOn(console, method);
});

afterEach(() => {
  for (const method of ['log', 'info', 'warn', 'error'] as const) {
    expect(vi.mocked(console[method]).mock.calls, `console.${method}`).toEqual([]);
  }
  vi.restoreAllMocks();
});
