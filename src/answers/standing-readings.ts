import type { Blade } from '../../shared/blade.ts';
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

/** The readings that stand after a pass: its own, and older ones where it read nothing, by place on the cane. */
export function standingReadings({ assembled }: Assembled, pass: number): StandingReading[] {
  const standing = new Map<string, StandingReading>();
  for (let at = 0; at <= pass; at++) {
    const { overallLengthMm, readings } = assembled.passes[at]!;
    const toNow = assembled.passes[pass]!.overallLengthMm - overallLengthMm;
    if (at < pass && Math.abs(toNow) > 1e-9) {
      for (const [key, reading] of standing) if (reading.fromTipMm + toNow < 0) standing.delete(key);
    }
    for (const reading of readings) {
      const fromTipMm = reading.fromTipMm + toNow;
      if (fromTipMm < 0) continue;
      dropNear(standing, reading.blade, fromTipMm, reading.across, at);
      standing.set(`${reading.blade} ${fromTipMm.toFixed(3)} ${reading.across} ${at}`, {
        ...reading,
        fromTipMm,
        pass: at,
      });
    }
  }
  return [...standing.values()];
}

/** Older readings this close along and at the same place across give way to a newer one, mm. */
const SAME_PLACE_MM = 0.6;

function dropNear(
  standing: Map<string, StandingReading>,
  blade: Blade,
  y: number,
  u: number,
  pass: number,
): void {
  for (const [key, old] of standing) {
    const near = Math.abs(old.fromTipMm - y) < SAME_PLACE_MM && Math.abs(old.across - u) < 0.2;
    if (old.pass < pass && old.blade === blade && near) standing.delete(key);
  }
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
