import type { Blade } from '../../shared/blade.ts';
import type { Pass } from '../../shared/pass.ts';
import { dayWords } from '../words/day-words.ts';
import { placeKey } from './place-words.ts';

/** What an earlier pass read at a place of the present blade. */
export interface OlderReading {
  readonly blade: Blade;
  /** From the present tip, mm. */
  readonly fromTipMm: number;
  readonly across: number;
  readonly thicknessMm: number;
  readonly passIndex: number;
  readonly takenAt?: string;
}

/** Lengths repeat no better than this, so that places nearer than it are one place. Common practice, no source. */
const SAME_PLACE_MM = 0.1;

/** How far the tip has moved towards the cork since a pass, mm: a place keeps its distance from the cork end. */
function tipMovedMm(pass: Pass, overallLengthMm: number | undefined): number {
  const then = pass.overallLengthMm;
  if (then === undefined || overallLengthMm === undefined) return 0;
  const moved = then - overallLengthMm;
  return Math.abs(moved) <= SAME_PLACE_MM ? 0 : moved;
}

/**
 * The latest earlier reading of every place that had one, at its distance from the present tip: what was 4 mm from the
 * tip before a clip of 0.4 mm is 3.6 mm from it now. Places that were clipped away are left out, and so are doubtful
 * readings. Readings as they were read, the first of repeats; nothing is interpolated.
 *
 * @param passes Earlier passes, in any order.
 * @param overallLengthMm Present tip to cork end.
 */
export function olderReadings(passes: readonly Pass[], overallLengthMm: number | undefined): OlderReading[] {
  const latest = new Map<string, OlderReading>();
  for (const pass of [...passes].sort((a, b) => a.index - b.index)) {
    const moved = tipMovedMm(pass, overallLengthMm);
    for (const { blade, fromTipMm, across, thicknessMm, repeat, flag } of pass.readings) {
      const now = Number((fromTipMm - moved).toFixed(3));
      if (thicknessMm === undefined || repeat > 0 || flag === 'doubtful' || now < 0) continue;
      const place = { blade, fromTipMm: now, across };
      latest.set(placeKey(place), {
        ...place,
        thicknessMm,
        passIndex: pass.index,
        ...(pass.takenAt !== undefined && { takenAt: pass.takenAt }),
      });
    }
  }
  return [...latest.values()];
}

/** `pass 2, 1 Feb 2026` */
export function sinceWords({ passIndex, takenAt }: Pick<OlderReading, 'passIndex' | 'takenAt'>): string {
  return `pass ${passIndex}${takenAt === undefined ? '' : `, ${dayWords(takenAt)}`}`;
}

/** What paler figures are, by the passes that they are from; empty where there are none. */
export function palerSentence(since: readonly string[]): string {
  return since.length === 0 ? '' : `Paler, not read in this pass: ${[...new Set(since)].sort().join('; ')}.`;
}
