import type { Reed } from '../../shared/reed.ts';
import { proportionInterval } from '../numerics/proportion-interval.ts';
import type { StyleTraits } from './common-traits.ts';
import type { Relation } from './relations.ts';
import { trendOf, type TrendPlace } from './trend.ts';

/** One reed at its figure and its outcome. */
export interface ClaimPoint {
  readonly reed: Reed;
  readonly x: number;
  readonly y: number;
  /** A favourite, or last called a concert reed. */
  readonly isGood: boolean;
}

/** Something that goes with good trials, with the reeds that it is said of. */
export interface Claim {
  readonly relation: Relation;
  /** In the order of the figure. */
  readonly points: readonly ClaimPoint[];
  /** How the outcome runs along the figure; empty for few reeds. */
  readonly trend: readonly TrendPlace[];
  /** Where eight in ten good reeds lie, and how many of the others lie there too; absent with too few good reeds. */
  readonly band?: {
    readonly low: number;
    readonly high: number;
    readonly others: ReturnType<typeof proportionInterval>;
  };
}

const MOST_CLAIMS = 3;
/** Fewer good reeds have no band. Our own number. */
const FEWEST_GOOD = 10;
/** Yes or no, and so no scale to draw reeds on. */
const NOT_DRAWN = ['favourite', 'failed'];

/** The values between which eight in ten of an ordered list lie: one in ten is left out at each end. */
function eightInTen(sorted: readonly number[]): readonly [low: number, high: number] {
  const out = Math.round(sorted.length / 10);
  return [sorted[out]!, sorted[sorted.length - 1 - out]!];
}

function bandOf(points: readonly ClaimPoint[]): Pick<Claim, 'band'> {
  const [good, others] = [points.filter(({ isGood }) => isGood), points.filter(({ isGood }) => !isGood)];
  if (good.length < FEWEST_GOOD || others.length === 0) return {};
  const [low, high] = eightInTen(good.map(({ x }) => x));
  const within = others.filter(({ x }) => x >= low && x <= high).length;
  return { band: { low, high, others: proportionInterval(within, others.length) } };
}

/** Favourites, and the reeds with the best verdict that any has. */
export function goodReeds({
  relations,
  reeds,
}: Pick<StyleTraits, 'relations' | 'reeds'>): ReadonlySet<Reed['id']> {
  const verdicts = relations.find(({ outcome }) => outcome.name === 'verdict')?.outcome.values ?? [];
  const best = Math.max(...verdicts.filter((value) => !Number.isNaN(value)));
  const good = reeds.filter(({ reed }, i) => reed.favourite !== undefined || verdicts[i] === best);
  return new Set(good.map(({ reed }) => reed.id));
}

/**
 * At most three of what is sure enough to be said, the surest first, none of a figure or an outcome that was told before,
 * each with the reeds behind it.
 */
export function claimsOf(style: Pick<StyleTraits, 'relations' | 'reeds'>): Claim[] {
  const { relations, reeds } = style;
  const good = goodReeds(style);
  const told = new Set<string>();
  const chosen = relations.filter(({ said, figure, outcome }) => {
    if (!said || NOT_DRAWN.includes(outcome.name) || told.has(figure.name) || told.has(outcome.name))
      return false;
    told.add(figure.name).add(outcome.name);
    return true;
  });
  return chosen.slice(0, MOST_CLAIMS).map((relation): Claim => {
    const points = reeds
      .map(({ reed }, i): ClaimPoint => ({
        reed,
        x: relation.figure.values[i]!,
        y: relation.outcome.values[i]!,
        isGood: good.has(reed.id),
      }))
      .filter(({ x, y }) => !Number.isNaN(x + y))
      .sort((a, b) => a.x - b.x);
    return { relation, points, trend: trendOf(points), ...bandOf(points) };
  });
}
