import { afterEach, beforeEach, expect, vi } from 'vitest';

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
