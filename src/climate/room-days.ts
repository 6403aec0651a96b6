import { dayNumber } from '../../shared/moment.ts';
import type { AirEntry } from './air-log.ts';

/** The air of the room on one day: the last that was written; absent where nothing was. */
export interface RoomDay {
  readonly day: number;
  readonly entry?: AirEntry;
}

/** Days in a row at one other place, with the mean humidity there. */
export interface Away {
  readonly from: number;
  readonly to: number;
  readonly place: string;
  readonly humidityPct: number;
}

/** The air of a room over days, and of the places that its reeds were carried to. */
export interface RoomDays {
  /** Every day in turn, read or not. */
  readonly days: readonly RoomDay[];
  readonly away: readonly Away[];
  /** Humidity between which eight days of ten lie, per cent, and of how many days that is said. */
  readonly usual?: { readonly low: number; readonly high: number; readonly days: number };
}

/** Twelve weeks, and the fewest days that say what is usual. Our own numbers. */
const USUAL_OVER_DAYS = 84;
const FEWEST_DAYS = 10;

/** The place that most notes of the room itself name; a note that names none is of the room. */
function homeOf(entries: readonly AirEntry[]): string | undefined {
  const counts = new Map<string, number>();
  for (const { from, place } of entries)
    if (from === 'room' && place !== undefined) counts.set(place, (counts.get(place) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
}

/** Notes of the air at home, and those that name another place. */
export function atHome(entries: readonly AirEntry[]): {
  readonly home: readonly AirEntry[];
  readonly elsewhere: readonly AirEntry[];
} {
  const home = homeOf(entries);
  // A trial or a pass names the hall where it was; a room that names none has no other.
  const isHome = ({ place }: AirEntry) => place === undefined || place === home;
  return { home: entries.filter(isHome), elsewhere: entries.filter((one) => !isHome(one)) };
}

/**
 * Value below which a share of some values lies, straight between neighbours.
 *
 * Source: Hyndman & Fan 1996, doi 10.1080/00031305.1996.10473566, definition 7.
 */
function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const place = share * (sorted.length - 1);
  const [low, high] = [sorted[Math.floor(place)]!, sorted[Math.ceil(place)]!];
  return low + (place - Math.floor(place)) * (high - low);
}

/**
 * The air of the room by day.
 *
 * @param entries In the order of time.
 * @param from First day, by number.
 * @param today Last day; what is usual is said of the twelve weeks that end with it.
 */
export function roomDays(entries: readonly AirEntry[], from: number, today: number): RoomDays {
  const { home, elsewhere } = atHome(entries);
  const last = new Map(home.map((entry) => [dayNumber(entry.at), entry] as const));
  const days = Array.from({ length: Math.max(0, today - from + 1) }, (_, k): RoomDay => {
    const entry = last.get(from + k);
    return { day: from + k, ...(entry && { entry }) };
  });
  const known = [...last].filter(([day]) => day > today - USUAL_OVER_DAYS && day <= today);
  const humidity = known.map(([, { air }]) => air.humidityPct);
  const usual = { low: quantile(humidity, 0.1), high: quantile(humidity, 0.9), days: known.length };
  return {
    days,
    away: awayOf(elsewhere).filter(({ to }) => to >= from),
    ...(known.length >= FEWEST_DAYS && { usual }),
  };
}

/** Notes of one place on days that follow each other are one stay. */
function awayOf(entries: readonly AirEntry[]): Away[] {
  const stays: AirEntry[][] = [];
  for (const entry of entries) {
    const stay = stays.at(-1);
    const last = stay?.at(-1);
    const goesOn = last?.place === entry.place && dayNumber(entry.at) - dayNumber(last!.at) <= 1;
    if (stay && goesOn) stay.push(entry);
    else stays.push([entry]);
  }
  return stays.map((stay) => ({
    from: dayNumber(stay[0]!.at),
    to: dayNumber(stay.at(-1)!.at),
    place: stay[0]!.place!,
    humidityPct: stay.reduce((sum, { air }) => sum + air.humidityPct, 0) / stay.length,
  }));
}
