import { scaleLinear } from 'd3-scale';
import type { Scale } from '../marks/marks.ts';

/** Where the lives stand: a row a reed, one axis of days, the head with the engagements over it. */
export interface LivesFrame {
  readonly width: number;
  readonly height: number;
  readonly narrow: boolean;
  /** Rows with room for words under the line. */
  readonly roomy: boolean;
  /** Of a reed's small picture before its name; 0 where there is no room for it. */
  readonly bodyHeight: number;
  /** Where names begin, and where the words after them end. */
  readonly names: readonly [from: number, to: number];
  readonly x: Scale;
  readonly top: number;
  readonly foot: number;
  readonly rowAt: (index: number) => number;
}

const NARROW_PX = 600;
const HEAD = 50;
const FOOT = 30;
const ALL_ROWS_PX = 232;
const ROOMY_PX = 40;
const DAYS_BACK = { wide: 49, narrow: 21, least: 14 };
const LEAST_AHEAD = 8;
/** Days in sight before the first that anything is told of. */
const BEFORE_FIRST = 3;

/**
 * @param first The first day that anything is told of.
 * @param last Day of the last engagement, where there is one.
 */
export function livesFrame(
  width: number,
  count: number,
  today: number,
  {
    first = -Infinity,
    last = today,
  }: { readonly first?: number | undefined; readonly last?: number | undefined } = {},
): LivesFrame {
  const narrow = width < NARROW_PX;
  const row = narrow ? 42 : Math.max(26, Math.min(52, ALL_ROWS_PX / Math.max(1, count)));
  const earliest = today - DAYS_BACK[narrow ? 'narrow' : 'wide'];
  const from = Math.max(earliest, Math.min(first - BEFORE_FIRST, today - DAYS_BACK.least));
  const bodyHeight = narrow || count === 0 ? 0 : row - 4;
  const name = Math.round(1.4 * bodyHeight);
  const names = [name, name + 140] as const;
  const to = Math.max(today + LEAST_AHEAD, last + 2);
  const foot = HEAD + row * Math.max(1, count);
  return {
    width,
    height: foot + FOOT,
    narrow,
    roomy: row >= ROOMY_PX,
    bodyHeight,
    names,
    x: scaleLinear([from, to], [narrow ? 76 : names[1] + 18, width - (narrow ? 12 : 26)]),
    top: HEAD,
    foot,
    rowAt: (index) => HEAD + row * (index + 0.6),
  };
}
