import type { Quantity } from '../theme/ramp.ts';
import { probeWords, type Probed } from '../../src/answers/probe-words.ts';
import {
  COVERAGE,
  numberText,
  thicknessFigure,
  UNIT_WORDS,
  type NumberFormat,
} from '../../src/words/format.ts';
import type { FittedReed, ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { sentence } from '../../src/words/figure-words.ts';
import type { PlacementSource } from '../../src/gauge/reading-noise.ts';
import type { KeyEntry } from '../map/map-key.ts';
import { quantityUnit } from '../map/quantity-text.ts';
import {
  believablePlate,
  doubtPlate,
  SEEN,
  slopePlate,
  thicknessPlate,
  throughPlate,
  type Plate,
} from './plate-data.ts';
import type { PlateSheet } from './plate-sheet.ts';

/** Marks of readings and of where a zone ends. */
const KEY = [
  { mark: 'from-tip', words: 'hangs from the tip' },
  { mark: 'from-thread', words: 'hangs from the thread' },
  { mark: 'beyond', words: 'beyond the outermost readings' },
  { mark: 'lozenge', words: 'near its floor' },
] as const;

/** The key beside a map: only a thickness can be near its floor. */
const readingKey = (quantity: Quantity): readonly KeyEntry[] =>
  quantity === 'thickness' ? KEY : KEY.filter(({ mark }) => mark !== 'lozenge');

/** What may be printed on the blades, and so the colours under it. */
export interface Printed {
  readonly words: string;
  /** What its colours stand for. */
  readonly quantity: Quantity;
  readonly plate: (benched: FittedReed, pass: number) => Plate;
  /** What needs more words; empty where none are needed. */
  readonly note: (writing: NumberFormat) => string;
}

export const PRINTED: Readonly<Record<Probed, Printed>> = {
  thickness: {
    words: 'Thickness',
    quantity: 'thickness',
    plate: thicknessPlate,
    note: () => '',
  },
  through: {
    words: 'Through every reading',
    quantity: 'thickness',
    plate: throughPlate,
    note: () =>
      'Not smoothed: the surface goes through every reading, its scatter and all. Between readings it has no ±, because how wrong it is there cannot be said. Drawn for a blade whose rows were all read at the same places.',
  },
  doubt: {
    words: 'How sure',
    quantity: 'doubt',
    plate: doubtPlate,
    note: () =>
      'The ± of each place, 95 % at each by itself: what the readings leave open, at the stations and between them.',
  },
  believable: {
    words: 'Change to believe',
    quantity: 'believable',
    plate: believablePlate,
    note: () => 'By more than this must two single readings of a place differ, 95 %.',
  },
  slope: {
    words: 'Slope',
    quantity: 'slope',
    plate: slopePlate,
    note: ({ unit }) =>
      `Slope along, in ${quantityUnit('slope', unit)}: how fast it thickens away from the tip.`,
  },
};

/** Both blades with a figure of each place. */
export function printedSheet(
  { benched, pass }: ReedAtPass,
  printed: Probed,
  writing: NumberFormat,
): PlateSheet {
  const { words, quantity, plate, note } = PRINTED[printed];
  return {
    plate: plate(benched, pass),
    quantity,
    heading: words,
    caption: `${sentence(quantityUnit(quantity, writing.unit))}. ${SEEN}`,
    note: note(writing),
    key: readingKey(quantity),
    probed: (place) => probeWords(benched, pass, place, printed, writing),
  };
}

const PLACEMENT_WORDS: Readonly<Record<PlacementSource, string>> = {
  declared: 'as declared',
  passes: 'as the passes tell',
  residuals: 'as its readings tell',
  usual: 'as is usual',
};

/** Where the smallest change to believe comes from, in a sentence. */
export function believableWords(benched: FittedReed, writing: NumberFormat): string {
  const { seatingMm, alongMm, placementFrom } = benched.model!.noise;
  const seating = thicknessFigure({ valueMm: 0, uMm: seatingMm / COVERAGE }, writing).doubt.slice(1);
  const placed = numberText(alongMm, 2, writing);
  const times = numberText(COVERAGE * Math.SQRT2, 2, writing);
  return `The smallest change to believe is ${times} times the scatter of one reading: \u221a2 for two readings, times ${numberText(COVERAGE, 2, writing)} for 95 %. That scatter, one standard deviation, comes from seating, ${seating} ${UNIT_WORDS[writing.unit].caption}, and from places found to ${placed} mm (${PLACEMENT_WORDS[placementFrom]}), times the slope there.`;
}
