import { defineConfig } from 'vitest/config';

const failOnConsole = './tests/fail-on-console.ts';

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'unit',
          include: ['tests/unit/**/*.test.ts'],
          setupFiles: [failOnConsole],
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'reference',
          include: ['tests/reference/**/*.test.ts'],
          setupFiles: [failOnConsole],
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'journeys',
          include: ['tests/journeys/**/*.test.ts'],
          fileParallelism: false,
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
