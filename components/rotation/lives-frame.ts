import { scaleLinear } from 'd3-scale';
import type { Scale } from '../marks/marks.ts';

/** Where the lives stand: a row a reed, one axis of days, the head with the engagements over it. */
export interface LivesFrame {
  readonly width: number;
  readonly height: number;
  readonly narrow: boolean;
  /** Rows with room for words under the line. */
  readonly roomy: boolean;
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
const DAYS_BACK = { wide: 49, narrow: 21 };
const LEAST_AHEAD = 8;

/** @param last Day of the last engagement, where there is one. */
export function livesFrame(width: number, count: number, today: number, last = today): LivesFrame {
  const narrow = width < NARROW_PX;
  const row = narrow ? 42 : Math.max(26, Math.min(52, ALL_ROWS_PX / Math.max(1, count)));
  const from = today - DAYS_BACK[narrow ? 'narrow' : 'wide'];
  const to = Math.max(today + LEAST_AHEAD, last + 2);
  const foot = HEAD + row * Math.max(1, count);
  return {
    width,
    height: foot + FOOT,
    narrow,
    roomy: row >= ROOMY_PX,
    x: scaleLinear([from, to], [narrow ? 76 : 158, width - (narrow ? 12 : 26)]),
    top: HEAD,
    foot,
    rowAt: (index) => HEAD + row * (index + 0.6),
  };
}
