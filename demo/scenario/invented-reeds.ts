import { makeId, type Id } from '../../shared/ids.ts';
import { moment } from '../../shared/moment.ts';
import type { Reading } from '../../shared/reading.ts';
import type { NewDraft } from '../../src/ledger/drafts.ts';
import { inventedCane, type InventedCane } from './invented-cane.ts';
import { INVENTED_READINGS } from './invented-readings.ts';

const POSITIONS = [-0.8, -0.4, 0, 0.4, 0.8];
const DAY_MS = 86_400_000;
const invented = true as const;

type ReedDraft = Extract<NewDraft, { kind: 'reed' }>;
type PassDraft = Extract<NewDraft, { kind: 'pass' }>;
type TrialDraft = Extract<NewDraft, { kind: 'trial' }>;

/** What an invented pass was like besides its readings. `day` counts from the first. */
interface InventedPass extends Partial<Omit<PassDraft, 'kind' | 'id' | 'reedId' | 'index' | 'readings'>> {
  readonly day: number;
  readonly controls?: readonly [a: number, b: number];
  readonly played?: Omit<TrialDraft, 'kind' | 'id' | 'reedId' | 'playedAt' | 'afterPass' | 'pitchCents'>;
}

interface InventedReed {
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
const REEDS: readonly InventedReed[] = [
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

function stations(table: string): Reading[] {
  return table
    .trim()
    .split('\n')
    .flatMap((row) => {
      const [fromTip, ...blades] = row.split('|').map((part) => part.trim());
      return blades.flatMap((cells, b) =>
        cells.split(' ').map(
          (cell, i): Reading => ({
            blade: b === 0 ? 'A' : 'B',
            fromTipMm: Number(fromTip),
            across: POSITIONS[i]!,
            thicknessMm: Number(cell) / 100,
            repeat: 0,
            flag: 'ok',
            role: 'station',
          }),
        ),
      );
    });
}

/** The two readings of untouched cane, centre, 3 mm above the thread. */
function controlReadings(overallLengthMm: number, controls: readonly [number, number] | undefined): Reading[] {
  return (controls ?? []).map((hundredths, i) => ({
    blade: i === 0 ? 'A' : 'B',
    fromTipMm: Number((overallLengthMm - 50).toFixed(2)),
    across: 0,
    thicknessMm: hundredths / 100,
    repeat: 0,
    flag: 'ok',
    role: 'control',
  }));
}

/** All documents of the invented scenario, marked as invented, dated back from now. */
export function inventedReeds(now: Date, random: (count: number) => Uint8Array): NewDraft[] {
  const newId = () => makeId(now.getTime(), random(10));
  const at = (daysAgo: number) => moment(new Date(now.getTime() - daysAgo * DAY_MS));
  const cane = inventedCane(newId, at);
  return [...cane.documents, ...REEDS.flatMap((one) => documentsOf(one, cane, newId, at))];
}

function documentsOf(
  { reed, passes, daysAgo, playedHours }: InventedReed,
  { lotIds, pieceIds, shapeIds }: InventedCane,
  newId: () => Id,
  at: (daysAgo: number) => string,
): NewDraft[] {
  const reedId = newId();
  const [lotId, pieceId] = [lotIds.get(reed.label[0]!), pieceIds.get(reed.label)];
  const cane = { lotId, pieceId, shapeId: shapeIds.get(reed.styleId) };
  const lastDay = passes.at(-1)!.day;
  const when = ({ day }: InventedPass) => at(daysAgo + lastDay - day);
  const favourite = reed.label === 'K-117' && { favourite: { passIndex: 0, since: at(daysAgo) } };
  const retirement = reed.state === 'retired' && {
    retirement: { on: at(daysAgo).slice(0, 10), cause: 'never good' as const },
  };
  const documents: NewDraft[] = [
    { kind: 'reed', id: reedId, ...reed, ...cane, tags: [], ...favourite, ...retirement, invented },
  ];
  passes.forEach((pass, index) => {
    const { day: _day, controls, played, ...facts } = pass;
    const readings = [
      ...stations(INVENTED_READINGS[reed.label]![index]!),
      ...controlReadings(facts.overallLengthMm ?? 70, controls),
    ];
    const own = { reedId, takenAt: when(pass), threadMm: 47, gaugeStepMm: 0.01, remedies: [], invented };
    documents.push({ kind: 'pass', ...own, ...facts, index, readings });
    if (played)
      documents.push({
        kind: 'trial',
        reedId,
        afterPass: index,
        playedAt: when(pass),
        pitchCents: [],
        ...played,
        invented,
      });
  });
  if (playedHours !== undefined)
    documents.push({
      kind: 'use',
      reedId,
      at: at(Math.max(0, daysAgo - 1)),
      minutes: playedHours * 60,
      service: reed.purpose === 'concert' ? 'concert' : 'rehearsal',
      invented,
    });
  return documents;
}
