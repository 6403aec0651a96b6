import type { BenchedReed } from '../../src/answers/benched-reed.ts';
import type { Probed } from '../../src/answers/probe-words.ts';
import { numberText, type Writing } from '../../src/report/format.ts';
import { scatterOf } from '../../src/answers/benched-reed.ts';
import { quantityUnit } from '../map/quantity-text.ts';
import { believablePlate, doubtPlate, slopePlate, thicknessPlate, type Plate } from './plate-data.ts';

/** What may be printed on the blades, and so the colours under it. */
export interface Printed {
  readonly words: string;
  readonly plate: (benched: BenchedReed, pass: number) => Plate;
  readonly caption: (benched: BenchedReed, writing: Writing) => string;
}

export const PRINTED: Readonly<Record<Probed, Printed>> = {
  thickness: {
    words: 'Thickness',
    plate: thicknessPlate,
    caption: () => 'Bark side, tip up, mm from the tip.',
  },
  doubt: {
    words: 'How sure each place is',
    plate: doubtPlate,
    caption: () =>
      'The ± of each place, 95 % at each by itself: what the readings leave open, at the stations, between and beyond them.',
  },
  believable: {
    words: 'Smallest change to believe',
    plate: believablePlate,
    caption: believableWords,
  },
  slope: {
    words: 'Slope along',
    plate: slopePlate,
    caption: (_, { unit }) =>
      `Slope along, in ${quantityUnit('slope', unit)}: how fast it thickens away from the tip.`,
  },
};

function believableWords(benched: BenchedReed, writing: Writing): string {
  const { seatingMm, placementAlongMm } = scatterOf(benched);
  const hundredths = numberText(100 * seatingMm, 2, writing);
  const placed = numberText(placementAlongMm, 2, writing);
  const from = benched.assembled.options.placementMm === undefined ? 'assumed' : 'as declared';
  return `Two single readings of a place must differ by more, 95 %: 1.96 √2 u, with u from seating (${hundredths} hundredths) and from places found to ${placed} mm (${from}) times the slope.`;
}
