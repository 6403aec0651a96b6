import { BLADES, type Blade, type Place } from '../../shared/blade.ts';
import { zonesAt, type FittedReed } from '../../src/answers/fitted-reed.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import { nearFloors, standingReadings, type StandingReading } from '../../src/answers/standing-readings.ts';
import { believableAtMm, believableMap } from '../../src/figures/believable-map.ts';
import { estimate, pointFunctional, valueMm } from '../../src/figures/functional.ts';
import { reachOf } from '../../src/figures/reach.ts';
import { slopeAt } from '../../src/figures/slopes.ts';
import {
  factorAt,
  mapGrid,
  onMap,
  slopeMap,
  thicknessMap,
  type FigureMap,
  type MapGrid,
  type ValueMap,
} from '../../src/figures/surface-map.ts';
import { throughReadings } from '../../src/figures/through-readings.ts';
import { COVERAGE } from '../../src/words/format.ts';
import type { BladeMapData, MapMark } from '../map/map-data.ts';
import { bladeMapData, doubtMap, mapZones, type Mapped } from '../map/map-of-figures.ts';

/** What both blades of the plate show. */
export type Plate = Readonly<Partial<Record<Blade, BladeMapData>>>;

const ALONG = 61;
const ACROSS = 31;
/** A map is drawn this far past the last reading, mm. */
const PAST_LAST_MM = 0.8;

/** From where the blades are seen. */
export const SEEN = 'Bark side, tip up.';
/** What the colours of a difference rest on. */
export const WHOLE_MAP_NOTE = 'Coloured where it holds at 95 % over the whole map at once.';

/** The grid on which a pass's maps are drawn. */
export function plateGrid(benched: FittedReed, pass: number): MapGrid {
  return mapGrid(benched.assembled.passes[pass]!.bladeLengthMm, ALONG, ACROSS);
}

/** How far down a blade was read, mm from the pass's tip. */
function readTo(standing: readonly StandingReading[], blade: Blade): number {
  const distances = standing.filter((reading) => reading.blade === blade).map(({ fromTipMm }) => fromTipMm);
  return Math.max(0, ...distances) + PAST_LAST_MM;
}

type Drawn = Mapped & {
  readonly marks: readonly MapMark[];
  readonly clippedMm?: number;
  /** Drawn to the blade's edge, and not only as far as it was read. */
  readonly toTheEdge?: boolean;
};

/** Puts maps and marks of a pass onto the blades that were read. */
export function plateOf(
  benched: FittedReed,
  pass: number,
  draw: (blade: Blade, standing: readonly StandingReading[]) => Drawn | undefined,
): Plate {
  const standing = standingReadings(benched, pass);
  const zones = mapZones(benched.assembled.style, zonesAt(benched, pass));
  const plate: Partial<Record<Blade, BladeMapData>> = {};
  for (const blade of BLADES.filter((name) => benched.model?.blades[name])) {
    const own = standing.filter((reading) => reading.blade === blade);
    const drawn = draw(blade, own);
    if (!drawn) continue;
    const { clippedMm, toTheEdge, ...mapped } = drawn;
    const geometry = benched.assembled.passes[pass]!;
    const data = bladeMapData({
      ...mapped,
      blade,
      geometry,
      readToMm: toTheEdge ? geometry.bladeLengthMm : readTo(standing, blade),
      zones,
      ...(own.length > 0 && { reach: reachOf(own) }),
    });
    plate[blade] = clippedMm ? { ...data, clippedMm } : data;
  }
  return plate;
}

/** Thickness after a pass, with the readings that stand. */
export function thicknessPlate(benched: FittedReed, pass: number): Plate {
  const grid = plateGrid(benched, pass);
  return readPlate(benched, pass, (blade) => thicknessMap(benched.model!, blade, pass, grid));
}

/** The surface through every reading after a pass, of blades whose rows were all read at the same places. */
export function throughPlate(benched: FittedReed, pass: number): Plate {
  const grid = plateGrid(benched, pass);
  return readPlate(benched, pass, (_, standing) => throughReadings(standing, grid));
}

/** A map of thickness with the readings that stand. */
function readPlate(
  benched: FittedReed,
  pass: number,
  mapOf: (blade: Blade, standing: readonly StandingReading[]) => ValueMap | undefined,
): Plate {
  const near = new Set(nearFloors(benched, pass).map(({ reading }) => placeKey(reading)));
  const marksOf = (standing: readonly StandingReading[]) =>
    standing.map((reading) => ({
      fromTipMm: reading.fromTipMm,
      across: reading.across,
      valueMm: reading.thicknessMm,
      ...(reading.pass !== pass && { older: `pass ${benched.assembled.passes[reading.pass]!.index}` }),
      ...(near.has(placeKey(reading)) && { nearFloor: true, odd: 'near its floor' }),
    }));
  return plateOf(benched, pass, (blade, standing) => {
    const map = mapOf(blade, standing);
    return map && { map, marks: marksOf(standing) };
  });
}

/** What a pass took off since the one before it, without numbers. */
export function removalPlate(benched: FittedReed, pass: number): Plate {
  const { maps } = figuresOf({ benched, pass }).taken(pass - 1);
  return plateOf(benched, pass, (blade) => {
    const map = maps[blade];
    return map && { map, marks: [], isDifference: true };
  });
}

/** The 95 % doubt of the thickness after a pass, at the places that were read and between them. */
export function doubtPlate(benched: FittedReed, pass: number): Plate {
  const model = benched.model!;
  const grid = plateGrid(benched, pass);
  return plateOf(benched, pass, (blade, standing) => ({
    map: doubtMap(thicknessMap(model, blade, pass, grid)),
    toTheEdge: true,
    marks: atReadings(
      standing,
      (place) => COVERAGE * estimate(model, pointFunctional(model, { ...place, blade, pass })).uMm,
    ),
  }));
}

/** The smallest change to believe after a pass between two single readings of a place, 95 %. */
export function believablePlate(benched: FittedReed, pass: number): Plate {
  const model = benched.model!;
  const grid = plateGrid(benched, pass);
  return plateOf(benched, pass, (blade, standing) => ({
    map: believableMap(model, blade, pass, grid),
    toTheEdge: true,
    marks: atReadings(standing, (place) => believableAtMm(model, { ...place, blade, pass })),
  }));
}

/** How fast the thickness grows away from the tip after a pass, mm per mm. */
export function slopePlate(benched: FittedReed, pass: number): Plate {
  const model = benched.model!;
  const grid = plateGrid(benched, pass);
  return plateOf(benched, pass, (blade, standing) => ({
    map: slopeMap(model, blade, pass, grid, 'along'),
    marks: atReadings(standing, (place) =>
      valueMm(model, slopeAt(model, { ...place, blade, pass }, 'along')),
    ),
  }));
}

/** A figure at the places that were read, as marks. */
function atReadings(
  standing: readonly StandingReading[],
  figure: (place: Pick<Place, 'fromTipMm' | 'across'>) => number,
): MapMark[] {
  return standing.map(({ fromTipMm, across }) => {
    const place = { fromTipMm, across };
    return { ...place, valueMm: figure(place) };
  });
}

const placeKey = ({ blade, fromTipMm, across }: StandingReading) =>
  `${blade} ${fromTipMm.toFixed(3)} ${across}`;

/** A map's values at the places that were read, as marks; those inside their doubt are pale. */
export function differenceMarks(
  map: FigureMap,
  places: readonly { readonly fromTipMm: number; readonly across: number }[],
): MapMark[] {
  return places.map(({ fromTipMm, across }) => {
    const { valueMm, uMm } = onMap(map, fromTipMm, across);
    const isInDoubt = Math.abs(valueMm) <= factorAt(map, fromTipMm, across) * uMm;
    return { fromTipMm, across, valueMm, ...(isInDoubt && { inDoubt: true }) };
  });
}
