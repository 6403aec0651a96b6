import { dayNumber } from '../../shared/moment.ts';
import type { PassHead } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Use } from '../../shared/room.ts';
import type { Trial } from '../../shared/trial.ts';
import { byLabel, byReed } from '../reed/by-reed.ts';
import { dayMarks, type DayMark } from '../reed/day-marks.ts';
import { playedText, type NumberFormat } from '../words/format.ts';
import { useWords } from './history.ts';
import type { InRotation } from './in-rotation.ts';

/** A reed that was played on a day. */
export interface Play {
  readonly day: number;
  readonly hours: number;
  /** In a concert or for a recording: what a reed is kept for. */
  readonly isConcert: boolean;
  readonly words: string;
}

/** The life of a living reed by day. */
export interface Life {
  readonly reed: Reed;
  /** Of a reed past the blank. */
  readonly row?: InRotation;
  readonly tied?: number;
  /** The first day on which anything was done with it: a blank until then. */
  readonly begun?: number;
  readonly plays: readonly Play[];
  readonly marks: readonly DayMark[];
}

interface Kept {
  readonly reeds: readonly Reed[];
  readonly passes: readonly PassHead[];
  readonly trials: readonly Trial[];
  readonly uses: readonly Use[];
}

const CONCERTS: readonly Use['service'][] = ['concert', 'recording'];

function playsOf(
  uses: readonly Use[],
  trials: readonly Trial[],
  writing: Pick<NumberFormat, 'decimal'>,
): Play[] {
  const used = uses.map((use): Play => ({
    day: dayNumber(use.at),
    hours: use.minutes / 60,
    isConcert: CONCERTS.includes(use.service),
    words: useWords(use, writing),
  }));
  const tried = trials.flatMap(({ playedAt, minutes: long }): Play[] =>
    long
      ? [
          {
            day: dayNumber(playedAt),
            hours: long / 60,
            isConcert: false,
            words: `trial, ${playedText(long, writing)}`,
          },
        ]
      : [],
  );
  return [...used, ...tried].sort((a, b) => a.day - b.day);
}

/** Played reeds first, those with the most hours before others; then those on the bench; then blanks by their label. */
function inOrder(a: Life, b: Life): number {
  const rank = ({ row, reed }: Life) => (reed.state === 'blank' ? 2 : row && row.hours > 0 ? 0 : 1);
  return rank(a) - rank(b) || (b.row?.hours ?? 0) - (a.row?.hours ?? 0) || byLabel(a.reed, b.reed);
}

/** The lives of all reeds that are not retired. */
export function livesOf(
  kept: Kept,
  rotation: readonly InRotation[],
  writing: Pick<NumberFormat, 'decimal'>,
): Life[] {
  const alive = kept.reeds.filter(({ state }) => state !== 'retired');
  const [uses, trials] = [byReed(kept.uses), byReed(kept.trials)];
  const marks = byReed(dayMarks({ ...kept, reeds: alive }, writing));
  const rows = new Map(rotation.map((row) => [row.reed.id, row]));
  return alive
    .map((reed): Life => {
      const own = marks.get(reed.id) ?? [];
      const plays = playsOf(uses.get(reed.id) ?? [], trials.get(reed.id) ?? [], writing);
      const days = [...own, ...plays].map(({ day }) => day);
      const row = rows.get(reed.id);
      return {
        reed,
        ...(row && { row }),
        ...(reed.tiedOn !== undefined && { tied: dayNumber(reed.tiedOn) }),
        ...(days.length > 0 && { begun: Math.min(...days) }),
        plays,
        marks: own,
      };
    })
    .sort(inOrder);
}
