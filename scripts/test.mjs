// The one command that checks everything: what is cheap first. Begins no step once one has failed, and closes with the
// name of what failed and the number of tests that ran.
import { spawn } from 'node:child_process';
import { mkdirSync, rmSync } from 'node:fs';
import { ensurePackages } from './ensure.mjs';
import { ensureBrowsers } from './find-browser.mjs';
import { PlainError, runPlainly } from './plain-error.mjs';
import { toolCommand } from './programs.mjs';
import { readResults, RESULTS } from './test-results.mjs';

const vitest = (...projects) => [
  'vitest',
  'run',
  ...projects.flatMap((project) => ['--project', project]),
  '--reporter=default',
  '--reporter=json',
  `--outputFile=${RESULTS}/${projects[0]}.json`,
];

// Two lanes, for two cores; the steps of a lane follow each other. Whichever ends first goes on with what is left.
const LANES = [
  [
    ['types', ['tsc', '--noEmit']],
    ['build', ['vite', 'build', '--logLevel', 'error']],
    ['size', ['node', 'scripts/size.mjs']],
    ['package', ['node', 'scripts/package.mjs']],
    ['journeys', vitest('journeys')],
  ],
  [
    ['format', ['oxfmt', '--check']],
    ['lint', ['oxlint', '--type-aware', '--report-unused-disable-directives', '--deny-warnings']],
    ['unused code', ['knip']],
    ['browser', ['wtr']],
  ],
];
const LEFT = [
  ['unit and reference', vitest('unit', 'reference')],
  // On main itself nothing has changed, and it ends at once.
  ['faults planted in what has changed', ['node', 'scripts/mutants.mjs', '--changed', '--sample', '6']],
];

const seconds = (since) => ((Date.now() - since) / 1000).toFixed(1);

/** Fits make much that is given up at once: in a small young generation they take a fifteenth more work. */
const NODE_FLAGS = ['--min-semi-space-size=16', '--max-semi-space-size=64'];

function commandOf([name, ...args]) {
  const [node, ...rest] = name === 'node' ? [process.execPath, ...args] : toolCommand(name, args);
  return [node, ...NODE_FLAGS, ...rest];
}

/** Runs a step and prints what it said once it has ended, so that two lanes do not talk into each other. */
async function run([name, command], env) {
  const started = Date.now();
  console.log(`... ${name}`);
  const [program, ...args] = commandOf(command);
  const child = spawn(program, args, { env });
  const said = [];
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (chunk) => said.push(chunk));
  const status = await new Promise((ended) => child.on('close', ended));
  console.log(`\n=== ${name}\n${Buffer.concat(said)}`);
  console.log(`=== ${name}: ${status === 0 ? 'fine' : 'FAILED'} after ${seconds(started)} s`);
  return status === 0;
}

function mustHaveBrowsers() {
  try {
    ensureBrowsers();
  } catch (error) {
    throw new PlainError(error.message, { cause: error });
  }
}

await runPlainly(async () => {
  ensurePackages();
  mustHaveBrowsers();
  const env = { ...process.env, FORCE_COLOR: '0' };
  rmSync(RESULTS, { recursive: true, force: true });
  mkdirSync(RESULTS, { recursive: true });
  const failedSteps = [];
  const follow = async (lane) => {
    for (let step = lane.shift(); step && failedSteps.length === 0; step = lane.shift() ?? LEFT.shift()) {
      if (!(await run(step, env))) failedSteps.push(step[0]);
    }
  };
  const started = Date.now();
  await Promise.all(LANES.map(follow));

  const { passed, failures } = readResults();
  if (failedSteps.length > 0) console.log(`\nFailed: ${failedSteps.join(', ')}`);
  for (const failure of failures) console.log(`  ${failure}`);
  console.log(`\n${passed} passed, ${failures.length} failed, in ${seconds(started)} s`);
  return failedSteps.length > 0 || failures.length > 0 || passed === 0 ? 1 : 0;
});
