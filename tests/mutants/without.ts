import { beforeEach } from 'vitest';

/** Simulations that take long and fix no value that a quicker test does not. */
const without = JSON.parse(process.env['MUTANTS_WITHOUT'] ?? '[]') as string[];

beforeEach(({ task, skip }) => {
  if (without.some((words) => task.name.includes(words))) skip();
});
