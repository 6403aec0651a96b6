/**
 * Median time of one call after a warm-up, ms: the process's own time on the processor, so that what else a machine does
 * is not counted; on an idle one it is the time that passes.
 */
export function medianMs(work: (at: number) => unknown, calls: number): number {
  for (let at = 0; at < calls; at++) work(at);
  const times = Array.from({ length: calls }, (_, at) => {
    const before = process.cpuUsage();
    work(at);
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  });
  return times.sort((a, b) => a - b)[Math.floor(calls / 2)]!;
}
