import type { Blade } from '../../shared/blade.ts';
import type { Estimate, FitPass } from '../surface/reed-model.ts';
import type { PassPair } from './pass-pair.ts';
import type { FigureMap } from './surface-map.ts';
import type { ZoneArea } from './zone-mean.ts';

/** What came off where nobody read, one standard deviation, mm: one go with the knife. Common practice, no source. */
export const UNREAD_REMOVAL_SD_MM = 0.012;
/**
 * A reading speaks of a place as near as this in full, of one twice as far not at all: across, a little over half the way
 * to the next column of a full round. Common practice, no source.
 */
const REACH = { alongMm: 1.5, across: 0.25 };

/** A place or a zone of which more than this was not read goes by the name of not read. */
export const MOSTLY_UNREAD = 0.5;

/** How little readings say of what came off at a place: 0 where they read it, 1 where none is near. */
export type Unread = (fromTipMm: number, across: number) => number;

/**
 * How little a blade was read at places on the later pass's blade: a removal rests on a reading before it and one after
 * it, of any pass up to either.
 */
export function unreadBetween(
  passes: readonly Pick<FitPass, 'overallLengthMm' | 'readings'>[],
  { before, after }: PassPair,
  blade: Blade,
): Unread {
  // Passes read the same places again and again: each counts once.
  const placesOf = (from: number, to: number) => {
    const places = new Map<number, Place>();
    for (const { overallLengthMm, readings } of passes.slice(from, to + 1)) {
      const clippedMm = overallLengthMm - passes[after]!.overallLengthMm;
      for (const reading of readings) {
        if (reading.blade !== blade) continue;
        const { across } = reading;
        const fromTipMm = reading.fromTipMm - clippedMm;
        // Whole millionths along, and less than a half of one across.
        const key = Math.round(1e6 * fromTipMm) + across / 4;
        if (!places.has(key)) places.set(key, { fromTipMm, across });
      }
    }
    return sharesUnread([...places.values()]);
  };
  const [earlier, later] = [placesOf(0, before), placesOf(before + 1, after)];
  return (fromTipMm, across) => {
    const place = { fromTipMm, across };
    return Math.max(earlier(place), later(place));
  };
}

interface Place {
  readonly fromTipMm: number;
  readonly across: number;
}

/** How little some readings say of a place. Places are asked for side by side: the last that was near is looked at first. */
function sharesUnread(read: readonly Place[]): (place: Place) => number {
  let first = 0;
  return ({ fromTipMm, across }) => {
    let nearest = Infinity;
    for (let k = 0; k < read.length; k++) {
      const at = (first + k) % read.length;
      const along = Math.abs(read[at]!.fromTipMm - fromTipMm) / REACH.alongMm;
      const over = Math.abs(read[at]!.across - across) / REACH.across;
      nearest = Math.min(nearest, Math.max(along, over));
      if (nearest > 1) continue;
      first = at;
      return 0;
    }
    return Math.min(1, nearest - 1);
  };
}

/** The same figure with what may have come off unread in its doubt. */
export function withUnread({ valueMm, uMm }: Estimate, share: number): Estimate {
  return { valueMm, uMm: Math.hypot(uMm, UNREAD_REMOVAL_SD_MM * share) };
}

/** The same map of removal with what may have come off unread in its doubt, place by place. */
export function mapWithUnread<Map extends FigureMap>(map: Map, unread: Unread): Map {
  const columns = map.us.length;
  const uMm = map.uMm.map((u, i) => {
    const share = unread(map.ysMm[Math.floor(i / columns)]!, map.us[i % columns]!);
    return Math.hypot(u, UNREAD_REMOVAL_SD_MM * share);
  });
  return { ...map, uMm };
}

/** How much of an area was not read. */
export function shareOver({ nodes, areaMm2 }: ZoneArea, unread: Unread): number {
  return nodes.reduce((sum, { x, y, area }) => sum + area * unread(x, y), 0) / areaMm2;
}
