import type { Id } from '../../shared/ids.ts';
import { thicknessCount, type Pass, type PassHead, type Strokes } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Use } from '../../shared/room.ts';
import type { Trial } from '../../shared/trial.ts';
import { zoneWords } from '../blade/starting-styles.ts';
import { responseOf } from '../reed/response-of.ts';
import { dayWords } from '../words/day-words.ts';
import { readByWords } from '../words/figure-words.ts';
import { playedText, quantityText, stationText, type NumberFormat } from '../words/format.ts';

type Decimal = Pick<NumberFormat, 'decimal'>;

/** One thing that happened to a reed. */
export interface Happening {
  /** The document that tells it: a pass, a trial, a playing, or the reed itself. */
  readonly id: Id;
  /** Local date and time, or a day; absent where none was written. */
  readonly at?: string;
  /** How long it was played, of a use. */
  readonly minutes?: number;
  readonly kind: 'tied' | 'pass' | 'trial' | 'use' | 'retired';
  /** What it is called: the same in Notes and in the history. */
  readonly title: string;
  readonly what: string;
  readonly words?: string;
}

const many = (count: number, one: string) => `${count} ${one}${count === 1 ? '' : 's'}`;

/** Where the knife went, and how often: `heart sides 8`. */
export const strokesWords = ({ zone, strokes }: Pick<Strokes, 'zone' | 'strokes'>): string =>
  [zoneWords(zone), strokes].filter(Boolean).join(' ');

/** How many readings, and who read them where that was told. */
const readingsWords = (count: number, readBy: readonly string[] | undefined) =>
  [many(count, 'reading'), readByWords(readBy)].filter(Boolean).join(' ');

function passWords(pass: Pass | PassHead, writing: Decimal): string {
  const { scrape, clipMm } = pass;
  const count = 'readings' in pass ? thicknessCount(pass) : pass.readingCount;
  const places = (scrape?.places ?? []).map(strokesWords);
  return [
    clipMm ? `clipped ${stationText(clipMm, writing)}` : '',
    places.join(', '),
    scrape?.accident ?? '',
    readingsWords(count, pass.readBy),
  ]
    .filter(Boolean)
    .join('; ');
}

function trialWords(trial: Trial): string {
  const { verdict, resistance, stability } = trial;
  const scales = Object.entries({ response: responseOf(trial), resistance, stability }).flatMap(
    ([name, step]) => (step === undefined ? [] : [`${name} ${step}`]),
  );
  return [verdict ?? 'tried', ...scales].join(', ');
}

/** One playing: what for, how long, and how it felt. */
export function useWords({ service, minutes, felt }: Use, writing: Decimal): string {
  return `${service}, ${playedText(minutes, writing)}${felt === undefined ? '' : `, felt ${felt} of 5`}`;
}

/** The whole life of a reed in the order of its days; what has no date stands first. */
export function historyOf(
  reed: Reed,
  kept: {
    readonly passes: readonly (Pass | PassHead)[];
    readonly trials: readonly Trial[];
    readonly uses: readonly Use[];
  },
  writing: Decimal = { decimal: 'point' },
): Happening[] {
  const words = (text: string | undefined) => (text ? { words: text } : {});
  const all: Happening[] = [
    ...(reed.tiedOn
      ? [{ id: reed.id, at: reed.tiedOn, kind: 'tied' as const, title: 'Tied', what: 'on its staple' }]
      : []),
    ...kept.passes.map((pass): Happening => ({
      id: pass.id,
      ...(pass.takenAt !== undefined && { at: pass.takenAt }),
      kind: 'pass',
      title: pass.scrape || pass.clipMm ? 'Scraped or adjusted' : 'Read',
      what: `pass ${pass.index}, ${passWords(pass, writing)}`,
      ...words(pass.note),
    })),
    ...kept.trials.map((trial): Happening => ({
      id: trial.id,
      at: trial.playedAt,
      kind: 'trial',
      title: 'Played',
      what: trialWords(trial),
      ...words(trial.words),
    })),
    ...kept.uses.map((use): Happening => ({
      id: use.id,
      at: use.at,
      kind: 'use',
      title: 'In use',
      minutes: use.minutes,
      what: useWords(use, writing),
      ...words(use.note),
    })),
    ...(reed.retirement
      ? [
          {
            id: reed.id,
            at: reed.retirement.on,
            kind: 'retired' as const,
            title: 'Retired',
            what: reed.retirement.cause,
            ...words(reed.retirement.lesson),
          },
        ]
      : []),
  ];
  const day = ({ at }: Happening) => (at === undefined ? -Infinity : Date.parse(at));
  // A day without an hour ends after everything that has one.
  const last = ({ kind }: Happening) => Number(kind === 'retired');
  return all.sort((a, b) => last(a) - last(b) || day(a) - day(b));
}

/** Rows that one printed page holds at a size that reads at arm's length. */
const ROWS_OF_A_PAGE = 24;

/** A history that fits on one page: where it is longer, playings that follow each other are told together. */
export function onOnePage(
  happenings: readonly Happening[],
  writing: Decimal = { decimal: 'point' },
): Happening[] {
  if (happenings.length <= ROWS_OF_A_PAGE) return [...happenings];
  const runs: Happening[][] = [];
  for (const one of happenings) {
    const run = runs.at(-1);
    if (one.kind === 'use' && run?.[0]?.kind === 'use') run.push(one);
    else runs.push([one]);
  }
  return runs.map((run): Happening => {
    const [first] = run as [Happening];
    if (run.length === 1) return first;
    const hours = run.reduce((sum, { minutes = 0 }) => sum + minutes, 0) / 60;
    const until = run.at(-1)!.at;
    return {
      ...first,
      what: `${run.length} times, ${quantityText('hours', hours, writing)} in all${until ? `, until ${dayWords(until)}` : ''}`,
    };
  });
}
