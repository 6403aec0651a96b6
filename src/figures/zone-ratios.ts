import { BLADES } from '../../shared/blade.ts';
import { IllPosedError } from '../../shared/errors.ts';
import { RATIO_PAIRS } from '../blade/zone-meanings.ts';
import type { PlacedZone } from '../blade/zones.ts';
import type { Functional, ReedModel } from '../surface/reed-model.ts';
import { combine } from './functional.ts';
import { ratio, type Ratio } from './ratio.ts';
import { meanOver, zoneArea } from './zone-mean.ts';

/** One zone's mean over another's, both blades together. */
export interface ZoneRatio {
  /** Names of the zones above and below the line. */
  readonly upper: string;
  readonly lower: string;
  readonly title: string;
  readonly ratio: Ratio;
}

/**
 * Ratios of zone means after a pass, for the pairs that a style has and that are read.
 *
 * @param pass Place of the pass in the model's list.
 */
export function zoneRatios(model: ReedModel, pass: number, zones: readonly PlacedZone[]): ZoneRatio[] {
  const named = new Set<string>(RATIO_PAIRS.flat());
  const means = new Map(
    zones
      .filter(({ name }) => named.has(name))
      .map((zone) => [zone.name, { title: zone.title, mean: meanOfBoth(model, pass, zone) }]),
  );
  return RATIO_PAIRS.flatMap(([upper, lower]) => {
    const [above, below] = [means.get(upper), means.get(lower)];
    if (!above?.mean || !below?.mean) return [];
    const found = ratioOrNone(model, above.mean, below.mean);
    return found
      ? [{ upper, lower, title: `${above.title} to ${below.title.toLowerCase()}`, ratio: found }]
      : [];
  });
}

function ratioOrNone(model: ReedModel, upper: Functional, lower: Functional): Ratio | undefined {
  try {
    return ratio(model, upper, lower);
  } catch (error) {
    if (error instanceof IllPosedError) return undefined;
    throw error;
  }
}

function meanOfBoth(model: ReedModel, pass: number, zone: PlacedZone): Functional | undefined {
  const blades = BLADES.filter((blade) => model.blades[blade]);
  const area = zoneArea(zone, model.passes[pass]!);
  const means = blades.flatMap((blade) => meanOver(model, blade, pass, area) ?? []);
  return means.length > 0 ? combine(means.map((mean) => [1 / means.length, mean])) : undefined;
}
