// Faults that nothing noticed once, each with the tests that do now: tests/mutants/planted.json.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { toolCommand } from '../programs.mjs';

const PLACE = '.mutants/planted';

/** @returns {{fault: string, file: string, from: string, to: string, test: string}[]} */
export const plantedFaults = () => JSON.parse(readFileSync('tests/mutants/planted.json', 'utf8'));

/**
 * A source with one fault in it.
 *
 * @throws where the place is not there, or there twice
 */
export function withFault({ file, from, to }) {
  const parts = readFileSync(file, 'utf8').split(from);
  if (parts.length !== 2) throw new Error(`${file} holds ${parts.length - 1} times: ${from}`);
  return parts.join(to);
}

/** Plants a fault and runs its tests. @returns {string | undefined} the test that noticed */
export function noticedBy(planted) {
  const { file, test } = planted;
  const isBrowser = test.startsWith('tests/browser/');
  const verdicts = `${PLACE}/verdicts.jsonl`;
  mkdirSync(PLACE, { recursive: true });
  writeFileSync(verdicts, '');
  const run = { sources: { [file]: withFault(planted) }, include: [test], fresh: true };
  writeFileSync(
    `${PLACE}/run.json`,
    JSON.stringify({ ...run, faults: [], verdicts, without: [], times: {} }),
  );
  const [program, ...args] = isBrowser
    ? toolCommand('wtr', ['--files', test])
    : toolCommand('vitest', ['run', '--config', 'tests/mutants/vitest.config.ts']);
  const env = { ...process.env, MUTANTS_RUN: `${PLACE}/run.json`, NO_COLOR: '1' };
  const { stdout } = spawnSync(program, args, { env, encoding: 'utf8' });
  const by = /[𐄂×❌] +(.*?)(?: \d+ms)?$/mu.exec(stdout)?.[1];
  rmSync(PLACE, { recursive: true });
  return by;
}
