import { airFiguresWithDoubt } from './air-doubt.ts';
import type { RoomDay } from './room-days.ts';

/** Water in cane that lies open in the room, per cent of its dry mass, worked out from the air. */
export interface CaneWater {
  readonly day: number;
  readonly percent: number;
  /** Standard uncertainty: of the air, of how fast cane follows, of what it held at first. */
  readonly u: number;
  /** What it would settle to in the air of that day, and the standard uncertainty of that. */
  readonly settlesPct: number;
  readonly settlesU: number;
  /** Standard uncertainty of what it has still to take up or give off: hygrometer and formula are the same on both sides. */
  readonly gapU: number;
}

/**
 * Days in which thin cane follows the air by 63 %. Common practice has it that reeds take one to three days to a new
 * room; no measured time for gouged cane is known to us.
 */
const LAG_DAYS = { usual: 1.7, least: 1, most: 3 };
/** Standard uncertainty of what the cane held on the first day, per cent; forgotten with the lag. Our own number. */
const START_U = 1.5;
/** Over a longer gap nothing is said, and the cane is begun anew. */
const MOST_DAYS_APART = 3;
/** Before this many days after a beginning it would be a guess. */
const DAYS_TO_BEGIN = 2;

interface Settling {
  readonly day: number;
  readonly value: number;
  readonly u: number;
}

/**
 * First-order lag behind a level that goes straight between its points: m' = (e - m) / lag, solved exactly over each
 * stretch.
 */
function lagged(levels: readonly Settling[], lag: number): number[] {
  const held = [levels[0]!.value];
  for (let k = 1; k < levels.length; k++) {
    const [before, now] = [levels[k - 1]!, levels[k]!];
    const span = now.day - before.day;
    const behind = (lag * (now.value - before.value)) / span;
    held.push(now.value - behind + (held[k - 1]! - before.value + behind) * Math.exp(-span / lag));
  }
  return held;
}

function along(levels: readonly Settling[]): CaneWater[] {
  const [usual, fast, slow] = [LAG_DAYS.usual, LAG_DAYS.least, LAG_DAYS.most].map((lag) =>
    lagged(levels, lag),
  );
  return levels.flatMap(({ day, value, u }, k): CaneWater[] => {
    const age = day - levels[0]!.day;
    if (age < DAYS_TO_BEGIN) return [];
    // Evenly likely between the two ends: a half-width over the root of 3 (JCGM 100:2008, 4.3.7).
    const ofLag = Math.abs(fast![k]! - slow![k]!) / 2 / Math.sqrt(3);
    const ofStart = START_U * Math.exp(-age / LAG_DAYS.usual);
    const gapU = Math.hypot(ofLag, ofStart);
    return [{ day, percent: usual![k]!, u: Math.hypot(u, gapU), settlesPct: value, settlesU: u, gapU }];
  });
}

/**
 * Water in the cane for each day on which the air was read, from the third day on; nothing over gaps of more than three
 * days. Wood stands in for cane: directions and rough sizes carry over, digits do not.
 *
 * Source of what it settles to: Wood Handbook 2021, equation 4-5. The lag is common practice, no source.
 */
export function waterInCane(days: readonly RoomDay[]): CaneWater[] {
  const levels = days.flatMap(({ day, entry }): Settling[] => {
    const settles = entry && airFiguresWithDoubt(entry.air).woodMoisturePct;
    return settles ? [{ day, ...settles }] : [];
  });
  const runs: Settling[][] = [];
  for (const level of levels) {
    const run = runs.at(-1);
    if (run && level.day - run.at(-1)!.day <= MOST_DAYS_APART) run.push(level);
    else runs.push([level]);
  }
  return runs.flatMap(along);
}

/** The same over the days to come, if the air stays as it is. */
export function waterAhead(from: CaneWater, days: number): CaneWater[] {
  const gap = from.percent - from.settlesPct;
  return Array.from({ length: days }, (_, k) => {
    const left = (lag: number) => gap * Math.exp(-(k + 1) / lag);
    const ofLag = Math.abs(left(LAG_DAYS.least) - left(LAG_DAYS.most)) / 2 / Math.sqrt(3);
    const gapU = Math.hypot(ofLag, from.gapU * Math.exp(-(k + 1) / LAG_DAYS.usual));
    const percent = from.settlesPct + left(LAG_DAYS.usual);
    return { ...from, day: from.day + k + 1, percent, gapU, u: Math.hypot(from.settlesU, gapU) };
  });
}

/** Water still to be taken up or given off that no longer matters to the knife, per cent. Common practice, no source. */
const FOLLOWED_PCT = 0.75;

/** Days until the cane has followed the air, if the air stays: 0 once it has, or where that is inside its doubt. */
export function daysToFollow({ percent, settlesPct, gapU }: CaneWater): number {
  const gap = Math.abs(percent - settlesPct);
  if (gap <= Math.max(FOLLOWED_PCT, 1.96 * gapU)) return 0;
  return Math.ceil(LAG_DAYS.usual * Math.log(gap / FOLLOWED_PCT));
}
