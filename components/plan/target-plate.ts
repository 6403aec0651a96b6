import type { Blade } from '../../shared/blade.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import type { ExcessMap } from '../../src/plan/excess.ts';
import { nearestPlace } from '../../src/plan/place-means.ts';
import { plateOf, type Plate } from '../bench/plate-data.ts';
import type { Target } from '../../src/plan/target.ts';
import type { MapMark, OutlinePoint } from '../map/map-data.ts';
import type { KeyEntry } from '../map/map-key.ts';

/** Which band the colours of a comparison keep to; a map of what was taken off keeps to a wider one. */
export const PATCHES_NOTE =
  'Coloured where it holds at 95 % over all patches that are scraped as one, 2 mm by a fifth of the width.';

/** What the ends of the colours stand for. */
export const TARGET_ENDS = ['lack', 'excess'] as const;

/** Marks of a reed less its target: excess, lack, and what says nothing. */
const TARGET_KEY = [
  { mark: 'more', words: 'excess: can be scraped' },
  { mark: 'less', words: 'lack: cannot be put back' },
  { mark: 'bare', words: 'not measurable, or not read' },
] as const;

const VARIETY_KEY = { mark: 'variety', words: 'within your own variety' } as const;

/** The key beside a comparison: only several examples have a variety. */
export const targetKey = ({ from }: Target): readonly KeyEntry[] =>
  from === 'a reed' ? TARGET_KEY : [...TARGET_KEY, VARIETY_KEY];

/** Both blades less a target: bare where that is in doubt or was not read, upright lines within the own variety. */
export function targetPlate(
  benched: FittedReed,
  pass: number,
  excess: Readonly<Partial<Record<Blade, ExcessMap>>>,
): Plate {
  const plate = plateOf(benched, pass, (blade, standing) => {
    const map = excess[blade];
    return map && { map, marks: marksOf(map, standing), isDifference: true };
  });
  return Object.fromEntries(
    Object.entries(plate).map(([blade, data]) => {
      const { withinVariety } = excess[blade as Blade]!;
      const measurable = Array.from(data.measurable ?? [], (value, i) =>
        withinVariety[i] === 1 ? 0 : value,
      );
      return [blade, { ...data, measurable, ownVariety: withinVariety }];
    }),
  );
}

function marksOf(map: ExcessMap, places: readonly OutlinePoint[]): MapMark[] {
  const factor = map.factor();
  return places.flatMap(({ fromTipMm, across }) => {
    const at = nearestPlace(map, fromTipMm, across);
    const valueMm = map.valuesMm[at]!;
    if (!Number.isFinite(valueMm)) return [];
    return [
      {
        fromTipMm,
        across,
        valueMm,
        ...(Math.abs(valueMm) <= factor * map.uMm[at]! && { inDoubt: true }),
        ...(map.withinVariety[at] === 1 && { ownVariety: true }),
      },
    ];
  });
}
