import { performance } from 'node:perf_hooks';

const BURST_MS = 8;
const PAUSE_MS = 60;

/** Works for a while. @returns The time that passed for each millisecond on the processor. */
function burst(): { passedMs: number; workedMs: number } {
  const start = performance.now();
  const before = process.cpuUsage();
  let workedMs = 0;
  while (workedMs < BURST_MS) {
    const { user, system } = process.cpuUsage(before);
    workedMs = (user + system) / 1000;
  }
  return { passedMs: performance.now() - start, workedMs };
}

/** How much longer things took than on a machine with nothing else to do; 1 there. */
export interface Slowed<T> {
  readonly value: T;
  readonly slowed: number;
}

/**
 * Does some work of other processes, and short bursts of reference work beside it: where they wait for the processor,
 * the work has waited too. Never says that the machine is faster than it is.
 */
export async function besideReference<T>(work: () => Promise<T>): Promise<Slowed<T>> {
  const bursts: ReturnType<typeof burst>[] = [];
  const timer = setInterval(() => bursts.push(burst()), PAUSE_MS);
  bursts.push(burst());
  try {
    const value = await work();
    bursts.push(burst());
    const sum = (key: keyof (typeof bursts)[number]) => bursts.reduce((total, one) => total + one[key], 0);
    return { value, slowed: Math.max(1, sum('passedMs') / sum('workedMs')) };
  } finally {
    clearInterval(timer);
  }
}

const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1]!;

/**
 * Median of several times, ms, as on a machine with nothing else to do, with a note on how slowed this one was.
 *
 * @param work Resolves to a time that it took, ms.
 */
export async function aloneMs(
  times: number,
  work: () => Promise<number>,
): Promise<{ value: number; unit: 'ms'; note: string }> {
  const taken: { ms: number; slowed: number }[] = [];
  for (let k = 0; k < times; k++) {
    const { value, slowed } = await besideReference(work);
    taken.push({ ms: value, slowed });
  }
  const passed = median(taken.map(({ ms }) => ms)).toFixed(0);
  const slowed = median(taken.map((one) => one.slowed)).toFixed(1);
  return {
    value: median(taken.map(({ ms, slowed: by }) => ms / by)),
    unit: 'ms',
    note: `${passed} ms passed on a machine slowed ${slowed} times by other work`,
  };
}
