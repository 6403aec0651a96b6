import { esbuildPlugin } from '@web/dev-server-esbuild';
import { chromeLauncher } from '@web/test-runner-chrome';
import { defaultReporter } from '@web/test-runner';
import { build } from 'esbuild';
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { BROWSER_ARGS, findBrowser } from './scripts/find-browser.mjs';

// Packages that are no ES modules, or are hundreds of files, are bundled once and served as one file each.
const BUNDLED = [
  'papaparse',
  'ml-matrix',
  'dexie',
  'fflate',
  'zod',
  'd3-array',
  'd3-scale',
  'd3-shape',
  'pitchy',
];
const CACHE = 'node_modules/.cache/hundredths/browser';
await build({
  entryPoints: Object.fromEntries(BUNDLED.map((name) => [name, name])),
  outdir: CACHE,
  bundle: true,
  splitting: true,
  format: 'esm',
  logLevel: 'error',
});

const bundledPackages = {
  name: 'bundled-packages',
  resolveImport({ source }) {
    return BUNDLED.includes(source) ? `/${CACHE}/${source}.js` : undefined;
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
  files: 'tests/browser/**/*.test.ts',
  nodeResolve: { exportConditions: ['browser', 'development'] },
  concurrency: 1,
  browserStartTimeout: 60_000,
  testsFinishTimeout: 300_000,
  testFramework: { config: { timeout: 20_000 } },
  browsers: [chromeLauncher({ launchOptions: { executablePath: findBrowser(), args: BROWSER_ARGS } })],
  plugins: [
    bundledPackages,
    emulateFeatures,
    esbuildPlugin({
      ts: true,
      json: true,
      target: 'es2022',
      tsconfig: fileURLToPath(new URL('./tsconfig.json', import.meta.url)),
    }),
  ],
  filterBrowserLogs: ({ args }) =>
    !args.some((arg) => typeof arg === 'string' && arg.includes(LIT_DEV_NOTICE)),
  reporters: [defaultReporter(), tallyReporter()],
};
