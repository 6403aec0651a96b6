import { BLADES, type Blade } from '../../shared/blade.ts';
import { differenceWords, type DifferenceMaps } from '../../src/answers/difference-words.ts';
import { zonesAt, type FittedReed, type ReedAtPass } from '../../src/answers/fitted-reed.ts';
import {
  facingMap,
  mapDifference,
  mirroredMap,
  thicknessMap,
  type FigureMap,
} from '../../src/figures/surface-map.ts';
import { sentence } from '../../src/words/figure-words.ts';
import { UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import type { PlateSheet } from './plate-sheet.ts';
import { differenceMarks, plateGrid, plateOf, SEEN, WHOLE_MAP_NOTE } from './plate-data.ts';

/** What each place of a blade is set against to see whether a reed is even. */
export type Against = 'mirror' | 'facing' | 'other';

export const AGAINST: Readonly<Record<Against, { words: string; heading: string; note: string }>> = {
  mirror: {
    words: 'Mirror',
    heading: 'Left against right',
    note: 'Each place less its mirror place on the same blade.',
  },
  facing: {
    words: 'Facing',
    heading: 'Each place against what faces it',
    note: 'Each place less the place that faces it on the other blade.',
  },
  other: {
    words: 'A and B',
    heading: 'Blade against blade',
    note: 'Each place less the same place of the other blade, seen from its own bark side.',
  },
};

/** What the ends of the colours stand for. */
const ENDS = ['thinner', 'thicker'] as const;
const KEY = [
  { mark: 'more', words: 'thicker' },
  { mark: 'less', words: 'thinner' },
  { mark: 'bare', words: 'not measurable, or not read' },
] as const;

function mapAgainst(
  benched: FittedReed,
  pass: number,
  blade: Blade,
  against: Against,
): FigureMap | undefined {
  const model = benched.model!;
  if (!model.blades[blade]) return undefined;
  const grid = plateGrid(benched, pass);
  if (against === 'mirror') return mirroredMap(model, blade, pass, grid);
  const other = blade === 'A' ? 'B' : 'A';
  if (!model.blades[other]) return undefined;
  const theirs = thicknessMap(model, other, pass, grid);
  return mapDifference(
    thicknessMap(model, blade, pass, grid),
    against === 'facing' ? facingMap(theirs) : theirs,
  );
}

/** Both blades, each place less what it is set against. */
export function againstSheet(
  { benched, pass }: ReedAtPass,
  against: Against,
  writing: NumberFormat,
): PlateSheet {
  const maps: DifferenceMaps = Object.fromEntries(
    BLADES.map((blade) => [blade, mapAgainst(benched, pass, blade, against)]),
  );
  const { heading, note } = AGAINST[against];
  return {
    plate: plateOf(benched, pass, (blade, standing) => {
      const map = maps[blade];
      return map && { map, marks: differenceMarks(map, standing), isDifference: true };
    }),
    quantity: 'difference',
    heading,
    caption: `${sentence(UNIT_WORDS[writing.unit].caption)}. ${SEEN}`,
    note: `${note} ${WHOLE_MAP_NOTE}`,
    ends: ENDS,
    key: KEY,
    carried: against === 'facing' ? 'bridges' : 'lifted',
    probed: (place) => differenceWords(maps, place, zonesAt(benched, pass), writing),
  };
}
