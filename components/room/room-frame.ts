import { scaleLinear } from 'd3-scale';
import type { CaneWater } from '../../src/climate/cane-water.ts';
import type { RoomDays } from '../../src/climate/room-days.ts';
import type { Scale } from '../marks/marks.ts';

/** The air of the next place that is gone to. */
export interface GoingTo {
  readonly day: number;
  readonly title: string;
  readonly humidityPct: number;
  readonly settles: { readonly value: number; readonly u: number };
}

/** Where the two lines of the room stand: one axis of days under both. */
export interface RoomFrame {
  readonly width: number;
  readonly height: number;
  readonly narrow: boolean;
  readonly x: Scale;
  readonly air: Scale;
  readonly water: Scale;
  readonly airTicks: readonly number[];
  readonly waterTicks: readonly number[];
  /** Between the two, where the heading of the lower line stands. */
  readonly between: number;
}

const NARROW_PX = 520;
export const isNarrow = (width: number): boolean => width < NARROW_PX;
const SIZES = {
  wide: { airTop: 30, airHeight: 308, gap: 62, waterHeight: 150, foot: 44, left: 48, right: 14 },
  narrow: { airTop: 26, airHeight: 190, gap: 52, waterHeight: 70, foot: 40, left: 40, right: 8 },
};
/** Room above the highest reading, for what stands on it. */
const ABOVE_PCT = 16;

/** @param ahead Last day to the right, by number. */
export function roomFrame(
  width: number,
  { days, away, usual }: RoomDays,
  water: readonly CaneWater[],
  going: GoingTo | undefined,
  ahead: number,
): RoomFrame {
  const narrow = isNarrow(width);
  const { airTop, airHeight, gap, waterHeight, foot, left, right } = SIZES[narrow ? 'narrow' : 'wide'];
  const read = days.flatMap(({ entry }) => entry?.air.humidityPct ?? []);
  const all = [
    ...read,
    ...away.map(({ humidityPct }) => humidityPct),
    ...(going ? [going.humidityPct] : []),
    usual?.low ?? 50,
    usual?.high ?? 50,
  ];
  const low = Math.max(0, Math.floor((Math.min(...all) - 6) / 10) * 10);
  const high = Math.min(100, Math.ceil((Math.max(...all) + ABOVE_PCT) / 10) * 10);
  const held = water.flatMap(({ percent, u, settlesPct }) => [percent - 2 * u, percent + 2 * u, settlesPct]);
  if (going) held.push(going.settles.value - 2 * going.settles.u, going.settles.value + 2 * going.settles.u);
  const span = held.length > 0 ? [Math.min(...held), Math.max(...held)] : [6, 12];
  const waterSpan = [Math.max(0, Math.floor(span[0]! / 2) * 2), Math.ceil(span[1]! / 2) * 2] as const;
  const waterTop = airTop + airHeight + gap;
  const air = scaleLinear([low, high], [airTop + airHeight, airTop]);
  const waterScale = scaleLinear(waterSpan, [waterTop + waterHeight, waterTop]);
  return {
    width,
    height: waterTop + waterHeight + foot,
    narrow,
    x: scaleLinear([days[0]!.day - 0.5, ahead], [left, width - right]),
    air,
    water: waterScale,
    airTicks: air.ticks((high - low) / 10).filter((value) => value % 10 === 0),
    waterTicks: waterScale.ticks(narrow ? 2 : 4),
    between: airTop + airHeight + gap - 24,
  };
}
