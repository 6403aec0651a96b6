import { BLADES, type Blade } from '../../shared/blade.ts';
import type { FloorTable } from '../../shared/style.ts';
import { TIP_ZONES } from '../blade/zone-meanings.ts';
import type { PlacedZone } from '../blade/zones.ts';
import type { Side } from '../figures/zone-mean.ts';
import type { Estimate, PassGeometry } from '../surface/reed-model.ts';
import type { ClosedReading } from './closed-places.ts';
import type { ExcessMap } from './excess.ts';
import type { WeightedPlace } from './place-means.ts';
import { stationsToRead, type StationToRead } from './read-first.ts';
import { strokeLimits, type StrokeLimits } from './stroke-limits.ts';
import { LEAST_TAKE_MM, reasonToLeave, stepOf, unitsOf, type Step, type StrokeUnit } from './step.ts';

/** Why a zone that is thicker than the target is left alone. */
export interface Left {
  readonly zone: string;
  readonly title: string;
  readonly blade: Blade;
  readonly side: Side;
  readonly reason: 'closed' | 'floor' | 'doubt';
}

/** A place under the target. */
export interface Lack {
  readonly blade: Blade;
  readonly fromTipMm: number;
  readonly across: number;
  readonly lackMm: number;
}

export interface Plan {
  /** In the order in which to work; only the first is to be done before reading again. */
  readonly steps: readonly Step[];
  readonly left: readonly Left[];
  /** Places where doubt alone forbids scraping: reading them would settle it. */
  readonly readFirst: readonly StationToRead[];
  /** Largest lack of each blade: it cannot be put back. */
  readonly lacks: Readonly<Partial<Record<Blade, Lack>>>;
}

/** How a maker wants to be advised. */
export interface PlanHabits {
  /** Left out: zones of the tip go last unless this says otherwise. */
  readonly tipLast?: boolean;
  /** No stroke is nearer to a floor or to a lack, mm. */
  readonly marginMm?: number;
}

export interface PlanInput extends PlanHabits {
  readonly excess: Readonly<Partial<Record<Blade, ExcessMap>>>;
  /** Mean excess over some places, with its doubt. */
  readonly meanExcess: (places: readonly WeightedPlace[]) => Estimate;
  /** 1 at the places of a blade's map that a reading speaks for. */
  readonly read: (blade: Blade, map: ExcessMap) => Uint8Array;
  readonly zones: readonly PlacedZone[];
  readonly floors: FloorTable;
  readonly geometry: PassGeometry;
  /** Readings at or under their floor. */
  readonly closed: readonly Pick<ClosedReading, 'blade' | 'fromTipMm' | 'across'>[];
}

/** What a maker keeps away from floors and lacks until another margin is chosen, mm. Common practice, no source. */
export const USUAL_MARGIN_MM = 2;

/**
 * What to scrape next and what to leave: only where the excess is sure, clear of floors and lacks, at most half of it, one
 * zone at a time, the zone with the largest effect first and the tip last.
 */
export function nextStrokes(input: PlanInput): Plan {
  const { zones, meanExcess, tipLast = true } = input;
  const limits = limitsOf(input);
  const steps: Step[] = [];
  const left: Left[] = [];
  for (const zone of zones) {
    const units = limits.flatMap(([blade, own]) => unitsOf(zone, blade, own));
    const own = stepsOf(units, meanExcess);
    steps.push(...own);
    left.push(...units.filter((unit) => !isIn(own, unit)).map(leftOf));
  }
  return {
    steps: ordered(steps, tipLast),
    left,
    readFirst: limits.flatMap(([blade, own]) => stationsToRead(blade, own, zones)),
    lacks: lacksOf(input.excess),
  };
}

function limitsOf(input: PlanInput): (readonly [Blade, StrokeLimits])[] {
  const { excess, floors, geometry, closed, read, marginMm = USUAL_MARGIN_MM } = input;
  return BLADES.flatMap((blade) => {
    const map = excess[blade];
    if (!map) return [];
    const own = closed.filter((place) => place.blade === blade);
    const { halfWidthMm } = geometry;
    const limits = { map, floors, closed: own, read: read(blade, map), halfWidthMm, marginMm };
    return [[blade, strokeLimits(limits)] as const];
  });
}

/** The same zone on both blades is one step, and so are both of its sides where they are worked on the same blades. */
function stepsOf(units: readonly StrokeUnit[], meanExcess: PlanInput['meanExcess']): Step[] {
  const worked = units.filter((unit) => stepOf([unit], meanExcess));
  const sides = [...new Set(worked.map(({ side }) => side))].map((side) =>
    worked.filter((unit) => unit.side === side),
  );
  const isAlike = sides.every(
    (side) => side.length === sides[0]!.length && side[0]!.blade === sides[0]![0]!.blade,
  );
  const groups = isAlike && sides.length > 0 ? [sides.flat()] : sides;
  return groups.flatMap((group) => {
    const together = stepOf(group, meanExcess);
    return together ? [together] : group.flatMap((unit) => stepOf([unit], meanExcess) ?? []);
  });
}

const isIn = (steps: readonly Step[], { blade, side }: StrokeUnit) =>
  steps.some((step) => step.blades.includes(blade) && (step.side === side || step.side === 'both'));

const leftOf = (unit: StrokeUnit): Left => ({
  zone: unit.zone.name,
  title: unit.zone.title,
  blade: unit.blade,
  side: unit.side,
  reason: reasonToLeave(unit),
});

/** Worth doing, those with the largest effect first, the tip last. */
function ordered(steps: readonly Step[], tipLast: boolean): Step[] {
  const late = ({ zone }: Step) => (tipLast && TIP_ZONES.includes(zone) ? 1 : 0);
  return steps
    .filter(({ takeMm }) => takeMm >= LEAST_TAKE_MM)
    .sort((a, b) => late(a) - late(b) || b.effect - a.effect);
}

function lacksOf(excess: PlanInput['excess']): Plan['lacks'] {
  const lacks: Partial<Record<Blade, Lack>> = {};
  for (const blade of BLADES) {
    const map = excess[blade];
    if (!map) continue;
    let worst = -1;
    map.valuesMm.forEach((value, i) => {
      if (map.sure[i] === 1 && value < 0 && (worst < 0 || value < map.valuesMm[worst]!)) worst = i;
    });
    if (worst < 0) continue;
    const columns = map.us.length;
    lacks[blade] = {
      blade,
      fromTipMm: map.ysMm[Math.floor(worst / columns)]!,
      across: map.us[worst % columns]!,
      lackMm: -map.valuesMm[worst]!,
    };
  }
  return lacks;
}
