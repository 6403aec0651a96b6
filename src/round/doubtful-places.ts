import { maxIndex } from 'd3-array';
import type { Station } from '../../shared/grid.ts';
import { estimate, pointFunctional } from '../figures/functional.ts';
import { addReading } from '../surface/add-reading.ts';
import type { ReedPosterior } from '../surface/reed-posterior.ts';

/** Thinner cane than this is not read. Common practice, no source. */
const LEAST_MM = 0.04;

/** The surface at a station and its standard error, as the model has it. */
function surfaceAt(model: ReedPosterior, { blade, fromTipMm, across }: Station) {
  const pass = model.passes.length - 1;
  return estimate(model, pointFunctional(model, { blade, pass, fromTipMm, across }));
}

/**
 * Doubt as the player would feel it, without unit: the share by which the blade's own stiffness is unknown. Stiffness
 * goes about as thickness cubed, so it is three standard errors by the thickness. Own derivation.
 */
function doubtAt(model: ReedPosterior, station: Station): number {
  if (!model.blades[station.blade]) return Infinity;
  const { valueMm, uMm } = surfaceAt(model, station);
  return (3 * uMm) / Math.max(valueMm, LEAST_MM);
}

/** The model as if the station had been read and had shown what is expected: its doubt shrinks, its value stays. */
function asIfRead(model: ReedPosterior, station: Station): ReedPosterior {
  if (!model.blades[station.blade]) return model;
  const { valueMm } = surfaceAt(model, station);
  const { blade, fromTipMm, across } = station;
  const reading = { blade, fromTipMm, across, thicknessMm: valueMm, repeats: 1, noiseFactor: 1 };
  return addReading(model, model.passes.length - 1, reading) ?? model;
}

/**
 * The few stations whose reading would tell most of a reed's latest surfaces: again and again the most doubtful one, each
 * as if those before it had been read, so that no two stand close together.
 *
 * @param among Stations that may be asked for.
 * @param count How many; all of them where there are fewer.
 * @returns Most doubtful first.
 */
export function doubtfulPlaces(model: ReedPosterior, among: readonly Station[], count: number): Station[] {
  const chosen: Station[] = [];
  let left = [...among];
  let known = model;
  while (chosen.length < count && left.length > 0) {
    const next = left[maxIndex(left, (station) => doubtAt(known, station))]!;
    chosen.push(next);
    left = left.filter((station) => station !== next);
    known = asIfRead(known, next);
  }
  return chosen;
}
