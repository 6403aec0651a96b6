import {
  centred,
  dot,
  falseDiscoveryRates,
  rankChance,
  rankInterval,
  ranks,
} from '../learning/rank-correlation.ts';
import type { Column } from './columns.ts';

/** Fewer reeds than this with both a figure and an outcome are not compared: chance alone would look like a relation. */
export const FEWEST_PAIRS = 12;
/**
 * Chance that anything is said where nothing is related, at most. Chosen so that with shuffled outcomes something is said in
 * clearly less than one library in twenty.
 */
export const CLAIM_RATE = 0.015;

/** How one figure goes with one outcome. */
export interface Relation {
  readonly figure: Column;
  readonly outcome: Column;
  /** Spearman's rank correlation. */
  readonly rho: number;
  readonly n: number;
  /** Two-sided, before the correction for many comparisons. */
  readonly p: number;
  /** The smallest `CLAIM_RATE` at which the bench would say so. */
  readonly q: number;
  /** Whether the bench says so. */
  readonly said: boolean;
  /** Of rho; for what is said, widened for having been chosen among many. */
  readonly interval: readonly [low: number, high: number];
}

/** What is compared among reeds of one style. */
export interface Compared {
  readonly figures: readonly Column[];
  readonly outcomes: readonly Column[];
}

type Raw = Pick<Relation, 'figure' | 'outcome' | 'rho' | 'n' | 'p'>;

/** Ranks less their mean, at unit length; undefined where nothing varies. */
function rankDirection(values: readonly number[]): number[] | undefined {
  const ranked = centred(ranks(values));
  const size = Math.sqrt(dot(ranked, ranked));
  return size > 0 ? ranked.map((value) => value / size) : undefined;
}

const isWhole = ({ values }: Column) => values.every((value) => !Number.isNaN(value));

function* rawRelations({ figures, outcomes }: Compared): Generator<Raw> {
  const whole = new Map(
    [...figures, ...outcomes].filter(isWhole).map((column) => [column, rankDirection(column.values)]),
  );
  for (const outcome of outcomes) {
    for (const figure of figures) {
      const pairs = whole.has(figure) && whole.has(outcome) ? undefined : knownPairs(figure, outcome);
      const n = pairs ? pairs[0].length : figure.values.length;
      if (n < FEWEST_PAIRS) continue;
      const x = pairs ? rankDirection(pairs[0]) : whole.get(figure);
      const y = pairs ? rankDirection(pairs[1]) : whole.get(outcome);
      if (!x || !y) continue;
      const rho = dot(x, y);
      yield { figure, outcome, rho, n, p: rankChance(rho, n) };
    }
  }
}

function knownPairs(a: Column, b: Column): readonly [number[], number[]] {
  const known = a.values.map((_, i) => i).filter((i) => !Number.isNaN(a.values[i]! + b.values[i]!));
  return [known.map((i) => a.values[i]!), known.map((i) => b.values[i]!)];
}

/** Rates of false findings within each outcome, times the number of outcomes: one that is unrelated gains nothing from others. */
function correctedRates(styles: readonly (readonly Raw[])[]): Map<Raw, number> {
  const families = styles.flatMap((style) => {
    const outcomes = new Map<Column, Raw[]>();
    for (const one of style) outcomes.set(one.outcome, [...(outcomes.get(one.outcome) ?? []), one]);
    return [...outcomes.values()];
  });
  return new Map(
    families.flatMap((family) =>
      falseDiscoveryRates(family.map(({ p }) => p)).map(
        (rate, i) => [family[i]!, Math.min(1, rate * families.length)] as const,
      ),
    ),
  );
}

/**
 * Rank correlations of every figure with every outcome, the surest first, corrected over all of them and all styles.
 *
 * Source: Benjamini & Hochberg 1995 for the rate of false findings within an outcome, Bonferroni over the outcomes;
 * Benjamini & Yekutieli 2005 for intervals of what was chosen: coverage 1 - rate x chosen / compared.
 *
 * @returns One list for each style given, in its order.
 */
export function relations(styles: readonly Compared[]): Relation[][] {
  const raw = styles.map((style) => [...rawRelations(style)]);
  const all = raw.flat();
  const rates = correctedRates(raw);
  const chosen = all.filter((one) => rates.get(one)! <= CLAIM_RATE).length;
  const coverage = 1 - (0.05 * Math.max(1, chosen)) / Math.max(1, all.length);
  return raw.map((style) =>
    style
      .map((one): Relation => {
        const q = rates.get(one)!;
        const said = q <= CLAIM_RATE;
        return { ...one, q, said, interval: rankInterval(one.rho, one.n, said ? coverage : 0.95) };
      })
      .sort((a, b) => a.p - b.p),
  );
}
