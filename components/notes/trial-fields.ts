import * as z from 'zod';
import { scaleSchema, trialSchema, type Trial } from '../../shared/trial.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { readFields, type Field } from '../forms/typed-form.ts';
import { noteText, readNote, readNotes } from './trial-notes.ts';

const crowSchema = trialSchema.shape.crow.unwrap();

/** All that is typed of a trial, side by side, but for the notes. */
const typedSchema = z.strictObject({
  ...trialSchema.shape,
  octaves: crowSchema.shape.octaves,
  rattle: crowSchema.shape.rattle,
  steadiness: scaleSchema.optional(),
});

/** Fields that hold notes and their cents. */
const NOTES = ['peep', 'crow', 'pitch'] as const;
type NoteName = (typeof NOTES)[number];
const isNote = (name: string): name is NoteName => (NOTES as readonly string[]).includes(name);

type TypedName = Extract<keyof typeof typedSchema.shape, string>;
export type TrialField = Field<TypedName | NoteName> & {
  /** Of a note: what stands beside its name, and the note that cents are told from at first. */
  readonly hint?: string;
  readonly usual?: string;
};

const same = (values: readonly string[]) => values.map((value) => [value, value] as const);

/** What is asked of a trial, a page of at most eight fields at a time. Words: common practice, no source. */
export const TRIAL_PAGES: readonly { readonly title: string; readonly fields: readonly TrialField[] }[] = [
  {
    title: 'What it does',
    fields: [
      { name: 'peep', words: 'Peep', kind: 'text', hint: 'the reed alone, lips at its tip', usual: 'C6' },
      { name: 'crow', words: 'Crow', kind: 'text', hint: 'the reed alone, deep, full breath', usual: 'C5' },
      { name: 'lowD', words: 'Low D, softest attack, 1 late to 5 at once', kind: 'steps' },
      { name: 'lowBFlat', words: 'Low B flat, softest attack', kind: 'steps' },
      { name: 'middleG', words: 'Middle G, softest attack', kind: 'steps' },
      {
        name: 'after15Cents',
        words: 'After fifteen minutes',
        kind: 'number',
        hint: 'how far the pitch went, cents',
        usual: '',
      },
      {
        name: 'verdict',
        words: 'Fit for',
        kind: 'steps',
        options: [
          ['no', 'nothing'],
          ['not yet', 'not yet'],
          ['practice', 'practice'],
          ['rehearsal', 'rehearsal'],
          ['concert', 'concert'],
        ],
      },
      { name: 'words', words: 'In your words', kind: 'long' },
    ],
  },
  {
    title: 'How it feels',
    fields: [
      { name: 'response', words: 'Response of all, 1 late to 5 at once', kind: 'steps' },
      { name: 'resistance', words: 'Resistance, 1 free to 5 hard', kind: 'steps' },
      { name: 'stability', words: 'Stability, 1 sags to 5 holds', kind: 'steps' },
      { name: 'dark', words: 'Depth, 1 bright to 5 dark', kind: 'steps' },
      { name: 'full', words: 'Fullness, 1 thin to 5 full', kind: 'steps' },
      {
        name: 'octaves',
        words: 'Octaves in the crow',
        kind: 'steps',
        options: same(['0', '1', '2', '3', '4']),
      },
      { name: 'rattle', words: 'Rattle', kind: 'steps', options: same(['none', 'some', 'much']) },
      { name: 'highestNote', words: 'Highest note that speaks, as G6', kind: 'text' },
    ],
  },
  {
    title: 'Pitch and opening',
    fields: [
      { name: 'pitch', words: 'Notes and their cents, as A4 +2, D5 −3', kind: 'text' },
      { name: 'steadiness', words: 'Peep, 1 wavers to 5 steady', kind: 'steps' },
      { name: 'openingMm', words: 'Opening, mm', kind: 'number' },
      { name: 'after15OpeningMm', words: 'Opening after fifteen minutes, mm', kind: 'number' },
      { name: 'after15Resistance', words: 'Resistance after fifteen minutes', kind: 'steps' },
      { name: 'minutes', words: 'Played, minutes', kind: 'number' },
    ],
  },
  {
    title: 'The room',
    fields: [
      { name: 'place', words: 'Where', kind: 'text' },
      { name: 'temperatureC', words: 'Temperature, °C', kind: 'number' },
      { name: 'humidityPct', words: 'Humidity, %', kind: 'number' },
      { name: 'elevationM', words: 'Height above the sea, m', kind: 'number' },
    ],
  },
];

export type TrialContent = Omit<Partial<Trial>, 'pitchCents'> & Pick<Trial, 'pitchCents'>;

/** What stands in the fields of a trial. */
export function trialValues(
  trial: TrialContent,
  writing: Pick<NumberFormat, 'decimal'>,
): Record<string, unknown> {
  const { peep, crow, pitchCents, after15Cents } = trial;
  return {
    ...trial,
    octaves: crow?.octaves,
    rattle: crow?.rattle,
    steadiness: peep?.steadiness,
    peep: peep && noteText(peep, writing),
    crow: crow && noteText({ note: crow.lowestNote, cents: crow.cents }, writing),
    pitch: pitchCents.map((one) => noteText(one, writing)).join(writing.decimal === 'comma' ? '; ' : ', '),
    after15Cents: after15Cents === undefined ? undefined : noteText({ cents: after15Cents }, writing),
  };
}

type Typed = Record<string, unknown>;
type Problem = { readonly name: string; readonly problem: string };
const isProblem = (read: Typed | Problem): read is Problem => 'problem' in read;

/** What a page of the form says, beside what the trial said already; or the first field that cannot be taken. */
export function withTyped(
  trial: TrialContent,
  data: FormData,
  fields: readonly TrialField[],
): { readonly trial: TrialContent } | Problem {
  const others = fields.filter((field): field is Field<TypedName> => !isNote(field.name));
  const typed = readFields(data, others, typedSchema);
  if ('problem' in typed) return typed;
  const notes = readNoteFields(data, fields);
  if (isProblem(notes)) return notes;
  const { octaves, rattle, steadiness, ...own } = typed.values as Typed;
  const { peep, crow, pitch } = notes;
  const has = (name: string) => fields.some((field) => field.name === name);
  const changed = {
    ...trial,
    ...own,
    ...(has('pitch') && { pitchCents: pitch }),
    peep: filled({
      ...trial.peep,
      ...(has('peep') && noteOf(peep, 'note')),
      ...(has('steadiness') && { steadiness }),
    }),
    crow: filled({
      ...trial.crow,
      ...(has('crow') && noteOf(crow, 'lowestNote')),
      ...(has('octaves') && { octaves, rattle }),
    }),
  };
  return { trial: changed as TrialContent };
}

function noteOf(read: unknown, name: string): Typed {
  const { note, cents } = (read ?? {}) as Typed;
  return { [name]: note, cents };
}

/** What has anything in it. */
function filled(values: Typed): Typed | undefined {
  const kept = Object.entries(values).filter(([, value]) => value !== undefined);
  return kept.length > 0 ? Object.fromEntries(kept) : undefined;
}

function readNoteFields(data: FormData, fields: readonly TrialField[]): Typed | Problem {
  const read: Typed = {};
  for (const { name } of fields.filter((field) => isNote(field.name))) {
    const text = String(data.get(name) ?? '').trim();
    const value = name === 'pitch' ? readNotes(text) : text === '' ? undefined : readNote(text);
    if (typeof value === 'string') return { name, problem: value };
    read[name] = value;
  }
  return read;
}
