import { BLADES, type Blade } from '../../shared/blade.ts';
import { estimate, pointFunctional } from '../figures/functional.ts';
import {
  COVERAGE,
  stationText,
  thicknessFigure,
  UNIT_WORDS,
  withUnit,
  type NumberFormat,
} from '../words/format.ts';
import type { FittedReed } from './fitted-reed.ts';
import { acrossWords, listed } from '../words/figure-words.ts';
import { standingReadings, type StandingReading } from './standing-readings.ts';

/** Where a blade is described: mm from the tip, and lines down it. */
const DISTANCES_MM = [0.5, 2, 4, 6, 8, 10, 14, 18];
const LINES = [
  { across: -0.8, words: 'down the left edge' },
  { across: 0, words: 'down the middle' },
  { across: 0.8, words: 'down the right edge' },
] as const;

/**
 * The map of a pass in sentences, for those who cannot see it: the thickness of each blade that was read down three lines,
 * how sure it is, and its thinnest and thickest readings.
 */
export function pictureWords(benched: FittedReed, pass: number, writing: NumberFormat): string[] {
  const standing = standingReadings(benched, pass);
  return BLADES.flatMap((blade) => {
    const own = standing.filter((reading) => reading.blade === blade);
    return own.length === 0 ? [] : [bladeWords(benched, pass, blade, own, writing)];
  });
}

function bladeWords(
  benched: FittedReed,
  pass: number,
  blade: Blade,
  own: readonly StandingReading[],
  writing: NumberFormat,
): string {
  const model = benched.model!;
  const lastMm = Math.max(...own.map(({ fromTipMm }) => fromTipMm));
  const distances = DISTANCES_MM.filter((fromTipMm) => fromTipMm <= lastMm);
  const doubts: number[] = [];
  const lines = LINES.map(({ across, words }) => {
    const values = distances.map((fromTipMm) => {
      const figure = estimate(model, pointFunctional(model, { blade, pass, fromTipMm, across }));
      doubts.push(COVERAGE * figure.uMm);
      return thicknessFigure(figure, writing).value;
    });
    return `${words} ${values.join(', ')}`;
  });
  const places = distances.map((mm) => stationText(mm, writing).replace(/\D+$/, ''));
  return `Blade ${blade}, ${UNIT_WORDS[writing.unit].name}, at ${withUnit(listed(places), 'mm')} from the tip: ${lines.join('; ')}. ${doubtWords(doubts, writing)} ${extremeWords(own, writing)}`;
}

function doubtWords(doubts: readonly number[], writing: NumberFormat): string {
  const bare = (mm: number) => thicknessFigure({ valueMm: mm, uMm: 0 }, writing).value;
  return `Each is good to between ±${bare(Math.min(...doubts))} and ±${bare(Math.max(...doubts))}, 95 %.`;
}

function extremeWords(own: readonly StandingReading[], writing: NumberFormat): string {
  const sorted = [...own].sort((a, b) => a.thicknessMm - b.thicknessMm);
  const words = ({ thicknessMm, fromTipMm, across }: StandingReading) =>
    `${thicknessFigure({ valueMm: thicknessMm, uMm: 0 }, writing).value} at ${stationText(fromTipMm, writing)}, ${acrossWords(across)}`;
  return `The thinnest reading is ${words(sorted[0]!)}, the thickest ${words(sorted.at(-1)!)}.`;
}
