import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { BLADES } from '../../shared/blade.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { benchReed } from '../../src/answers/fitted-reed.ts';
import { liveFigures, liveReed, withOneMore } from '../../src/answers/live-reed.ts';
import { findFaults } from '../../src/faults/find-faults.ts';
import { reportReed } from '../../src/report/reed-report.ts';
import { seededRandom } from '../seeded-random.ts';
import { pacedMs, pacedTimes } from './clock.ts';

const ROWS_MM = [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20];
const ACROSS = [-0.8, -0.4, 0, 0.4, 0.8];
const reed = { label: 'many passes, invented', styleId: 'long-scrape' } as Reed;

/** Full passes of both blades, a little taken off the left of the heart each time, noise of 0.004 mm. */
function fullPasses(count: number): Pass[] {
  const random = seededRandom(3);
  return Array.from(
    { length: count },
    (_, index) =>
      ({
        index,
        overallLengthMm: 70,
        threadMm: 47,
        remedies: [],
        readings: BLADES.flatMap((blade) =>
          ROWS_MM.flatMap((fromTipMm) =>
            ACROSS.map((across) => {
              const x = fromTipMm - 4.7;
              const taken = fromTipMm > 5 && fromTipMm < 9 && across < 0 ? 0.003 * index : 0;
              const cane = 0.28 + (0.17 * x) / Math.sqrt(1 + x * x) - 0.05 * across * across - taken;
              const thicknessMm = Math.round(100 * (cane + 0.014 * (random() - 0.5))) / 100;
              return { blade, fromTipMm, across, thicknessMm, repeat: 0, flag: 'ok', role: 'station' };
            }),
          ),
        ),
      }) as unknown as Pass,
  );
}

/** What may be asked of another process, which holds nothing else. */
const WORKS = {
  open: () => benchReed(reed, fullPasses(50)),
  report: () => reportReed({ reed, passes: fullPasses(50) }),
} as const;

/** The most that this process has held; what its usage tells counts the process that began it, too. */
function highestMb(): number {
  return Number(/VmHWM:\s+(\d+)/.exec(readFileSync('/proc/self/status', 'utf8'))![1]) / 1e3;
}

/** Prints by how much a work makes this process grow at most, MB. */
export function printGrowth(work: keyof typeof WORKS): void {
  const before = process.memoryUsage().rss / 1e6;
  WORKS[work]();
  console.log(highestMb() - before);
}

function grownMb(work: keyof typeof WORKS): number {
  const script = `import(${JSON.stringify(import.meta.url)}).then((bench) => bench.printGrowth('${work}'))`;
  return Number(
    spawnSync(process.execPath, ['--input-type=module', '-e', script], { encoding: 'utf8' }).stdout,
  );
}

/** What grows with the passes of a reed. */
export default async function run() {
  const [few, many, more] = [20, 40, 50].map(fullPasses) as [Pass[], Pass[], Pass[]];
  const open = (passes: Pass[]) => benchReed(reed, passes);
  const openMb = grownMb('open');
  const reportMb = grownMb('report');
  const openFewMs = pacedMs(() => open(few), 3);
  const openManyMs = pacedMs(() => open(many), 2);
  const judged = (passes: Pass[]) => open(passes).assembled.passes.map((pass) => ({ ...pass, controls: [] }));
  const [toJudge, toJudgeMore] = [judged(few), judged(many)];
  const faultsFewMs = pacedMs(() => findFaults(toJudge), 2);
  const begun = few.with(-1, { ...few.at(-1)!, readings: few.at(-1)!.readings.slice(0, 30) });
  const live = liveReed(open(begun), begun.at(-1)!.index)!;
  const keys = pacedTimes((at) => {
    const reading = few.at(-1)!.readings[30 + (at % 40)]!;
    const after = withOneMore(live, begun.at(-1)!, reading)!;
    liveFigures(after);
  }, 40).sort((a, b) => a - b);
  return Promise.resolve([
    { name: '20 full passes open', value: openFewMs, unit: 'ms', limit: 400 },
    { name: '50 full passes open', value: pacedMs(() => open(more), 2), unit: 'ms', limit: 1000 },
    { name: '40 full passes open, against 20', value: openManyMs / openFewMs, unit: 'times', limit: 2.3 },
    { name: 'memory of opening 50 passes', value: openMb, unit: 'MB', limit: 120 },
    {
      name: 'report of 20 full passes',
      value: pacedMs(() => reportReed({ reed, passes: few }), 2),
      unit: 'ms',
      limit: 2000,
    },
    { name: 'memory of the report of 50 passes', value: reportMb, unit: 'MB', limit: 260 },
    {
      name: 'faults of 40 full passes, against 20',
      value: pacedMs(() => findFaults(toJudgeMore), 1) / faultsFewMs,
      unit: 'times',
      limit: 2.3,
    },
    {
      name: 'a key to figures and picture, 20 passes, median',
      value: keys[Math.floor(keys.length / 2)]!,
      unit: 'ms',
      limit: 8,
    },
    { name: 'the same, 95 in 100 keys', value: keys[Math.floor(0.95 * keys.length)]!, unit: 'ms', limit: 16 },
  ]);
}
