// The one command that checks everything. Begins no step once one has failed, and closes with the number of tests
// that ran.
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { findBrowser } from './find-browser.mjs';

const RESULTS = 'node_modules/.cache/hundredths/results';
rmSync(RESULTS, { recursive: true, force: true });
mkdirSync(RESULTS, { recursive: true });

let browser;
try {
  browser = findBrowser();
} catch (error) {
  console.error(error.message);
  process.exit(1);
}

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
    ['build', ['vite', 'build', '--logLevel', 'warn']],
    ['size', ['node', 'scripts/size.mjs']],
    ['journeys', vitest('journeys')],
  ],
  [['browser', ['wtr']]],
];
const LEFT = [
  ['lint', ['eslint', '.', '--max-warnings', '0']],
  ['format', ['prettier', '--check', '--log-level', 'warn', '.']],
  ['unused code', ['knip']],
  ['unit and reference', vitest('unit', 'reference')],
];

function tally() {
  let passed = 0;
  let failed = 0;
  for (const name of ['unit', 'browser', 'journeys']) {
    const file = `${RESULTS}/${name}.json`;
    if (!existsSync(file)) continue;
    const { numPassedTests, numFailedTests } = JSON.parse(readFileSync(file, 'utf8'));
    passed += numPassedTests;
    failed += numFailedTests;
  }
  return { passed, failed };
}

const seconds = (since) => ((Date.now() - since) / 1000).toFixed(1);

/** Runs a step and prints what it said once it has ended, so that two lanes do not talk into each other. */
async function run([name, [command, ...args]]) {
  const started = Date.now();
  console.log(`... ${name}`);
  const program = command === 'node' ? process.execPath : `node_modules/.bin/${command}`;
  const child = spawn(program, args, { env: { ...process.env, CHROME_PATH: browser, FORCE_COLOR: '0' } });
  const said = [];
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (chunk) => said.push(chunk));
  const status = await new Promise((ended) => child.on('close', ended));
  console.log(`\n=== ${name}\n${Buffer.concat(said)}`);
  console.log(`=== ${name}: ${status === 0 ? 'fine' : 'FAILED'} after ${seconds(started)} s`);
  return status === 0;
}

const failedSteps = [];
async function follow(lane) {
  for (let step = lane.shift(); step && failedSteps.length === 0; step = lane.shift() ?? LEFT.shift()) {
    if (!(await run(step))) failedSteps.push(step[0]);
  }
}

const started = Date.now();
await Promise.all(LANES.map(follow));

const { passed, failed } = tally();
if (failedSteps.length > 0) console.error(`\nStopped at: ${failedSteps.join(', ')}`);
console.log(`\n${passed} passed, ${failed} failed, in ${seconds(started)} s`);
process.exit(failedSteps.length > 0 || failed > 0 || passed === 0 ? 1 : 0);
