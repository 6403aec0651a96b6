import * as z from 'zod';
import { trialSchema, type Trial } from '../../shared/trial.ts';
import type { Field } from '../forms/typed-form.ts';

const same = (values: readonly string[]) => values.map((value) => [value, value] as const);

/** The crow as it is heard by ear, or filled in by the microphone. */
export const crowSchema = trialSchema.shape.crow.unwrap();
export const CROW_FIELDS: readonly Field<Extract<keyof z.output<typeof crowSchema>, string>>[] = [
  { name: 'lowestNote', words: 'Lowest note, as C5', kind: 'text' },
  { name: 'cents', words: 'Cents over it', kind: 'number' },
  { name: 'octaves', words: 'Octaves heard', kind: 'scale', options: same(['0', '1', '2', '3', '4']) },
  { name: 'rattle', words: 'Rattle', kind: 'choice', options: same(['none', 'some', 'much']) },
];

/** How it played. */
export const PLAYING_FIELDS: readonly Field<Extract<keyof Trial, string>>[] = [
  { name: 'response', words: 'Response, 1 late to 5 at once', kind: 'scale' },
  { name: 'resistance', words: 'Resistance, 1 free to 5 hard', kind: 'scale' },
  { name: 'stability', words: 'Stability, 1 sags to 5 holds', kind: 'scale' },
  { name: 'dark', words: 'Depth, 1 bright to 5 dark', kind: 'scale' },
  { name: 'full', words: 'Fullness, 1 thin to 5 full', kind: 'scale' },
  { name: 'openingMm', words: 'Opening, mm', kind: 'number' },
  { name: 'minutes', words: 'Played, minutes', kind: 'number' },
  {
    name: 'verdict',
    words: 'Fit for',
    kind: 'choice',
    options: [
      ['concert', 'concert'],
      ['rehearsal', 'rehearsal'],
      ['practice', 'practice'],
      ['not yet', 'not yet'],
      ['no', 'nothing'],
    ],
  },
  { name: 'words', words: 'In words', kind: 'long' },
];

/** The air it was played in. */
export const AIR_FIELDS: readonly Field<Extract<keyof Trial, string>>[] = [
  { name: 'place', words: 'Where', kind: 'text' },
  { name: 'temperatureC', words: 'Temperature, °C', kind: 'number' },
  { name: 'humidityPct', words: 'Humidity, %', kind: 'number' },
  { name: 'elevationM', words: 'Height above the sea, m', kind: 'number' },
];

/** One line of a note and its cents, as `A4 +2, D5 -3`; a sentence where it is neither. */
export function readNotes(text: string): Trial['pitchCents'] | string {
  const parts = text
    .split(/[,;]\s+|\s*;\s*|,(?=\s*[A-Ga-g])/)
    .map((part) => part.trim())
    .filter(Boolean);
  const notes: Trial['pitchCents'] = [];
  for (const part of parts) {
    const match = /^([A-Ga-g][#b]?\d)\s*([+\u2212-]?\d+(?:[.,]\d+)?)$/.exec(part);
    if (!match) return `“${part}”: write a note and its cents, as A4 +2, and commas between them.`;
    const cents = Number(match[2]!.replace(',', '.').replace('\u2212', '-'));
    if (Math.abs(cents) > 200) return `“${part}”: more than 200 cents is another note.`;
    notes.push({ note: match[1]![0]!.toUpperCase() + match[1]!.slice(1), cents });
  }
  return notes;
}
