import { amountText, COVERAGE, numberText, withUnit, type NumberFormat } from '../words/format.ts';
import type { Done } from './meant-and-done.ts';

/** How well plans told what would go. */
export interface PastPlans {
  /** Pieces of work that were meant and read again. */
  readonly count: number;
  /** Done less meant: the mean, and the scatter of a single piece of work, mm. */
  readonly biasMm: number;
  readonly scatterMm: number;
  /** What was done as a share of what was meant, over all. */
  readonly share: number;
  /** How many lay within their own 95 % doubt of what was meant. */
  readonly within: number;
}

const FEWEST = 3;

/** Undefined while fewer than three pieces of work were meant and read again. */
export function pastPlans(rows: readonly Done[]): PastPlans | undefined {
  const count = rows.length;
  if (count < FEWEST) return undefined;
  const apart = rows.map(({ meantMm, done }) => done.valueMm - meantMm);
  const biasMm = apart.reduce((a, b) => a + b, 0) / count;
  const scatterMm = Math.sqrt(apart.reduce((sum, value) => sum + (value - biasMm) ** 2, 0) / (count - 1));
  const total = (value: (row: Done) => number) => rows.reduce((sum, row) => sum + value(row), 0);
  return {
    count,
    biasMm,
    scatterMm,
    share: total(({ done }) => done.valueMm) / total(({ meantMm }) => meantMm),
    within: rows.filter((row, i) => Math.abs(apart[i]!) <= COVERAGE * row.done.uMm).length,
  };
}

/** How well past plans predicted what was removed, in a sentence. */
export function sayPastPlans(past: PastPlans | undefined, writing: NumberFormat): string {
  if (!past) return 'Too few plans were read again to say how well they told what would go.';
  const { count, share, within, scatterMm } = past;
  const percent = withUnit(numberText(100 * share, 0, writing), '%');
  return `Over ${count} pieces of work ${percent} of what was meant went; one alone strays by about ${amountText(scatterMm, writing)}, and ${within} of ${count} lay within their doubt of what was meant.`;
}
