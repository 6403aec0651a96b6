import { defineConfig } from 'vitest/config';

const failOnConsole = './tests/fail-on-console.ts';

/** No test passes or fails by the clock: these only end what hangs, on a machine that is busy with other things. */
const PATIENCE_MS = 120_000;
const TEST_MS = 600_000;

export default defineConfig({
  test: {
    maxWorkers: 2,
    projects: [
      {
        test: {
          name: 'unit',
          include: ['tests/unit/**/*.test.ts'],
          setupFiles: [failOnConsole],
          testTimeout: TEST_MS,
          hookTimeout: TEST_MS,
          pool: 'threads',
          isolate: false,
        },
      },
      {
        test: {
          name: 'reference',
          include: ['tests/reference/**/*.test.ts'],
          setupFiles: [failOnConsole],
          testTimeout: TEST_MS,
          hookTimeout: TEST_MS,
          pool: 'threads',
          isolate: false,
        },
      },
      {
        test: {
          name: 'journeys',
          // One browser for all journeys of a process.
          isolate: false,
          include: ['tests/journeys/**/*.test.ts'],
          testTimeout: TEST_MS,
          hookTimeout: TEST_MS,
          expect: { poll: { timeout: PATIENCE_MS } },
        },
      },
    ],
  },
});
