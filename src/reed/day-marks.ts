import { dayNumber } from '../../shared/moment.ts';
import type { PassHead } from '../../shared/pass.ts';
import type { Id } from '../../shared/ids.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Trial } from '../../shared/trial.ts';
import { listed } from '../words/figure-words.ts';
import { zoneWords } from '../blade/starting-styles.ts';
import { stationText, type NumberFormat } from '../words/format.ts';

/** Something that happened to a reed on a day, as charts of days mark it. */
export interface DayMark {
  readonly day: number;
  readonly kind: 'read' | 'knife' | 'trial' | 'clip';
  readonly reedId: Id;
  readonly label: string;
  /** The pass that it was, or followed. */
  readonly pass?: number;
  readonly words: string;
}

interface Kept {
  readonly reeds: readonly Reed[];
  readonly passes: readonly PassHead[];
  readonly trials: readonly Trial[];
}

const ORDER: readonly DayMark['kind'][] = ['clip', 'knife', 'read', 'trial'];

function passWords({ index, readingCount, scrape }: PassHead): string {
  const zones = [...new Set(scrape?.places.map(({ zone }) => zoneWords(zone)))];
  const worked = zones.length > 0 ? `knife on ${listed(zones)}` : '';
  const read = readingCount > 0 ? `${readingCount} readings` : 'not read';
  return [`pass ${index}`, worked, read].filter(Boolean).join(', ');
}

function ofPass(pass: PassHead, label: string, writing: Pick<NumberFormat, 'decimal'>): DayMark[] {
  const { takenAt, reedId, index, readingCount, clipMm } = pass;
  if (takenAt === undefined) return [];
  const own = { day: dayNumber(takenAt), reedId, label, pass: index };
  const clip = { ...own, kind: 'clip' as const, words: `clipped ${stationText(clipMm ?? 0, writing)}` };
  return [
    ...(clipMm ? [clip] : []),
    { ...own, kind: readingCount > 0 ? ('read' as const) : ('knife' as const), words: passWords(pass) },
  ];
}

function ofTrial({ playedAt, reedId, afterPass, verdict, words }: Trial, label: string): DayMark {
  const said = [verdict ?? 'tried', words].filter(Boolean).join(': ');
  return {
    day: dayNumber(playedAt),
    kind: 'trial',
    reedId,
    label,
    ...(afterPass !== undefined && { pass: afterPass }),
    words: said,
  };
}

/** Passes, clips and trials of reeds by day; within a day by reed, and in the order in which they come about. */
export function dayMarks({ reeds, passes, trials }: Kept, writing: Pick<NumberFormat, 'decimal'>): DayMark[] {
  const labels = new Map(reeds.map(({ id, label }) => [id, label]));
  const marks = [
    ...passes.flatMap((pass) => {
      const label = labels.get(pass.reedId);
      return label === undefined ? [] : ofPass(pass, label, writing);
    }),
    ...trials.flatMap((trial) => {
      const label = labels.get(trial.reedId);
      return label === undefined ? [] : [ofTrial(trial, label)];
    }),
  ];
  return marks.sort(
    (a, b) =>
      a.day - b.day || a.label.localeCompare(b.label) || ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind),
  );
}
