import type { Reed } from '../../shared/reed.ts';
import type { Trial } from '../../shared/trial.ts';
import { lastHeard } from '../rotation/in-rotation.ts';
import type { ReedSummary } from './reed-summary.ts';

/** One reed with all that comparisons over a library ask of it. */
export interface KnownReed {
  readonly reed: Reed;
  readonly summary: ReedSummary;
  readonly trials: readonly Trial[];
}

/** One property over many reeds: a figure of the surface, or how they turned out. NaN where it is not known. */
export interface Column {
  readonly name: string;
  /** More of it, in a sentence, with a small first letter. */
  readonly title: string;
  /** Less of it; for figures. */
  readonly opposite?: string;
  readonly values: readonly number[];
}

const VERDICTS = ['no', 'not yet', 'practice', 'rehearsal', 'concert'] as const;

/** What was heard of a reed as it was when its summary was taken, or later. */
function heardSince({ summary, trials }: KnownReed): Partial<Trial> {
  return lastHeard(trials.filter(({ afterPass }) => (afterPass ?? Infinity) >= summary.passIndex));
}

function hasFailed({ reed }: KnownReed, { verdict }: Partial<Trial>): boolean {
  return reed.retirement?.cause === 'never good' || verdict === 'no';
}

/** How reeds turned out. Scales are the maker's own, ranked and never averaged. */
export function outcomesOf(reeds: readonly KnownReed[]): Column[] {
  const heard = reeds.map(heardSince);
  const scale = (name: 'response' | 'resistance' | 'stability' | 'dark' | 'full', title: string): Column => ({
    name,
    title,
    values: heard.map((trial) => trial[name] ?? NaN),
  });
  return [
    {
      name: 'verdict',
      title: 'a better verdict',
      values: heard.map(({ verdict }) => (verdict ? VERDICTS.indexOf(verdict) : NaN)),
    },
    scale('response', 'quicker response'),
    scale('stability', 'more stability'),
    scale('resistance', 'more resistance'),
    scale('dark', 'a darker sound'),
    scale('full', 'a fuller sound'),
    {
      name: 'favourite',
      title: 'being a favourite',
      values: reeds.map(({ reed }) => Number(reed.favourite !== undefined)),
    },
    { name: 'failed', title: 'failing', values: reeds.map((one, i) => Number(hasFailed(one, heard[i]!))) },
  ];
}

/** Figures of the surfaces: the mean of each zone, where the blend stands, how far the two sides of the cane differ. */
export function figuresOf(reeds: readonly KnownReed[]): Column[] {
  const zones = reeds[0]?.summary.zones ?? [];
  return [
    ...zones.map(({ name, title }): Column => ({
      name,
      title: `more thickness at the ${title.toLowerCase()}`,
      opposite: `less thickness at the ${title.toLowerCase()}`,
      values: reeds.map(
        ({ summary }) => summary.zones.find((zone) => zone.name === name)?.mean.valueMm ?? NaN,
      ),
    })),
    {
      name: 'blend-place',
      title: 'a blend further from the tip',
      opposite: 'a blend nearer the tip',
      values: reeds.map(({ summary }) => summary.blend?.valueMm ?? NaN),
    },
    {
      name: 'sides',
      title: 'a larger difference of the two sides',
      opposite: 'a smaller difference of the two sides',
      values: reeds.map(({ summary }) => Math.abs(summary.side.valueMm)),
    },
  ];
}
