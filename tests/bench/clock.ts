/**
 * Time of one call, ms: what passed, or what the process's threads worked, whichever is less. Both hold at least what the
 * call itself took on an idle machine; what passed holds what else the machine did, too, and what was worked the
 * engine's own threads beside it.
 */
export function onceMs(work: () => unknown): number {
  const start = performance.now();
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return Math.min(performance.now() - start, (user + system) / 1000);
}

/** Median time of one call after a warm-up, ms. */
export function medianMs(work: (at: number) => unknown, calls: number): number {
  for (let at = 0; at < calls; at++) work(at);
  const times = Array.from({ length: calls }, (_, at) => onceMs(() => work(at)));
  return times.sort((a, b) => a - b)[Math.floor(calls / 2)]!;
}
