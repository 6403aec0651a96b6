import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { defineConfig } from 'vitest/config';

/** What scripts/mutants/try-faults.mjs asks of one run. */
const { sources, include } = JSON.parse(readFileSync(process.env['MUTANTS_RUN'] ?? '', 'utf8')) as {
  sources: Record<string, string>;
  include: string[];
};

export default defineConfig({
  root: process.cwd(),
  plugins: [
    {
      name: 'sources with switches for faults',
      enforce: 'pre',
      load: (id) => Object.entries(sources).find(([file]) => resolve(file) === id.split('?')[0])?.[1],
    },
  ],
  test: {
    include,
    runner: 'tests/mutants/planting-runner.ts',
    setupFiles: ['tests/fail-on-console.ts', 'tests/mutants/without.ts'],
    testTimeout: 60_000,
    pool: 'threads',
    maxWorkers: 1,
    isolate: false,
  },
});
