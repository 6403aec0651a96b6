import type { Blade } from '../../shared/blade.ts';
import { isInZone } from '../blade/zones.ts';
import type { PlacedZone } from '../blade/zones.ts';
import type { StrokeLimits } from './stroke-limits.ts';

/** A place of the usual grid to read. */
export interface StationToRead {
  readonly blade: Blade;
  readonly fromTipMm: number;
  readonly across: number;
}

/** Positions across at which makers read. Common practice, no source. */
const ACROSS = [-0.8, -0.4, 0, 0.4, 0.8] as const;
/** A reading settles places this near to it. */
const ALONG_MM = 1;
const NEAR_ACROSS = 0.2;
const MOST = 4;

interface Place {
  readonly fromTipMm: number;
  readonly across: number;
}

const settles = (station: Place, place: Place) =>
  Math.abs(station.fromTipMm - place.fromTipMm) <= ALONG_MM &&
  Math.abs(station.across - place.across) <= NEAR_ACROSS + 1e-9;

/**
 * The few stations that would settle most of the places where there is something to take and only doubt forbids it: taken
 * one after the other, each where most are still open.
 */
export function stationsToRead(
  blade: Blade,
  limits: StrokeLimits,
  zones: readonly PlacedZone[],
): StationToRead[] {
  let open = doubtfulPlaces(limits, zones);
  const stations: StationToRead[] = [];
  while (open.length > 0 && stations.length < MOST) {
    const candidates = new Map(open.map((place) => [keyOf(stationNear(place)), stationNear(place)]));
    const [best] = [...candidates.values()]
      .map((station) => ({ station, settled: open.filter((place) => settles(station, place)).length }))
      .sort((a, b) => b.settled - a.settled);
    stations.push({ blade, ...best!.station });
    open = open.filter((place) => !settles(best!.station, place));
  }
  return stations;
}

const keyOf = ({ fromTipMm, across }: Place) => `${fromTipMm} ${across}`;

function stationNear({ fromTipMm, across }: Place): Place {
  const nearest = ACROSS.reduce((best, at) => (Math.abs(at - across) < Math.abs(best - across) ? at : best));
  return { fromTipMm: Math.max(0.5, Math.round(fromTipMm)), across: nearest };
}

function doubtfulPlaces({ map, sure, apartMm, room }: StrokeLimits, zones: readonly PlacedZone[]): Place[] {
  const columns = map.us.length;
  return [...sure.keys()].flatMap((i) => {
    if (room.doubtful[i] !== 1 || sure[i]! <= 0 || apartMm[i]! <= 0) return [];
    const place = { fromTipMm: map.ysMm[Math.floor(i / columns)]!, across: map.us[i % columns]! };
    const isWorked = zones.some((zone) => isInZone(zone, place.fromTipMm, place.across));
    return isWorked ? [place] : [];
  });
}
