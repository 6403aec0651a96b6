import { greatest } from 'd3-array';
import type { PassFacts } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Round } from '../../shared/round.ts';

const time = (moment: string | undefined) => (moment === undefined ? -Infinity : Date.parse(moment));

/**
 * The reed that was on the bench last time: the one whose round waits, begun last; else the one read last; else the one
 * being scraped. Undefined for an empty case.
 */
export function reedOfLastTime(
  reeds: readonly Reed[],
  passes: readonly PassFacts[],
  rounds: readonly Round[],
): Reed | undefined {
  const alive = reeds.filter(({ state }) => state !== 'retired');
  const reedOf = (document: { readonly reedId: string } | undefined) =>
    alive.find(({ id }) => id === document?.reedId);
  const isAlive = (document: { readonly reedId: string }) => reedOf(document) !== undefined;
  const waiting = rounds.filter((round) => round.closedAs === undefined && isAlive(round));
  const read = passes.filter((pass) => pass.takenAt !== undefined && isAlive(pass));
  return (
    reedOf(greatest(waiting, (a, b) => time(a.startedAt) - time(b.startedAt))) ??
    reedOf(greatest(read, (a, b) => time(a.takenAt) - time(b.takenAt))) ??
    alive.find(({ state }) => state === 'scraping') ??
    alive[0]
  );
}
