import type { PassFacts } from '../../shared/pass.ts';
import type { AirReading } from '../../shared/room.ts';
import type { Trial } from '../../shared/trial.ts';
import type { Air } from './travel.ts';

/** Air that was written down, wherever it was: by itself, with a trial or with a pass. */
export interface AirEntry {
  readonly at: string;
  readonly from: 'room' | 'trial' | 'pass';
  readonly place?: string;
  readonly air: Air;
  /** Nothing was written of the temperature, which is then taken as that of a heated room. */
  readonly temperatureAssumed: boolean;
  /** Nothing was written of the height, which is then taken as sea level. */
  readonly heightAssumed: boolean;
}

interface Kept {
  readonly air: readonly AirReading[];
  readonly trials: readonly Trial[];
  readonly passes: readonly PassFacts[];
}

interface Written {
  readonly temperatureC?: number | undefined;
  readonly humidityPct?: number | undefined;
  readonly elevationM?: number | undefined;
  readonly place?: string | undefined;
}

/** Of a heated room, degrees Celsius. Common practice, no source. */
const ROOM_C = 20;

function entry(at: string | undefined, from: AirEntry['from'], written: Written): AirEntry[] {
  const { temperatureC, humidityPct, elevationM, place } = written;
  if (at === undefined || humidityPct === undefined) return [];
  return [
    {
      at,
      from,
      ...(place !== undefined && { place }),
      air: { temperatureC: temperatureC ?? ROOM_C, humidityPct, elevationM: elevationM ?? 0 },
      temperatureAssumed: temperatureC === undefined,
      heightAssumed: elevationM === undefined,
    },
  ];
}

/** Every note of the air with a humidity, the earliest first. */
export function airLog({ air, trials, passes }: Kept): AirEntry[] {
  return [
    ...air.flatMap((one) => entry(one.at, 'room', one)),
    ...trials.flatMap((one) => entry(one.playedAt, 'trial', one)),
    ...passes.flatMap((one) => entry(one.takenAt, 'pass', one)),
  ].sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
}

const HOUR_MS = 3_600_000;
/** A day and a half: yesterday's reading counts, last week's does not. */
const NOT_OLDER_H = 36;
const LEAST_APART_H = 6;

/** The latest air of the room, and the one of about a day before it where there is one. */
export function todayAndBefore(entries: readonly AirEntry[]): {
  readonly today?: AirEntry;
  readonly before?: AirEntry;
} {
  const today = entries.at(-1);
  if (!today) return {};
  const age = ({ at }: AirEntry) => (Date.parse(today.at) - Date.parse(at)) / HOUR_MS;
  const before = [...entries].reverse().find((one) => age(one) >= LEAST_APART_H && age(one) <= NOT_OLDER_H);
  return { today, ...(before && { before }) };
}
