import type { Blade } from '../../shared/blade.ts';
import type { RemovalSpan } from '../figures/removed.ts';

/** Which passes a blade's removal lies between, where that are not simply the two that are compared. */
export function sayRemovalSpan(
  blade: Blade,
  { since, notRead, countedIn }: RemovalSpan,
  pass: number,
): string | undefined {
  if (since !== undefined)
    return `${blade} was last read in pass ${since}: what came off it counts from there.`;
  if (!notRead) return undefined;
  return countedIn === undefined
    ? `What came off ${blade} is not known: it was not read both before and in pass ${pass}.`
    : `${blade} was not read in pass ${pass}: what came off it is counted in pass ${countedIn}.`;
}
