import { facing, type Blade, type Place } from '../../shared/blade.ts';
import type { PlacedZone } from '../blade/zones.ts';
import { factorAt, onMap, type FigureMap } from '../figures/surface-map.ts';
import { distanceText, differenceFigure, joined, UNIT_WORDS, type NumberFormat } from '../words/format.ts';
import { placeOnBlade } from './answer-words.ts';

/** A difference over each blade that has one. */
export type DifferenceMaps = Readonly<Partial<Record<Blade, FigureMap>>>;

/** What a map of differences has at a place and at the one that faces it, and whether it can be told, in one line. */
export function differenceWords(
  maps: DifferenceMaps,
  place: Place,
  zones: readonly PlacedZone[],
  writing: NumberFormat,
): string {
  const found = [place, facing(place)].flatMap((one) => {
    const map = maps[one.blade];
    return map ? [`${whereWords(one, zones)} ${valueWords(map, one, writing)}`] : [];
  });
  return found.length > 0 ? `${distanceText(place.fromTipMm, writing)}: ${found.join('; facing it ')}` : '';
}

const whereWords = ({ blade, fromTipMm, across }: Place, zones: readonly PlacedZone[]) =>
  placeOnBlade(zones, blade, fromTipMm, across).replace(/,$/, '');

function valueWords(map: FigureMap, { fromTipMm, across }: Place, writing: NumberFormat): string {
  const found = onMap(map, fromTipMm, across);
  if (!Number.isFinite(found.valueMm)) return 'not read';
  const words = `${joined(differenceFigure(found, writing))} ${UNIT_WORDS[writing.unit].caption}`;
  return Math.abs(found.valueMm) <= factorAt(map, fromTipMm, across) * found.uMm
    ? `${words}, not measurable`
    : words;
}
