import type { Flag, Reading } from '../../shared/reading.ts';
import { acrossWords } from '../../src/words/figure-words.ts';
import { readingText, stationText, type NumberFormat } from '../../src/words/format.ts';
import { palerSentence, sinceWords, type OlderReading } from '../../src/round/older-readings.ts';
import { meanMm } from './grid-cells.ts';

/** What stands beside a figure, and how it is said. */
export const FLAG_WORDS: Readonly<Record<Flag, string>> = {
  ok: 'Sure',
  weak: 'Weak',
  doubtful: 'Unsure',
  'no-cane': 'No cane',
  wire: 'Wire',
};
const FLAG_MARKS: Readonly<Record<Flag, string>> = {
  ok: '',
  weak: '~',
  doubtful: '?',
  'no-cane': '\u00d7',
  wire: 'w',
};

/** `A, 10 mm, right` */
export function stationWords(
  { blade, fromTipMm, across }: Pick<Reading, 'blade' | 'fromTipMm' | 'across'>,
  writing: NumberFormat,
): string {
  return `${blade}, ${stationText(fromTipMm, writing)}, ${acrossWords(across)}`;
}

/** The small sign in the corner of a cell: its flag, and how often it was read. */
export function markOf(readings: readonly Reading[]): string {
  const times = readings.length > 1 ? `${readings.length}` : '';
  return `${FLAG_MARKS[readings[0]?.flag ?? 'ok']}${times}`;
}

/** `2 readings of A, 10 mm, right: mean 46.5, 1 apart.` Empty for fewer than two. */
export function repeatsSentence(readings: readonly Reading[], writing: NumberFormat): string {
  const values = readings.flatMap(({ thicknessMm }) => (thicknessMm === undefined ? [] : [thicknessMm]));
  const mean = meanMm(readings);
  if (values.length < 2 || mean === undefined) return '';
  const text = (mm: number) => readingText(Number(mm.toFixed(5)), writing);
  const spread = Math.max(...values) - Math.min(...values);
  return `${values.length} readings of ${stationWords(readings[0]!, writing)}: mean ${text(mean)}, ${text(spread)} apart.`;
}

/** What was read here before, with its pass and day. */
function olderWords(older: OlderReading, writing: NumberFormat): string {
  return `${readingText(older.thicknessMm, writing)} in ${sinceWords(older)}`;
}

/** When the figures were read that stand in for stations without a reading; empty where there are none. */
export function palerWords(
  earlier: ReadonlyMap<string, OlderReading>,
  stations: ReadonlyMap<string, readonly Reading[]>,
): string {
  const shown = [...earlier].filter(([key]) => !stations.has(key));
  return palerSentence(shown.map(([, one]) => sinceWords(one)));
}

/** The name of a cell for a screen reader, its value left to the field. */
export function cellName(
  place: Pick<Reading, 'blade' | 'fromTipMm' | 'across'>,
  readings: readonly Reading[],
  odd: string | undefined,
  older: OlderReading | undefined,
  writing: NumberFormat,
): string {
  const flag = readings[0]?.flag ?? 'ok';
  return [
    stationWords(place, writing),
    readings.length > 1 && `mean of ${readings.length}`,
    flag !== 'ok' && FLAG_WORDS[flag].toLowerCase(),
    odd !== undefined && 'odd',
    readings.length === 0 && older && `not read; ${olderWords(older, writing)}`,
  ]
    .filter(Boolean)
    .join(', ');
}
