import type { NewDraft } from '../../src/ledger/drafts.ts';

type ReedDraft = Extract<NewDraft, { kind: 'reed' }>;
type PassDraft = Extract<NewDraft, { kind: 'pass' }>;
type TrialDraft = Extract<NewDraft, { kind: 'trial' }>;

/** What an invented pass was like besides its readings. `day` counts from the first. */
export interface InventedPass extends Partial<Omit<PassDraft, 'kind' | 'id' | 'reedId' | 'index' | 'readings'>> {
  readonly day: number;
  readonly controls?: readonly [a: number, b: number];
  readonly played?: Omit<TrialDraft, 'kind' | 'id' | 'reedId' | 'playedAt' | 'afterPass' | 'pitchCents'>;
}

export interface InventedReed {
  readonly reed: Omit<ReedDraft, 'kind' | 'id' | 'lotId' | 'pieceId' | 'shapeId' | 'tags'>;
  readonly passes: readonly InventedPass[];
  /** Days ago of the last pass. */
  readonly daysAgo: number;
  readonly playedHours?: number;
}

const place = (zone: string, strokes: number, blade: 'A' | 'B' | 'both' = 'both') => ({
  zone,
  blade,
  side: 'both' as const,
  strokes,
});
const wet = { wetness: 'wet' as const, soakMin: 4 };

/** Widths at distances from the cork end for a tip this wide; the usual flare. */
const planform = (overallMm: number, tipMm: number, threadMm: number) => ({
  widths: [
    { fromCorkMm: 47, widthMm: threadMm },
    { fromCorkMm: overallMm - 15, widthMm: tipMm * 0.77 },
    { fromCorkMm: overallMm - 11, widthMm: tipMm * 0.847 },
    { fromCorkMm: overallMm - 8, widthMm: tipMm * 0.909 },
    { fromCorkMm: overallMm - 5, widthMm: tipMm * 0.963 },
    { fromCorkMm: overallMm - 2, widthMm: tipMm * 0.994 },
    { fromCorkMm: overallMm, widthMm: tipMm },
  ],
});
const staple = { lengthMm: 47 };
const tie = { threadMm: 47 };

/** The favourite, a short scrape, a reed in four passes, and a failure. Everything about them is invented. */
export const INVENTED_REEDS: readonly InventedReed[] = [
  {
    reed: {
      label: 'K-117',
      styleId: 'long-scrape',
      state: 'playing',
      purpose: 'concert',
      slot: 1,
      staple,
      tie,
      planform: planform(70.2, 7, 4.7),
    },
    daysAgo: 9,
    playedHours: 19,
    passes: [
      {
        day: 1,
        overallLengthMm: 70.2,
        openingMm: 1,
        ...wet,
        played: {
          crow: { lowestNote: 'C5', cents: -5, octaves: 2 },
          response: 5,
          resistance: 3,
          stability: 5,
          dark: 4,
          full: 4,
          verdict: 'concert',
          words: 'everything speaks',
        },
      },
    ],
  },
  {
    reed: {
      label: 'S-026',
      styleId: 'short-scrape',
      state: 'playing',
      purpose: 'rehearsal',
      slot: 2,
      staple,
      tie,
      planform: planform(72.3, 7.2, 4.8),
    },
    daysAgo: 6,
    playedHours: 6,
    passes: [
      {
        day: 1,
        overallLengthMm: 72.3,
        openingMm: 1.1,
        ...wet,
        played: {
          crow: { lowestNote: 'B5', rattle: 'some' },
          response: 4,
          resistance: 3,
          stability: 4,
          dark: 3,
          full: 4,
          verdict: 'rehearsal',
          words: 'one broad rattle',
        },
      },
    ],
  },
  {
    reed: {
      label: 'M-142',
      styleId: 'long-scrape',
      state: 'scraping',
      slot: 3,
      staple,
      tie,
      planform: planform(70.9, 7, 4.7),
    },
    daysAgo: 0,
    passes: [
      {
        day: 1,
        overallLengthMm: 70.9,
        openingMm: 1.5,
        controls: [58, 58],
        ...wet,
        scrape: { places: [], knife: 'bevelled' },
        note: 'rough scrape',
        played: { words: 'peeps high C, no low octave', verdict: 'not yet' },
      },
      {
        day: 2,
        overallLengthMm: 70.9,
        controls: [59, 58],
        ...wet,
        scrape: { knife: 'bevelled', places: [place('tip', 12), place('blend', 8)] },
        played: { words: 'crow B, flat, wild', crow: { lowestNote: 'B', cents: -30 }, verdict: 'not yet' },
      },
      {
        day: 3,
        overallLengthMm: 70.5,
        clipMm: 0.4,
        controls: [60, 59],
        wetness: 'wet',
        soakMin: 9,
        scrape: {
          knife: 'bevelled',
          places: [place('corners', 5), place('windows', 9), place('blend', 5)],
        },
        played: { words: 'one octave, stiff', crow: { lowestNote: 'C', octaves: 1 }, verdict: 'not yet' },
      },
      {
        day: 5,
        overallLengthMm: 70.5,
        controls: [59, 58],
        ...wet,
        scrape: {
          knife: 'bevelled',
          accident: 'dig',
          places: [
            place('heart', 8),
            place('heart-sides', 8),
            place('tip', 4),
            { zone: 'windows', blade: 'A', side: 'left', fromTipMm: 10, strokes: 6 },
          ],
        },
        played: {
          words: 'two octaves, upper notes sag',
          crow: { lowestNote: 'C', cents: 10, octaves: 2 },
          response: 3,
          verdict: 'not yet',
        },
      },
    ],
  },
  {
    reed: {
      label: 'M-139',
      styleId: 'long-scrape',
      state: 'retired',
      staple,
      tie,
      planform: planform(69.8, 7, 4.7),
      note: 'Stop at the gouger when the sides differ by over 3 hundredths; never cure a damp-day opening from the back.',
    },
    daysAgo: 12,
    playedHours: 2,
    passes: [
      {
        day: 1,
        overallLengthMm: 69.8,
        openingMm: 0.6,
        ...wet,
        played: {
          crow: { lowestNote: 'A#', cents: -60 },
          resistance: 1,
          verdict: 'no',
          words: 'collapses when pushed',
        },
      },
    ],
  },
];
