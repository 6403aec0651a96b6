import type { RoundFormat } from '../../src/round/gauge-count.ts';
import type { RoundState, SkipReason } from '../../src/round/fold-round.ts';
import { oddSentence } from '../../src/round/oddness.ts';
import { dotSide, placeWords } from '../../src/round/place-words.ts';
import { readersWords } from '../../src/round/readers.ts';
import { readingText } from '../../src/round/reading-text.ts';
import { worthSentence } from '../../src/round/short-words.ts';
import type { Outcome, RoundDesk } from './round-desk.ts';
import type { Blade, Place } from '../../shared/blade.ts';

const SMALL = ['none', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];
export const inWords = (count: number) => SMALL[count] ?? String(count);

export const SKIP_WORDS: Readonly<Record<SkipReason, string>> = {
  'out of reach': 'Out of reach',
  'no-cane': 'No cane',
  wire: 'Wire',
  later: 'Later',
};

export function dotQuestion(blade: Blade): string {
  return `Is the dot on your ${dotSide(blade)}?`;
}

/** `140 read, two odd.` What is not on the disk yet does not count as read. */
export function endSentence(desk: RoundDesk): string {
  const { nSkipped } = desk.state;
  const skipped = nSkipped > 0 ? `, ${inWords(nSkipped)} skipped` : '';
  const waiting = desk.nWaiting > 0 ? `, ${inWords(desk.nWaiting)} being kept` : '';
  return `${desk.nKept} read, ${inWords(desk.oddPlaces.length)} odd${skipped}${waiting}.`;
}

/** `Read three places again, to see whether the zero crept?` Empty where nothing is offered. */
export function offerSentence({ offered }: RoundDesk): string {
  if (offered.length === 0) return '';
  return `Read ${inWords(offered.length)} places again, to see whether the zero crept?`;
}

function takenSentence(
  outcome: Extract<Outcome, { kind: 'taken' }>,
  desk: RoundDesk,
  writing: RoundFormat,
): string {
  const odd = desk.oddnessOf(outcome.id);
  if (odd) return oddSentence(outcome.station, odd, writing);
  const place = desk.state.stations.find(({ readings }) => readings.some(({ id }) => id === outcome.id));
  if (desk.short && place?.readings.length === 1) return worthSentence(desk.short, writing);
  if (!place || place.readings.length < 2) return '';
  const mean = readingText(Number(place.meanMm!.toFixed(4)), writing);
  const spread = readingText(Number(place.spreadMm!.toFixed(4)), writing);
  return `${place.readings.length} readings of ${placeWords(outcome.station, writing)}: mean ${mean}, ${spread} apart.`;
}

/** The key that goes on without a reading. */
export type GoOnKey = 'Enter' | '*';

function detourSentence(desk: RoundDesk, writing: RoundFormat, goOn: GoOnKey): string {
  const { here } = desk;
  const last = here?.readings.at(-1);
  if (!last) return `Not read yet. Type its reading, or ${goOn} to go on.`;
  const value = readingText(last.thicknessMm, writing);
  return desk.isRepeat
    ? `${value} stays on record. Type the second reading, or ${goOn} to go on.`
    : `${value} was read here. Type to replace it, + to read again beside it, ${goOn} to go on.`;
}

/** The sentence beside what was heard; empty when there is nothing to say. */
export function heardSentence(desk: RoundDesk, writing: RoundFormat, goOn: GoOnKey): string {
  const { last } = desk;
  if (desk.isDetour) return detourSentence(desk, writing, goOn);
  if (!last) {
    const { nTaken, stations } = desk.state;
    return nTaken > 0
      ? `${nTaken} of ${stations.length} were read and kept. Go on where you put it down.`
      : '';
  }
  if (last.kind === 'taken') return takenSentence(last, desk, writing);
  if (last.kind === 'skipped')
    return `Skipped ${placeWords(last.station, writing)}: ${SKIP_WORDS[last.reason].toLowerCase()}.`;
  return last.kind === 'undone' ? 'Taken back.' : 'Done again.';
}

/** What is said aloud after a reading: `47. Next B, 10 mm, right.` */
export function spokenWords(thicknessMm: number, next: Place | undefined, writing: RoundFormat): string {
  const heard = readingText(thicknessMm, writing);
  return next ? `${heard}. Next ${placeWords(next, writing)}.` : `${heard}. That was the last.`;
}

/** Who has read how many, where names are told; empty otherwise. */
export function readersSentence(state: RoundState): string {
  const words = readersWords(state);
  return words && `Read so far: ${words}.`;
}
