import { reference, warmReferenceUp } from './pace.ts';

/**
 * Time of one call, ms: what passed, or what the process's threads worked, whichever is less. Both hold at least what the
 * call itself took on an idle machine; what passed holds what else the machine did, too, and what was worked the
 * engine's own threads beside it.
 */
function onceMs(work: () => unknown): number {
  const start = performance.now();
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return Math.min(performance.now() - start, (user + system) / 1000);
}

/** What the reference takes, ms, on the machine that limits are stated for when it goes at its own pace. */
const REFERENCE_MS = 2.4;

const medianOf = (values: number[]) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!;

/** Median time of one call after a warm-up, ms, as the machine goes now. */
export function medianMs(work: (at: number) => unknown, calls: number): number {
  for (let at = 0; at < calls; at++) work(at);
  return medianOf(Array.from({ length: calls }, (_, at) => onceMs(() => work(at))));
}

/**
 * Times of single calls after a warm-up, ms, as on a machine that goes at its own pace: each call by the reference
 * beside it, since a shared machine goes twice as slowly from one minute to the next.
 */
export function pacedTimes(work: (at: number) => unknown, calls: number): number[] {
  for (let at = 0; at < calls; at++) work(at);
  warmReferenceUp();
  return Array.from({ length: calls }, (_, at) => {
    const before = onceMs(reference);
    const ms = onceMs(() => work(at));
    return (ms / ((before + onceMs(reference)) / 2)) * REFERENCE_MS;
  });
}

/** Median of the same. */
export function pacedMs(work: (at: number) => unknown, calls: number): number {
  return medianOf(pacedTimes(work, calls));
}
