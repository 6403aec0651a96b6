import { defineConfig } from 'vitest/config';

/** The tests of one folder, as scripts/mutants.mjs names them. */
export default defineConfig({
  root: process.cwd(),
  test: {
    include: JSON.parse(process.env['MUTANTS_TESTS'] ?? '[]') as string[],
    setupFiles: ['tests/fail-on-console.ts', 'tests/mutants/without.ts'],
    testTimeout: 60_000,
    pool: 'threads',
    isolate: false,
  },
});
