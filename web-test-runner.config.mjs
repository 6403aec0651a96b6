import { chromeLauncher } from '@web/test-runner-chrome';
import { defaultReporter } from '@web/test-runner';
import { build } from 'esbuild';
import { mkdirSync, writeFileSync } from 'node:fs';
import { relative } from 'node:path';
import { BROWSER_ARGS, findBrowser } from './scripts/find-browser.mjs';

const TESTS = 'tests/browser/**/*.test.ts';
const WORKERS = ['src/answers/apart/fit-worker.ts', 'src/incoming/worker.ts', 'src/ledger/journal/worker.ts'];

/** Every test and worker as one file, under its own path, with what they share built once. */
async function built() {
  const { outputFiles } = await build({
    entryPoints: [TESTS, ...WORKERS],
    outdir: '.',
    outbase: '.',
    outExtension: { '.js': '.ts' },
    chunkNames: 'chunks/[hash]',
    bundle: true,
    splitting: true,
    write: false,
    format: 'esm',
    target: 'es2022',
    conditions: ['browser', 'development'],
    external: ['/__web-dev-server__*'],
    logLevel: 'error',
  });
  return new Map(outputFiles.map(({ path, text }) => [`/${relative('.', path)}`, text]));
}
const files = await built();

const serveBuilt = {
  name: 'serve-built',
  serve({ path }) {
    const body = files.get(path);
    return body === undefined ? undefined : { body, type: 'js' };
  },
};

/** Sets any media feature, forced colours and contrast among them: `emulate-features`, a list of name and value. */
const emulateFeatures = {
  name: 'emulate-features',
  async executeCommand({ command, payload, session }) {
    if (command !== 'emulate-features') return;
    const client = await session.browser.getPage(session.id).createCDPSession();
    await client.send('Emulation.setEmulatedMedia', { features: payload });
    return true;
  },
};

/** Writes the tally that scripts/test.mjs adds up. */
function tallyReporter() {
  const count = (suite, passed) =>
    suite.tests.filter((test) => test.passed === passed && !test.skipped).length +
    suite.suites.reduce((total, inner) => total + count(inner, passed), 0);
  return {
    stop({ sessions }) {
      const suites = sessions.flatMap(({ testResults }) => (testResults ? [testResults] : []));
      const sum = (passed) => suites.reduce((total, suite) => total + count(suite, passed), 0);
      const folder = 'node_modules/.cache/hundredths/results';
      mkdirSync(folder, { recursive: true });
      writeFileSync(
        `${folder}/browser.json`,
        JSON.stringify({ numPassedTests: sum(true), numFailedTests: sum(false) }),
      );
    },
  };
}

const LIT_DEV_NOTICE = 'Lit is in dev mode';

export default {
  files: TESTS,
  concurrency: 1,
  browserStartTimeout: 60_000,
  testsFinishTimeout: 300_000,
  testFramework: { config: { timeout: 60_000 } },
  browsers: [chromeLauncher({ launchOptions: { executablePath: findBrowser(), args: BROWSER_ARGS } })],
  plugins: [serveBuilt, emulateFeatures],
  filterBrowserLogs: ({ args }) =>
    !args.some((arg) => typeof arg === 'string' && arg.includes(LIT_DEV_NOTICE)),
  reporters: [defaultReporter(), tallyReporter()],
};
