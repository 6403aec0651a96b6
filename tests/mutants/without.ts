import { readFileSync } from 'node:fs';
import { beforeEach } from 'vitest';

/** Simulations that take long and fix no value that a quicker test does not. */
const { without } = JSON.parse(readFileSync(process.env['MUTANTS_RUN'] ?? '', 'utf8')) as {
  without: string[];
};

beforeEach(({ task, skip }) => {
  if (without.some((words) => task.name.includes(words))) skip();
});
