// Runs the tests of a folder with faults planted: all in one process, and each that only a fresh start can tell of in
// modules of its own (tests/mutants/planting-runner.ts).
import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';
import { toolCommand } from '../programs.mjs';

/** A fault that holds a test up for so long, beyond twenty times what it takes, is noticed: a slow minute is not enough. */
const PATIENCE_MS = 30_000;
const LOOK_MS = 500;

/**
 * @param {{sources: Record<string, string>, faults: string[]}} planted Sources with switches, and the faults in them.
 * @param {{tests: string[], without?: string[]}} folder
 * @returns {Promise<Map<string, 'noticed' | 'missed' | 'not run'>>} by fault
 * @throws where a test fails without a fault, or nothing comes of a run
 */
export async function tryFaults({ sources, faults }, { tests, without = [] }, name) {
  const place = `.mutants/${name}`;
  mkdirSync(place, { recursive: true });
  const found = new Map();
  const times = {};
  for (const fresh of [false, true]) {
    const isLeft = (fault) => (fresh ? found.get(fault) === 'fresh' : !found.has(fault));
    for (;;) {
      const left = faults.filter(isLeft);
      if (left.length === 0) break;
      const files = (fresh ? left : ['all']).map((fault) => `${place}/fault-${fault}.test.ts`);
      const globs = JSON.stringify(tests.map((pattern) => `/${pattern}`));
      for (const file of files) writeFileSync(file, `import.meta.glob(${globs}, { eager: true });\n`);
      const verdicts = `${place}/verdicts.jsonl`;
      const asked = { sources, include: files, fresh, faults: left, verdicts, without, times };
      const said = await runVitest(place, asked, (one) => {
        if (one.status) found.set(one.fault, one.status);
        Object.assign(times, one.times);
      });
      if (left.every(isLeft)) throw new Error(`nothing came of the tests of ${name}:\n${said}`);
    }
  }
  rmSync(place, { recursive: true });
  return found;
}

/** Vitest until it ends or hangs. @returns what it said */
async function runVitest(place, asked, take) {
  const file = `${place}/run.json`;
  writeFileSync(asked.verdicts, '');
  writeFileSync(file, JSON.stringify(asked));
  const config = ['--config', 'tests/mutants/vitest.config.ts'];
  const [program, ...args] = toolCommand('vitest', ['run', ...config]);
  const child = spawn(program, args, { env: { ...process.env, MUTANTS_RUN: file } });
  const said = [];
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (chunk) => said.push(chunk));
  let ended = false;
  const end = new Promise((resolve) => child.on('close', resolve)).then(() => (ended = true));
  while (!ended) {
    await Promise.race([end, wait(LOOK_MS)]);
    const hanging = hangingFault(asked.verdicts);
    if (hanging === undefined) continue;
    child.kill('SIGKILL');
    await end;
    take({ fault: hanging, status: 'noticed' });
  }
  readLines(asked.verdicts).forEach(take);
  return Buffer.concat(said).toString();
}

const readLines = (file) =>
  readFileSync(file, 'utf8')
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line));

function hangingFault(verdicts) {
  const last = readLines(verdicts).at(-1);
  const stillMs = Date.now() - statSync(verdicts).mtimeMs;
  const hangs = last?.began !== undefined && stillMs > PATIENCE_MS + 20 * last.ms;
  return hangs ? last.began : undefined;
}
