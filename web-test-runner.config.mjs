import { chromeLauncher } from '@web/test-runner-chrome';
import { defaultReporter } from '@web/test-runner';
import { build } from 'esbuild';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { relative, resolve } from 'node:path';
import { BROWSER_ARGS, findHeadless } from './scripts/find-browser.mjs';
import { RESULTS } from './scripts/test-results.mjs';

const TESTS = 'tests/browser/**/*.test.ts';
const WORKERS = [
  'src/answers/concurrent/fit-worker.ts',
  'src/incoming/worker.ts',
  'src/ledger/journal/worker.ts',
  'src/ledger/mirror/worker.ts',
];

/** No test passes or fails by the clock: this ends what hangs, as some planted faults do. */
const PATIENCE_MS = process.env.MUTANTS_RUN ? 30_000 : 120_000;
const PATIENT = resolve('tests/browser/patient-helpers.ts');
/** Tests wait for as long as a busy machine may need. */
const patience = {
  name: 'patience',
  setup({ onResolve }) {
    onResolve({ filter: /^@open-wc\/testing-helpers$/ }, ({ importer }) =>
      importer === PATIENT ? undefined : { path: PATIENT },
    );
  },
};

/** Sources with a fault, where one is planted (scripts/mutants/planted.mjs). */
const planted = {
  name: 'planted',
  setup({ onLoad }) {
    if (!process.env.MUTANTS_RUN) return;
    const { sources } = JSON.parse(readFileSync(process.env.MUTANTS_RUN, 'utf8'));
    onLoad({ filter: /\.ts$/ }, ({ path }) => {
      const contents = sources[relative('.', path)];
      return contents === undefined ? undefined : { contents, loader: 'ts' };
    });
  },
};

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
    define: { OPENINGS: process.env.OPENINGS ?? '20', PATIENCE_MS: String(PATIENCE_MS) },
    external: ['/__web-dev-server__*'],
    plugins: [patience, planted],
    logLevel: 'error',
  });
  return new Map(outputFiles.map(({ path, text }) => [`/${relative('.', path)}`, text]));
}
const files = await built();

const serveBuilt = {
  name: 'serve-built',
  serve({ path }) {
    // The package has this one beside the module that starts it.
    const body = files.get(path.endsWith('/fit-worker.js') ? '/src/answers/concurrent/fit-worker.ts' : path);
    return body === undefined ? undefined : { body, type: 'js' };
  },
};

const clients = new WeakMap();
/** One a page, for each sets its own features again whenever the page shows another test. */
async function clientOf(page) {
  if (!clients.has(page)) clients.set(page, await page.createCDPSession());
  return clients.get(page);
}

/** Sets any media feature, forced colours and contrast among them: `emulate-features`, a list of name and value. */
const emulateFeatures = {
  name: 'emulate-features',
  async executeCommand({ command, payload, session }) {
    if (command !== 'emulate-features') return;
    const client = await clientOf(session.browser.getPage(session.id));
    await client.send('Emulation.setEmulatedMedia', { features: payload });
    return true;
  },
};

/** The page as it is shown, as a PNG in base 64: `page-picture`. */
const pagePicture = {
  name: 'page-picture',
  async executeCommand({ command, session }) {
    if (command !== 'page-picture') return;
    return session.browser.getPage(session.id).screenshot({ encoding: 'base64' });
  },
};

/** Every test of a suite, with its name and those of the suites around it. */
const testsIn = ({ tests, suites }, above = []) => [
  ...tests.map(({ name, passed, skipped }) => ({
    fullName: [...above, name].join(' '),
    status: skipped ? 'skipped' : passed ? 'passed' : 'failed',
  })),
  ...suites.flatMap((inner) => testsIn(inner, [...above, inner.name])),
];

/** Writes the results that scripts/test.mjs adds up, in the form of Vitest's JSON. */
function resultsReporter() {
  return {
    stop({ sessions }) {
      const testResults = sessions.map(({ testFile, testResults: suite, passed, errors }) => ({
        name: testFile,
        status: passed ? 'passed' : 'failed',
        assertionResults: suite ? testsIn(suite) : [],
        message: errors[0]?.message ?? 'failed outside its tests',
      }));
      const numPassedTests = testResults
        .flatMap(({ assertionResults }) => assertionResults)
        .filter(({ status }) => status === 'passed').length;
      mkdirSync(RESULTS, { recursive: true });
      writeFileSync(`${RESULTS}/browser.json`, JSON.stringify({ numPassedTests, testResults }));
    },
  };
}

const LIT_DEV_NOTICE = 'Lit is in dev mode';

export default {
  files: TESTS,
  concurrency: 1,
  browserStartTimeout: 2 * PATIENCE_MS,
  testsFinishTimeout: 10 * PATIENCE_MS,
  testFramework: { config: { timeout: 4 * PATIENCE_MS } },
  browsers: [chromeLauncher({ launchOptions: { executablePath: findHeadless(), args: BROWSER_ARGS } })],
  plugins: [serveBuilt, emulateFeatures, pagePicture],
  filterBrowserLogs: ({ args }) =>
    !args.some((arg) => typeof arg === 'string' && arg.includes(LIT_DEV_NOTICE)),
  reporters: [defaultReporter(), resultsReporter()],
};
