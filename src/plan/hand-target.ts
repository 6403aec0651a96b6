import { BLADES, type Blade } from '../../shared/blade.ts';
import { InputError } from '../../shared/errors.ts';
import { isInZone } from '../blade/zones.ts';
import { floorAt } from '../blade/floors.ts';
import type { StyleTemplate } from '../blade/starting-styles.ts';
import { stretched, type PlacedZone, type ZoneFrame } from '../blade/zones.ts';
import type { MapGrid } from '../figures/surface-map.ts';
import { zoneArea } from '../figures/zone-mean.ts';
import type { AreaNode } from '../numerics/polygon.ts';
import type { PassGeometry } from '../surface/reed-model.ts';
import { none, type BladeTarget, type Target } from './target.ts';
import { USUAL_THICKNESS } from '../blade/usual-thickness.ts';

/** The blade that a target without an example is laid out for. */
export interface TargetBlade {
  readonly style: StyleTemplate;
  readonly frame: ZoneFrame;
  readonly grid: MapGrid;
}

/** Something that varies over a blade, and is the same on both. */
type OnEither = (fromTipMm: number, across: number) => number;

/** What is usual for a style, stretched to a reed's own lengths: thickness and its range, mm. */
function usualOf({ style, frame }: TargetBlade): { thickness: OnEither; spread: OnEither } {
  const usual = USUAL_THICKNESS[style.key];
  if (!usual) throw new InputError(`style: nothing usual is known of ${style.name}`);
  const inTemplate = (y: number) => stretched(y, frame.lengths, style.lengths);
  const spreads = {
    ...usual.thickness,
    floorMm: usual.spreadMm.map((spread) => usual.thickness.across.map(() => spread)),
  };
  return {
    thickness: (y, u) => floorAt(usual.thickness, inTemplate(y), u) ?? NaN,
    spread: (y, u) => floorAt(spreads, inTemplate(y), u)!,
  };
}

/**
 * What is usual for a style, stretched to the reed's own lengths; the usual range stands as its spread.
 *
 * @throws InputError for a style of which nothing usual is known.
 */
export function usualTarget(blade: TargetBlade): Target {
  const { thickness, spread } = usualOf(blade);
  return {
    name: `what is usual for a ${blade.style.name.toLowerCase()}`,
    from: 'common practice',
    grid: blade.grid,
    blades: onGrid(blade.grid, thickness, spread),
    parts: [],
    addedMm: thickness,
  };
}

function onGrid({ ysMm, us }: MapGrid, thickness: OnEither, spread: OnEither) {
  const values = (field: OnEither) => Float64Array.from(ysMm.flatMap((y) => us.map((u) => field(y, u))));
  const blade: BladeTarget = {
    meanMm: values(thickness),
    uMm: values(none),
    spreadMm: values(spread),
  };
  return Object.fromEntries(BLADES.map((name): [Blade, BladeTarget] => [name, blade]));
}

/** The mean that a zone is to have, mm. */
export interface ZoneAim {
  readonly name: string;
  readonly meanMm: number;
}

const ROUNDS = 60;

/**
 * Zone means set by hand. Inside a zone the shape is the style's usual one, moved as a whole; a place of two zones goes with
 * the first; places of no zone that was set have no target.
 *
 * @param zones The style's zones, all hung from the tip.
 * @throws InputError for a zone that the style has not.
 */
export function handTarget(
  name: string,
  blade: TargetBlade,
  geometry: PassGeometry,
  zones: readonly PlacedZone[],
  aims: readonly ZoneAim[],
): Target {
  const { thickness: usual } = usualOf(blade);
  const set = aims.map((aim) => {
    const zone = zones.find((one) => one.name === aim.name);
    if (!zone) throw new InputError(`zones: there is no ${aim.name} in ${blade.style.name}`);
    return { ...aim, zone };
  });
  const ownerOf = (y: number, u: number) => set.findIndex(({ zone }) => isInZone(zone, y, u));
  const moves = movesOf(
    set.map(({ zone, meanMm }) => ({ meanMm, nodes: zoneArea(zone, geometry).nodes })),
    ownerOf,
    usual,
  );
  const thickness: OnEither = (y, u) => usual(y, u) + (moves[ownerOf(y, u)] ?? NaN);
  return {
    name,
    from: 'by hand',
    grid: blade.grid,
    blades: onGrid(blade.grid, thickness, none),
    parts: [],
    addedMm: thickness,
  };
}

interface Aimed {
  readonly meanMm: number;
  readonly nodes: readonly AreaNode[];
}

/** By how much each zone's places move so that every mean is as set, zones that overlap allowed for: Gauss and Seidel. */
function movesOf(
  aimed: readonly Aimed[],
  ownerOf: (y: number, u: number) => number,
  usual: OnEither,
): number[] {
  const moves = aimed.map(() => 0);
  const known = aimed.map(({ meanMm, nodes }) => ({
    meanMm,
    nodes: nodes
      .map(({ x, y, area }) => ({ area, owner: ownerOf(x, y), usualMm: usual(x, y) }))
      .filter(({ owner, usualMm }) => owner >= 0 && Number.isFinite(usualMm)),
  }));
  for (let round = 0; round < ROUNDS; round++) {
    known.forEach(({ meanMm, nodes }, zone) => {
      let [sum, area, own] = [0, 0, 0];
      for (const node of nodes) {
        sum += node.area * (node.usualMm + moves[node.owner]!);
        area += node.area;
        if (node.owner === zone) own += node.area;
      }
      if (own > 0) moves[zone]! += ((meanMm - sum / area) * area) / own;
    });
  }
  return moves;
}
