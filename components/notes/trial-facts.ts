import type { Trial } from '../../shared/trial.ts';
import { COVERAGE, numberText, playedText, signedText, type NumberFormat } from '../../src/words/format.ts';

type Decimal = Pick<NumberFormat, 'decimal'>;
type Row = readonly (string | undefined)[];

const joined = (parts: Row) =>
  parts
    .filter(Boolean)
    .map((part) => part!.trim())
    .join(', ');

/** What was found in a trial, besides its words and verdict, a line for each kind of finding. */
export function trialFacts(trial: Trial, writing: Decimal, standardHz: number): string[] {
  const number = (value: number | undefined, digits: number, before: string, after = '') =>
    value === undefined ? undefined : `${before} ${numberText(value, digits, writing)}${after}`;
  const later = joined([
    centsWords(trial.after15Cents, writing),
    number(trial.after15OpeningMm, 2, 'opening', '\u00a0mm'),
    number(trial.after15Resistance, 0, 'resistance'),
  ]);
  const pitch = trial.pitchCents.map(({ note, cents }) => `${note} ${signedText(cents, 0, writing)}`);
  return [
    peepWords(trial.peep, writing),
    crowWords(trial.crow, writing),
    joined(ATTACKS.map(([name, words]) => number(trial[name], 0, words))),
    pitch.length > 0 ? `${pitch.join(', ')} cents at A ${standardHz}` : '',
    joined([
      ...SCALES.map(([name, words]) => number(trial[name], 0, words)),
      trial.highestNote && `up to ${trial.highestNote}`,
      number(trial.openingMm, 2, 'opening', '\u00a0mm'),
      trial.minutes === undefined ? undefined : `played ${playedText(trial.minutes, writing)}`,
    ]),
    later && `after fifteen minutes ${later}`,
    joined([
      trial.place,
      number(trial.temperatureC, 0, '', '\u00a0°C'),
      number(trial.humidityPct, 0, '', '\u00a0%'),
      number(trial.elevationM, 0, '', '\u00a0m'),
    ]),
  ].filter(Boolean);
}

const ATTACKS = [
  ['lowD', 'low D'],
  ['lowBFlat', 'low B flat'],
  ['middleG', 'middle G'],
] as const;
const SCALES = [
  ['response', 'response'],
  ['resistance', 'resistance'],
  ['stability', 'stability'],
  ['dark', 'depth'],
  ['full', 'fullness'],
] as const;

const centsWords = (cents: number | undefined, writing: Decimal) =>
  cents === undefined ? '' : `${signedText(cents, 0, writing)} cents`;

function peepWords(peep: Trial['peep'], writing: Decimal): string {
  if (!peep) return '';
  const { note, cents, steadiness } = peep;
  const heard = [note, centsWords(cents, writing)].filter(Boolean).join(' ');
  return `Peep ${joined([heard, steadiness === undefined ? '' : `steadiness ${steadiness}`])}`;
}

function crowWords(crow: Trial['crow'], writing: Decimal): string {
  if (!crow) return '';
  const { lowestNote, cents, octaves, rattle, from, uCents, wanderCents, octaveBalanceDb } = crow;
  const doubt = uCents === undefined ? '' : ` ±${numberText(Math.max(1, COVERAGE * uCents), 0, writing)}`;
  return `Crow ${joined([
    [lowestNote, cents === undefined ? '' : `${signedText(cents, 0, writing)}${doubt} cents`]
      .filter(Boolean)
      .join(' '),
    octaves === undefined ? '' : `${octaves} ${octaves === 1 ? 'octave' : 'octaves'}`,
    rattle ? `rattle ${rattle}` : '',
    wanderCents === undefined ? '' : `wandered by ${numberText(wanderCents, 1, writing)} cents`,
    octaveBalanceDb === undefined ? '' : `octave ${signedText(octaveBalanceDb, 1, writing)}\u00a0dB`,
    from === 'microphone' ? 'by microphone' : '',
  ])}`;
}
