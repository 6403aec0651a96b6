import { BLADES, type Blade } from '../../shared/blade.ts';
import type { PlacedZone } from '../blade/zones.ts';
import type { Estimate, Functional, PassGeometry, ReedModel } from '../surface/reed-model.ts';
import { combined, estimateJointly } from './functional.ts';
import { meanOver, zoneArea, type ZoneArea } from './zone-mean.ts';

/** The three contrasts that, with the mean, say all that four quadrant means can say. */
export interface Balance {
  /** A less B: one blade is heavier. */
  readonly blade: Estimate;
  /** Right less left, on both blades: the knife's habit, or a tilt on the tongue. */
  readonly hand: Estimate;
  /** Side 1 less side 2: gouge, shape or tie. */
  readonly side: Estimate;
}

export type Contrast = keyof Balance;

/** A zone after a pass. What was not read is absent. */
export interface ZoneFigures {
  readonly name: string;
  readonly title: string;
  /** Both blades together. */
  readonly mean?: Estimate;
  /** Cane of both blades, mm3, with its standard uncertainty. */
  readonly volume?: { readonly value: number; readonly u: number };
  readonly blades: Readonly<Partial<Record<Blade, Estimate>>>;
  readonly balance?: Balance;
}

/** A blade's half, seen from its bark side with the tip up. */
export type Quadrant = 'AL' | 'AR' | 'BL' | 'BR';
export const QUADRANTS: readonly Quadrant[] = ['AL', 'AR', 'BL', 'BR'];

/** Weights of the four quadrant means in each contrast, in the order AL, AR, BL, BR. */
export const CONTRASTS = {
  blade: [0.5, 0.5, -0.5, -0.5],
  hand: [-0.5, 0.5, -0.5, 0.5],
  side: [0.5, -0.5, -0.5, 0.5],
} as const;

/** Places and areas of the two halves of a zone, split at the centre line. */
export interface ZoneHalves {
  readonly L: ZoneArea;
  readonly R: ZoneArea;
}

export function zoneHalves(zone: PlacedZone, geometry: PassGeometry): ZoneHalves {
  return { L: zoneArea(zone, geometry, 'left'), R: zoneArea(zone, geometry, 'right') };
}

/**
 * Mean of a zone on each blade, and the balance between them, all from one joint covariance.
 *
 * @param pass Place of the pass in the model's list.
 * @param halves The zone's halves on that pass, where they are at hand.
 */
export function zoneFigures(
  model: ReedModel,
  pass: number,
  zone: PlacedZone,
  halves: ZoneHalves = zoneHalves(zone, model.passes[pass]!),
): ZoneFigures {
  const parts: { quadrant: Quadrant; functional: Functional; areaMm2: number }[] = [];
  for (const quadrant of QUADRANTS) {
    const blade = quadrant[0] as Blade;
    const half = halves[quadrant[1] as 'L' | 'R'];
    const functional = model.blades[blade] && meanOver(model, blade, pass, half);
    if (functional) parts.push({ quadrant, functional, areaMm2: half.areaMm2 });
  }
  const joint = estimateJointly(
    model,
    parts.map(({ functional }) => functional),
  );
  const among = (weigh: (quadrant: Quadrant, areaMm2: number) => number) =>
    combined(
      joint,
      parts.map(({ quadrant, areaMm2 }) => weigh(quadrant, areaMm2)),
    );
  const areaOf = (blade?: Blade) =>
    parts.reduce((sum, { quadrant, areaMm2 }) => sum + (!blade || quadrant[0] === blade ? areaMm2 : 0), 0);
  const meanOf = (blade?: Blade) =>
    among((quadrant, areaMm2) => (!blade || quadrant[0] === blade ? areaMm2 / areaOf(blade) : 0));
  const read = BLADES.filter((blade) => areaOf(blade) > 0);
  const volume = among((_, areaMm2) => areaMm2);
  return {
    name: zone.name,
    title: zone.title,
    ...(parts.length > 0 && { mean: meanOf(), volume: { value: volume.valueMm, u: volume.uMm } }),
    blades: Object.fromEntries(read.map((blade) => [blade, meanOf(blade)])),
    ...(parts.length === 4 && {
      balance: {
        blade: among((quadrant) => CONTRASTS.blade[QUADRANTS.indexOf(quadrant)]!),
        hand: among((quadrant) => CONTRASTS.hand[QUADRANTS.indexOf(quadrant)]!),
        side: among((quadrant) => CONTRASTS.side[QUADRANTS.indexOf(quadrant)]!),
      },
    }),
  };
}
