import { group } from 'd3-array';
import type { SparseWeights } from '../numerics/sparse-row.ts';
import type { FitReading } from '../surface/reed-model.ts';
import { placeKey, toldAt, type Stations } from './interpolation.ts';

/** One pass of a reed as a family is learned from it. */
export interface ReadReed {
  readonly readings: readonly FitReading[];
  /** Seating noise of one reading, resolution included, one standard deviation. */
  readonly seatingMm: number;
  /** Zero that all its readings share, one standard deviation. */
  readonly zeroMm: number;
}

/** One way of reading a reed: what each of n readings says of the values at the stations. */
export interface Told {
  /** Which blade: 0 for A, 1 for B. */
  readonly blade: Uint8Array;
  readonly rows: readonly SparseWeights[];
  /** Seating, and what the stations leave open at a place between them, mm2. */
  readonly noiseMm2: Float64Array;
  /** What variance by placement is multiplied by for repeats and marks. */
  readonly share: Float64Array;
  readonly zeroMm: number;
}

/** Reeds read at the same places in the same way: their readings have one covariance. */
export interface AlikeRead {
  readonly told: Told;
  /** Thicknesses of each reed, n of each. */
  readonly reedsMm: readonly Float64Array[];
}

/** Reeds by the way in which they were read. */
export function readAlike(reeds: readonly ReadReed[], stations: Stations): AlikeRead[] {
  const sorted = reeds.map((reed) => ({ ...reed, readings: inOrder(reed.readings) }));
  return [...group(sorted, wayOfReading).values()].map((same) => ({
    told: toldBy(same[0]!, stations),
    reedsMm: same.map(({ readings }) => Float64Array.from(readings, ({ thicknessMm }) => thicknessMm)),
  }));
}

/** What the readings of one reed say of the stations, in their own order. */
export function toldBy({ readings, seatingMm, zeroMm }: ReadReed, stations: Stations): Told {
  const places = readings.map((reading) => toldAt(stations, reading));
  const share = Float64Array.from(readings, ({ noiseFactor, repeats }) => noiseFactor ** 2 / repeats);
  return {
    blade: Uint8Array.from(readings, ({ blade }) => (blade === 'A' ? 0 : 1)),
    rows: places.map(({ row }) => row),
    noiseMm2: share.map((value, i) => value * seatingMm ** 2 + places[i]!.openMm2),
    share,
    zeroMm,
  };
}

const inOrder = (readings: readonly FitReading[]) =>
  readings.toSorted(
    (a, b) => a.blade.localeCompare(b.blade) || a.fromTipMm - b.fromTipMm || a.across - b.across,
  );

const wayOfReading = ({ seatingMm, zeroMm, readings }: ReadReed) =>
  [
    seatingMm,
    zeroMm,
    ...readings.map(
      ({ blade, repeats, noiseFactor, ...place }) => `${blade} ${placeKey(place)} ${repeats} ${noiseFactor}`,
    ),
  ].join();
