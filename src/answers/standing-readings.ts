import { isInZone, type PlacedZone } from '../blade/zones.ts';
import { floorAt } from '../blade/floors.ts';
import type { ZoneFigures } from '../figures/zone-figures.ts';
import type { FitReading } from '../surface/reed-model.ts';
import type { FiguredReed } from './fitted-reed.ts';

type Assembled = Pick<FiguredReed, 'assembled'>;

/** A reading this little above its floor, or less, is near it, mm: one and a half steps of a usual dial. */
export const NEAR_MM = 0.015;

/** The latest reading of a place, and the pass that it comes from. */
export interface StandingReading extends FitReading {
  readonly pass: number;
}

/** Older readings this close along and at the same place across give way to a newer one, mm. */
const SAME_PLACE_MM = 0.6;
const SAME_PLACE_ACROSS = 0.2;

/** The readings that stand after a pass: its own, and older ones where it read nothing, by place on the cane. */
export function standingReadings({ assembled }: Assembled, pass: number): StandingReading[] {
  const { passes } = assembled;
  const newer = newerPlaces();
  const standing: StandingReading[][] = [];
  for (let at = pass; at >= 0; at--) {
    const toNow = passes[pass]!.overallLengthMm - passes[at]!.overallLengthMm;
    const own: Place[] = [];
    const left: StandingReading[] = [];
    for (const reading of passes[at]!.readings) {
      const { blade, across } = reading;
      const place = { blade, fromTipMm: reading.fromTipMm + toNow, across };
      if (place.fromTipMm < 0) continue;
      own.push(place);
      if (!newer.hasNear(place)) left.push({ ...reading, ...place, pass: at });
    }
    // The last of several readings of one place stands.
    standing.unshift([...new Map(left.map((reading) => [placeKey(reading), reading])).values()]);
    own.forEach(newer.add);
  }
  return standing.flat();
}

type Place = Pick<StandingReading, 'blade' | 'fromTipMm' | 'across'>;

const placeKey = ({ blade, fromTipMm, across }: Place) => `${blade} ${fromTipMm.toFixed(3)} ${across}`;

/** Places that newer passes read, by how far they lie from the tip. */
function newerPlaces() {
  const cells = new Map<number, Place[]>();
  const cellOf = ({ fromTipMm }: Place) => Math.floor(fromTipMm / SAME_PLACE_MM);
  const isNear = (one: Place, other: Place) =>
    one.blade === other.blade &&
    Math.abs(one.fromTipMm - other.fromTipMm) < SAME_PLACE_MM &&
    Math.abs(one.across - other.across) < SAME_PLACE_ACROSS;
  return {
    hasNear: (reading: Place) =>
      [-1, 0, 1].some((beside) => cells.get(cellOf(reading) + beside)?.some((one) => isNear(one, reading))),
    add: (reading: Place) => {
      const cell = cells.get(cellOf(reading)) ?? [];
      cells.set(cellOf(reading), cell);
      // Passes come back to the same places.
      const isKnown = ({ blade, fromTipMm, across }: Place) =>
        blade === reading.blade && fromTipMm === reading.fromTipMm && across === reading.across;
      if (!cell.some(isKnown)) cell.push(reading);
    },
  };
}

/** A reading that stands near its floor. */
export interface NearFloor {
  readonly reading: StandingReading;
  readonly floorMm: number;
  readonly marginMm: number;
}

/** Readings near their floors, the nearest first. */
export function nearFloors(
  benched: Assembled,
  pass: number,
  standing: readonly StandingReading[] = standingReadings(benched, pass),
): NearFloor[] {
  const { floors } = benched.assembled.style;
  return standing
    .flatMap((reading) => {
      const floorMm = floorAt(floors, reading.fromTipMm, reading.across);
      if (floorMm === undefined) return [];
      const marginMm = reading.thicknessMm - floorMm;
      return marginMm <= NEAR_MM + 1e-9 ? [{ reading, floorMm, marginMm }] : [];
    })
    .sort((a, b) => a.marginMm - b.marginMm);
}

/** A zone after a pass, with what its readings say of it. */
export interface SeenZone extends ZoneFigures {
  /** Its thinnest standing reading, mm; absent without a reading. */
  readonly thinnestMm?: number;
  /** The least that a standing reading of it lies above its floor, mm; absent without a floor or a reading. */
  readonly toFloorMm?: number;
}

/** What the standing readings say of a zone. */
export function seenInZone(
  { assembled }: Assembled,
  zone: PlacedZone,
  standing: readonly StandingReading[],
): Pick<SeenZone, 'thinnestMm' | 'toFloorMm'> {
  const inside = standing.filter(({ fromTipMm, across }) => isInZone(zone, fromTipMm, across));
  const margins = inside.flatMap(({ fromTipMm, across, thicknessMm }) => {
    const floor = floorAt(assembled.style.floors, fromTipMm, across);
    return floor === undefined ? [] : [thicknessMm - floor];
  });
  return {
    ...(inside.length > 0 && { thinnestMm: Math.min(...inside.map(({ thicknessMm }) => thicknessMm)) }),
    ...(margins.length > 0 && { toFloorMm: Math.min(...margins) }),
  };
}
