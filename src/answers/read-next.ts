import { combine, estimate } from '../figures/functional.ts';
import { meanOver, zoneArea } from '../figures/zone-mean.ts';
import { readablePlaces, whereToRead, type WorthReading } from '../figures/where-to-read.ts';
import type { Blade } from '../../shared/blade.ts';
import { placeOnBlade } from './answer-words.ts';
import { zonesAt, type FittedReed } from './fitted-reed.ts';

/** The places whose reading would most sharpen the mean of a zone, the best first. */
export interface ReadNext {
  /** Standard uncertainty of the mean as it is. */
  readonly uMm: number;
  /** Whether the readings sharpen it by a tenth or more. */
  readonly isWorthIt: boolean;
  readonly places: readonly (WorthReading & { readonly where: string })[];
}

const PLACES = 4;
const WORTH_IT = 0.9;

/**
 * Where to read next in a pass, for the mean of a zone over the blades that were read.
 *
 * @returns undefined for a reed without readings, or a zone that the style does not have.
 */
export function readNext(benched: FittedReed, pass: number, zoneName: string): ReadNext | undefined {
  const { model, assembled } = benched;
  const zones = zonesAt(benched, pass);
  const zone = zones.find(({ name }) => name === zoneName);
  if (!model || !zone) return undefined;
  const area = zoneArea(zone, model.passes[pass]!);
  const read = Object.keys(model.blades) as Blade[];
  const means = read.flatMap((blade) => meanOver(model, blade, pass, area) ?? []);
  if (means.length === 0) return undefined;
  const figure = combine(means.map((mean) => [1 / means.length, mean]));
  const deepestMm = Math.max(...assembled.passes.flatMap(({ readings }) => readings.map((r) => r.fromTipMm)));
  const places = whereToRead(model, pass, figure, readablePlaces(model, pass, deepestMm), PLACES);
  const { uMm } = estimate(model, figure);
  return {
    uMm,
    isWorthIt: places.at(-1)!.uMm <= WORTH_IT * uMm,
    places: places.map((place) => ({
      ...place,
      where: placeOnBlade(zones, place.blade, place.fromTipMm, place.across).replace(/,$/, ''),
    })),
  };
}
