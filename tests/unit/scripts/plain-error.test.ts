import { spawnSync } from 'node:child_process';
import { pathToFileURL } from 'node:url';
import { expect, it } from 'vitest';

const MODULE = pathToFileURL('scripts/plain-error.mjs').href;

it('ends a command with the status that it returned or set, and with 1 and one sentence where it cannot be done', () => {
  const ended = (command: string) => {
    const source = `import { PlainError, runPlainly } from '${MODULE}'; await runPlainly(async () => { ${command} });`;
    const { status, stderr } = spawnSync(process.execPath, ['--input-type=module', '-e', source], {
      encoding: 'utf8',
    });
    return [status, stderr];
  };
  expect(ended('')).toEqual([0, '']);
  expect(ended('return 3;')).toEqual([3, '']);
  // A measurement past its limit is found while the rest is still measured.
  expect(ended('process.exitCode = 1;')).toEqual([1, '']);
  expect(ended("throw new PlainError('No room.');")).toEqual([1, 'No room.\n']);
});
