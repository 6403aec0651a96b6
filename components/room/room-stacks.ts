import { dayOf } from '../../shared/moment.ts';
import type { RoomDays } from '../../src/climate/room-days.ts';
import type { DayMark } from '../../src/reed/day-marks.ts';
import { shortDay } from '../../src/words/day-words.ts';
import { hrefOf } from '../frame/routes.ts';
import type { Stop } from '../marks/mark-walk.ts';
import type { RoomFrame } from './room-frame.ts';

/** On a narrow screen marks are smaller, and fewer days are drawn: a day is as wide as a mark. */
export const STACKED = { wide: { px: 13, size: 1 }, narrow: { px: 9.5, size: 0.72 } } as const;
export const MOST_STACKED = 4;

/** A mark of what happened, where it stands. */
export interface Placed {
  readonly stop: Stop;
  readonly kind: DayMark['kind'];
}

/** A day whose air was read, as a mark on its line. */
export function dayStop(
  { x, air }: RoomFrame,
  day: number,
  humidityPct: number,
  lines: readonly string[],
): Stop {
  const all = [shortDay(dayOf(day)), ...lines];
  return { id: `day-${day}`, words: all.join(', '), lines: all, x: x(day), y: air(humidityPct) };
}

/** What happened, stacked on the air of its day; at the foot where that was not read. */
export function stacksOf(
  { x, air, narrow }: RoomFrame,
  room: RoomDays,
  happened: readonly DayMark[],
  linesOf: (day: number) => readonly string[],
): Map<number, Placed[]> {
  const stacks = new Map<number, Placed[]>();
  const { px, size } = STACKED[narrow ? 'narrow' : 'wide'];
  for (const [k, one] of happened.entries()) {
    const stack = stacks.get(one.day) ?? [];
    const pct =
      room.days.find(({ day }) => day === one.day)?.entry?.air.humidityPct ??
      room.away.find(({ from, to }) => one.day >= from && one.day <= to)?.humidityPct;
    const ground = pct === undefined ? air.range()[0]! - 4 : air(pct);
    const lines = [
      `${one.label}, ${shortDay(dayOf(one.day))}`,
      one.words.length > 60 ? `${one.words.slice(0, 58)}…` : one.words,
      ...linesOf(one.day),
    ];
    const place = { x: x(one.day), y: ground - 12 * size - px * Math.min(stack.length, MOST_STACKED) };
    const href = hrefOf({
      at: 'bench',
      reedId: one.reedId,
      question: one.kind === 'trial' ? 'notes' : 'there',
      ...(one.pass !== undefined && { pass: one.pass }),
    });
    stack.push({
      kind: one.kind,
      stop: { id: `mark-${k}`, words: `${lines.join(', ')}. Opens the reed.`, href, lines, ...place },
    });
    stacks.set(one.day, stack);
  }
  return stacks;
}
