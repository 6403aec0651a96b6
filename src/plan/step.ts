import { BLADES, type Blade } from '../../shared/blade.ts';
import type { PlacedZone } from '../blade/zones.ts';
import type { Side } from '../figures/zone-mean.ts';
import { normalUpperTail } from '../numerics/normal-distribution.ts';
import { COVERAGE } from '../words/format.ts';
import type { Point } from '../numerics/polygon.ts';
import type { Estimate } from '../surface/reed-model.ts';
import type { WeightedPlace } from './place-means.ts';
import { eachPlace, withinZone, withRoom, zoneAreaMm2, type StrokeLimits } from './stroke-limits.ts';
import { outlinesOf, strokeRegion, type StrokeRegion } from './stroke-region.ts';

/** Where strokes go on one blade, and how much is too much there. */
export interface StepPart {
  readonly blade: Blade;
  /** 1 at the places of the map's grid that lie inside. */
  readonly places: Uint8Array;
  /** Closed outlines, [mm from the tip, across]; holes turn the other way. */
  readonly outlines: readonly (readonly Point[])[];
  readonly areaMm2: number;
  /** Mean over the outlined places. */
  readonly excess: Estimate;
}

/** A stretch along the blade, mm from the tip. */
export type AlongMm = readonly [fromMm: number, toMm: number];

/** One piece of work: exactly where, how much, and of how much. */
export interface Step {
  readonly zone: string;
  readonly title: string;
  readonly blades: readonly Blade[];
  readonly side: Side;
  readonly parts: readonly StepPart[];
  /** From the first outlined place to the last. */
  readonly stretch: AlongMm;
  /** The same down the centre line, and at the edges; absent where no strokes go there. */
  readonly atCentre?: AlongMm;
  readonly atEdges?: AlongMm;
  /** To be taken now: at most half the excess, on either blade. */
  readonly takeMm: number;
  /** Mean over all outlined places. */
  readonly excess: Estimate;
  /** Excess as a share of the thickness there: bending stiffness goes about as its cube, so thin places weigh more. */
  readonly effect: number;
  /** What would be left is no larger than its doubt: after the step one stops and reads before anything else. */
  readonly stopAndRead: boolean;
}

/** A zone on one blade, or one side of it, that is thick enough to be worked. */
export interface StrokeUnit {
  readonly zone: PlacedZone;
  readonly blade: Blade;
  readonly side: Side;
  readonly limits: StrokeLimits;
  /** Above 0 where floors alone may still forbid strokes. */
  readonly open: Float64Array;
  /** Area that strokes must find at the least, mm2. */
  readonly leastMm2: number;
}

/** Never more than this share of the excess at once. Common practice, no source. */
const SHARE = 0.5;
/** Amounts that a hand can aim at, mm; less is not worth a step, more is never asked for in one go. Common practice. */
const AMOUNTS_MM = [0.03, 0.02, 0.015, 0.01, 0.005] as const;
export const LEAST_TAKE_MM = 0.005;
/** A zone is worked where strokes may go on this share of its area, or more. */
const LEAST_SHARE = 0.04;
/** Of the outlined places, so many may be expected to end under the target. */
const MOST_UNDER = 0.05;

/** The units of a zone on a blade that are surely over the target on a good part of their area. */
export function unitsOf(zone: PlacedZone, blade: Blade, limits: StrokeLimits): StrokeUnit[] {
  const sides: readonly Side[] = zone.outlines.length === 2 ? ['left', 'right'] : ['both'];
  return sides.flatMap((side) => {
    const leastMm2 = LEAST_SHARE * zoneAreaMm2(limits, zone, side);
    const over = withinZone(limits, limits.sure, zone, side);
    if (leastMm2 === 0 || strokeRegion(limits, over).areaMm2 < leastMm2) return [];
    const open = over.map((value, at) => Math.min(value, Math.max(-1, limits.apartMm[at]!)));
    return [{ zone, blade, side, limits, open, leastMm2 }];
  });
}

/** What forbids strokes in a unit that is over the target. */
export function reasonToLeave({ limits, open, leastMm2 }: StrokeUnit): 'closed' | 'floor' | 'doubt' {
  const isTooSmall = (field: Float64Array) => strokeRegion(limits, field).areaMm2 < leastMm2;
  if (isTooSmall(open)) return 'closed';
  return isTooSmall(withRoom(open, limits.room.clearMm, LEAST_TAKE_MM)) ? 'floor' : 'doubt';
}

interface Worked {
  readonly unit: StrokeUnit;
  readonly field: Float64Array;
  readonly region: StrokeRegion;
}

interface Draft {
  readonly takeMm: number;
  readonly regions: readonly Worked[];
}

/** The step that works some units of one zone together: the amount that moves most cane. Undefined where none will do. */
export function stepOf(
  units: readonly StrokeUnit[],
  meanExcess: (places: readonly WeightedPlace[]) => Estimate,
): Step | undefined {
  const drafts = AMOUNTS_MM.flatMap((takeMm) => draftOf(units, takeMm) ?? []);
  const moved = ({ takeMm, regions }: Draft) => takeMm * areaOf(regions);
  const [best] = drafts.sort((a, b) => moved(b) - moved(a));
  return best && finished(best, meanExcess);
}

function draftOf(units: readonly StrokeUnit[], takeMm: number): Draft | undefined {
  const regions = units.map((unit) => {
    const { limits, open } = unit;
    const field = withRoom(open, limits.room.mm, takeMm);
    return { unit, field, region: strokeRegion(limits, field) };
  });
  const isAllowed = regions.every(
    ({ unit, region }) =>
      region.areaMm2 >= unit.leastMm2 &&
      takeMm <= SHARE * meanOf(unit.limits.map.valuesMm, region) &&
      shareUnder(unit.limits, region, takeMm) <= MOST_UNDER,
  );
  return isAllowed ? { takeMm, regions } : undefined;
}

function meanOf(values: ArrayLike<number>, { areasMm2, areaMm2 }: StrokeRegion): number {
  let sum = 0;
  areasMm2.forEach((area, at) => {
    if (area > 0) sum += area * values[at]!;
  });
  return sum / areaMm2;
}

/** Share of a region's area that is expected to end under the target. */
function shareUnder({ map }: StrokeLimits, region: StrokeRegion, takeMm: number): number {
  const under = map.valuesMm.map((value, at) =>
    region.areasMm2[at]! > 0 ? normalUpperTail((value - takeMm) / map.uMm[at]!) : 0,
  );
  return meanOf(under, region);
}

function finished(
  { takeMm, regions }: Draft,
  meanExcess: (places: readonly WeightedPlace[]) => Estimate,
): Step {
  const { zone } = regions[0]!.unit;
  const sides = new Set(regions.map(({ unit }) => unit.side));
  const parts = BLADES.flatMap((blade): StepPart[] => {
    const own = regions.filter(({ unit }) => unit.blade === blade);
    return own.length === 0 ? [] : [partOf(blade, own, meanExcess)];
  });
  const excess = meanExcess(weighed(regions));
  const points = parts.flatMap(({ outlines }) => outlines.flat());
  const [atCentre, atEdges] = [
    stretchOf(points, (u) => Math.abs(u) <= CENTRE),
    stretchOf(points, (u) => Math.abs(u) >= EDGE),
  ];
  return {
    ...{ zone: zone.name, title: zone.title, parts, takeMm, excess },
    blades: parts.map(({ blade }) => blade),
    side: sides.size === 1 ? regions[0]!.unit.side : 'both',
    stretch: stretchOf(points, () => true)!,
    ...(atCentre && { atCentre }),
    ...(atEdges && { atEdges }),
    effect: effectOf(regions),
    stopAndRead: COVERAGE * excess.uMm >= excess.valueMm - takeMm,
  };
}

/** Places this near to the centre line are at the centre, and this far from it at the edges. */
const CENTRE = 0.05;
const EDGE = 0.6;

function stretchOf(
  points: StepPart['outlines'][number],
  isMeant: (across: number) => boolean,
): AlongMm | undefined {
  const along = points.filter(([, u]) => isMeant(u)).map(([y]) => y);
  return along.length === 0 ? undefined : [Math.min(...along), Math.max(...along)];
}

function partOf(
  blade: Blade,
  own: readonly Worked[],
  meanExcess: (places: readonly WeightedPlace[]) => Estimate,
): StepPart {
  const isWorked = (at: number) => own.some(({ region }) => region.areasMm2[at]! > 0);
  return {
    blade,
    places: Uint8Array.from(own[0]!.field, (_, at) => (isWorked(at) ? 1 : 0)),
    outlines: own.flatMap(({ unit: { limits }, field, region }) => outlinesOf(limits, field, region)),
    areaMm2: areaOf(own),
    excess: meanExcess(weighed(own)),
  };
}

const areaOf = (regions: readonly Worked[]) => regions.reduce((sum, { region }) => sum + region.areaMm2, 0);

/** The outlined places, each with its share of their area. */
function weighed(regions: readonly Worked[]): WeightedPlace[] {
  const all = areaOf(regions);
  return regions.flatMap(({ unit: { blade, limits }, region: { areasMm2 } }) => {
    const places: WeightedPlace[] = [];
    eachPlace(limits.map, (fromTipMm, across, at) => {
      if (areasMm2[at]! > 0) places.push({ blade, fromTipMm, across, weight: areasMm2[at]! / all });
    });
    return places;
  });
}

function effectOf(regions: readonly Worked[]): number {
  const all = areaOf(regions);
  return regions.reduce((sum, { unit: { limits }, region }) => {
    const { valuesMm, thicknessMm } = limits.map;
    const shares = valuesMm.map((value, at) => value / thicknessMm[at]!);
    return sum + (region.areaMm2 / all) * meanOf(shares, region);
  }, 0);
}
