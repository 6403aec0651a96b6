import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import type { TakenOff } from '../../src/answers/taken-off.ts';
import { isMeasurable } from '../../src/words/figure-words.ts';
import type { BladeMapData } from '../map/map-data.ts';
import { differenceMarks, plateOf, type Plate } from './plate-data.ts';

/** What the ends of the colours stand for. */
export const TAKEN_ENDS = ['reads thicker', 'taken off'] as const;

export const TAKEN_KEY = [
  { mark: 'more', words: 'taken off' },
  { mark: 'less', words: 'reads thicker: look for a fault' },
  { mark: 'between', words: 'part of a patch that lost cane, not told by itself' },
  { mark: 'whole', words: 'in a zone that surely lost cane as a whole' },
  { mark: 'bare', words: 'not measurable, or not read' },
] as const;

/** What its colours rest on, and what a name in brackets says. */
export const TAKEN_NOTE =
  'Coloured where it holds at 95 % over the whole map at once, or over a zone that surely lost cane. A zone’s name in brackets: its mean is not measurable.';

/** A map with what is certain of whole zones and patches, though their places alone are not. */
function withCertainty(data: BladeMapData, { rows, between, lostZones }: TakenOff): BladeMapData {
  const amid = between[data.blade];
  const isSure = (zone: string) => {
    const mean = rows.find(({ name }) => name === zone)?.blades[data.blade]?.mean;
    return mean !== undefined && isMeasurable(mean);
  };
  const zones = data.zones.map((zone) => ({
    ...zone,
    title: isSure(zone.name) ? zone.title : `(${zone.title})`,
    isLost: lostZones[data.blade]?.some(({ name }) => name === zone.name) === true,
  }));
  return { ...data, zones, ...(amid && { between: amid }) };
}

/** What a pass took off since an earlier one, with its figures, and the rim that was clipped. */
export function takenPlate(benched: FittedReed, pass: number, before: number): Plate {
  const taken = figuresOf({ benched, pass }).taken(before);
  const { passes } = benched.assembled;
  const clippedMm = passes[before]!.overallLengthMm - passes[pass]!.overallLengthMm;
  const plate = plateOf(benched, pass, (blade, standing) => {
    const map = taken.maps[blade];
    return (
      map && {
        map,
        marks: differenceMarks(map, standing),
        isDifference: true,
        clippedMm,
      }
    );
  });
  return Object.fromEntries(
    Object.entries(plate).map(([blade, data]) => [blade, withCertainty(data, taken)]),
  );
}
