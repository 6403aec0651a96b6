import { defineConfig } from 'vitest/config';

const failOnConsole = './tests/fail-on-console.ts';

export default defineConfig({
  test: {
    maxWorkers: 2,
    projects: [
      {
        test: {
          name: 'unit',
          include: ['tests/unit/**/*.test.ts'],
          setupFiles: [failOnConsole],
          testTimeout: 60_000,
          pool: 'threads',
          isolate: false,
        },
      },
      {
        test: {
          name: 'reference',
          include: ['tests/reference/**/*.test.ts'],
          setupFiles: [failOnConsole],
          testTimeout: 60_000,
          pool: 'threads',
          isolate: false,
        },
      },
      {
        test: {
          name: 'journeys',
          include: ['tests/journeys/**/*.test.ts'],
          fileParallelism: false,
          testTimeout: 90_000,
          hookTimeout: 90_000,
        },
      },
    ],
  },
});
