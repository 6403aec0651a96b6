import { appendFileSync, readFileSync } from 'node:fs';
import { TestRunner, type RunnerTask, type RunnerTestCase, type RunnerTestFile } from 'vitest';

type Hits = Record<string, number>;

/** What a worker keeps. Source: vitest 4.1. */
interface TestRunnerWorker {
  evaluatedModules: { clear(): void };
}

/** How the switches in an instrumented source find their fault. Source: @stryker-mutator/instrumenter 9. */
interface Switches {
  activeMutant?: string | undefined;
  hitCount?: number | undefined;
  hitLimit?: number | undefined;
  mutantCoverage?: { static: Hits; perTest: Record<string, Hits> };
  currentTestId?: string | undefined;
}
const switches = ((globalThis as { __stryker__?: Switches }).__stryker__ ??= {});

const run = JSON.parse(readFileSync(process.env['MUTANTS_RUN'] ?? '', 'utf8')) as {
  faults: string[];
  fresh: boolean;
  verdicts: string;
  /** What each test took before, in ms. */
  times: Record<string, number>;
};

/** Passes through a place that a fault may cause, beside those without it, before it counts as endless. */
const ENDLESS = 100;

/** What a fresh run of all tests of a folder may take, about. */
const FRESH_MS = 20_000;

const say = (verdict: object) => appendFileSync(run.verdicts, `${JSON.stringify(verdict)}\n`);

const testsOf = (task: RunnerTask): RunnerTestCase[] =>
  task.type === 'test' ? [task] : task.tasks.flatMap(testsOf);

const timeOf = (task: RunnerTask): number =>
  testsOf(task).reduce((total, { name }) => total + (run.times[name] ?? 0), 0);

const sum = (all: Hits[], fault: string) => all.reduce((total, hits) => total + (hits[fault] ?? 0), 0);

/** One more run of a test, its hooks around it. @returns whether it passed. */
async function passes(test: RunnerTestCase): Promise<boolean> {
  const suites = [];
  for (let suite = test.suite ?? test.file; ; suite = suite.suite ?? test.file) {
    suites.unshift(suite);
    if (suite === test.file) break;
  }
  const hooks = suites.map((suite) => TestRunner.getSuiteHooks(suite));
  const context = test.context;
  let passed = true;
  try {
    for (const { beforeEach } of hooks) for (const hook of beforeEach) await hook(context, test.file);
    await TestRunner.getTestFn(test)();
  } catch {
    passed = false;
  }
  try {
    for (const { afterEach } of hooks.toReversed())
      for (const hook of afterEach.toReversed()) await hook(context, test.file);
  } catch {
    passed = false;
  }
  return passed;
}

interface Repeated {
  test: RunnerTestCase;
  hits: Hits;
  ms: number;
}

/** A fault is set, one test runs, the fault is taken out. */
async function notices({ test, hits }: Repeated, fault: string): Promise<boolean> {
  switches.hitLimit = ENDLESS * (hits[fault] ?? 1);
  switches.hitCount = 0;
  switches.activeMutant = fault;
  const passed = await passes(test);
  switches.activeMutant = undefined;
  return !passed;
}

/**
 * Runs tests with faults planted, in modules that are loaded once: every test as ever, which counts what it runs
 * through; each once more, which tells whether it can be repeated; then for each fault the tests that run through it,
 * the quick ones first, until one notices. What cannot be told so is left for a run of its own ('fresh'): a fault in
 * what was worked out once, while modules loaded or in a cache, and one after which a test fails without it.
 */
export default class PlantingRunner extends TestRunner {
  override onCollectStart(file: RunnerTestFile): void {
    if (run.fresh) {
      switches.activeMutant = /fault-(\d+)/.exec(file.filepath)?.[1];
      say({ began: switches.activeMutant, ms: FRESH_MS });
    }
    super.onCollectStart(file);
  }

  /** Fresh: no module stays from one fault to the next. */
  onBeforeCollect(): void {
    const { evaluatedModules } = Reflect.get(this, 'workerState') as TestRunnerWorker;
    if (run.fresh) evaluatedModules.clear();
  }

  /** The quick ones first, so that a fault is noticed soon. */
  onCollected(files: RunnerTestFile[]): void {
    for (const file of files) file.tasks.sort((a, b) => timeOf(a) - timeOf(b));
  }

  override onBeforeTryTask(test: RunnerTestCase): void {
    switches.currentTestId = test.id;
    super.onBeforeTryTask(test);
  }

  override onAfterRunTask(test: RunnerTestCase): void {
    switches.currentTestId = undefined;
    if (run.fresh && test.result?.state === 'fail') this.cancel('test-failure');
    super.onAfterRunTask(test);
  }

  override async onAfterRunFiles(files?: RunnerTestFile[]): Promise<void> {
    const [file] = files ?? [];
    if (file && run.fresh) {
      const noticed = file.result?.state !== 'pass';
      say({ fault: switches.activeMutant, status: noticed ? 'noticed' : 'missed' });
    } else if (file) await tryAll(testsOf(file));
    super.onAfterRunFiles();
  }
}

async function tryAll(tests: RunnerTestCase[]): Promise<void> {
  const { static: loading = {}, perTest = {} } = switches.mutantCoverage ?? {};
  const first = [loading, ...Object.values(perTest)].map((hits) => ({ ...hits }));
  const failed = tests.filter(({ result }) => result?.state === 'fail').map(({ name }) => name);
  if (failed.length > 0 || tests.length === 0) return say({ failed });
  const repeated = await repeat(tests);
  say({ times: Object.fromEntries(repeated.map(({ test, ms }) => [test.name, ms])) });
  const again = repeated.map(({ hits }) => hits);
  for (const fault of run.faults) {
    const through = repeated.filter(({ hits }) => hits[fault]);
    const status = await judge(fault, through);
    const once = status === 'missed' && sum(first, fault) !== sum(again, fault);
    say({ fault, status: once ? 'fresh' : sum(first, fault) === 0 ? 'not run' : status });
    if (status === 'fresh') return; // What the fault left behind would be blamed on the next.
  }
}

async function repeat(tests: RunnerTestCase[]): Promise<Repeated[]> {
  const repeated: Repeated[] = [];
  for (const test of tests.filter(({ result }) => result?.state === 'pass')) {
    switches.currentTestId = `again ${test.id}`;
    const began = performance.now();
    const passed = await passes(test);
    const hits = { ...switches.mutantCoverage?.perTest[switches.currentTestId] };
    if (passed) repeated.push({ test, hits, ms: performance.now() - began });
  }
  switches.currentTestId = 'with a fault';
  return repeated.sort((a, b) => a.ms - b.ms);
}

async function judge(fault: string, through: Repeated[]): Promise<string> {
  for (const one of through) {
    say({ began: fault, ms: one.ms });
    if (!(await notices(one, fault))) continue;
    return (await passes(one.test)) ? 'noticed' : 'fresh';
  }
  return 'missed';
}
