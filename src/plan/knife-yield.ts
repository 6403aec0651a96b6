import { InputError } from '../../shared/errors.ts';
import type { Estimate } from '../surface/reed-model.ts';

/** One logged piece of work: strokes in a region, and what the readings say it took. */
export interface YieldEntry {
  readonly region: string;
  readonly strokes: number;
  /** Mean removal there, mm, with its standard uncertainty. */
  readonly removed: Estimate;
}

/** What one stroke takes in a region. */
export interface RegionYield {
  readonly perStrokeMm: number;
  readonly uMm: number;
  readonly entries: number;
}

export type KnifeYield =
  | { readonly known: false; readonly sentence: string }
  | {
      readonly known: true;
      readonly overall: RegionYield;
      readonly regions: ReadonlyMap<string, RegionYield>;
    };

const FEWEST_ENTRIES = 3;
/** Strokes differ from one day to the next, as a share of the yield. Common practice, no source. */
const DAY_TO_DAY = 0.2;

/**
 * Yield per stroke of one knife, regions partly pooled: each is drawn towards the knife's mean, the more so the less it
 * was worked. Day-to-day scatter is allowed for beside the doubt of the readings.
 *
 * Source: DerSimonian & Laird 1986, doi 10.1016/0197-2456(86)90046-2, for the variance between regions.
 *
 * @param entries Work with at least one stroke.
 * @throws InputError naming an entry without strokes or doubt.
 */
export function knifeYield(entries: readonly YieldEntry[]): KnifeYield {
  entries.forEach(({ strokes, removed }, i) => {
    if (!(strokes > 0)) throw new InputError(`entries[${i}].strokes: must be above 0, got ${strokes}`);
    if (!(removed.uMm > 0))
      throw new InputError(`entries[${i}].removed.uMm: must be above 0, got ${removed.uMm}`);
  });
  if (entries.length < FEWEST_ENTRIES) {
    return {
      known: false,
      sentence: 'Not enough yet: two or three more logged passes will tell what a stroke takes.',
    };
  }
  const rates = entries.map(({ region, strokes, removed }) => ({
    region,
    rate: removed.valueMm / strokes,
    own: (removed.uMm / strokes) ** 2,
  }));
  const first = weighted(rates.map(({ rate, own }) => ({ value: rate, variance: own })));
  const variances = rates.map(({ own }) => own + (DAY_TO_DAY * first.value) ** 2);
  const regions = new Map<string, { value: number; variance: number; entries: number }>();
  for (const region of new Set(rates.map((rate) => rate.region))) {
    const own = rates.flatMap((rate, i) =>
      rate.region === region ? [{ value: rate.rate, variance: variances[i]! }] : [],
    );
    regions.set(region, { ...weighted(own), entries: own.length });
  }
  return { known: true, ...pool(regions, entries.length) };
}

interface Weighted {
  readonly value: number;
  readonly variance: number;
}

function weighted(values: readonly Weighted[]): Weighted {
  const total = values.reduce((sum, { variance }) => sum + 1 / variance, 0);
  return {
    value: values.reduce((sum, { value, variance }) => sum + value / variance, 0) / total,
    variance: 1 / total,
  };
}

/** How much regions usually differ, as a share of the yield, and how many regions that guess is worth. Common practice. */
const USUAL_BETWEEN = 0.25;
const USUAL_BETWEEN_WEIGHT = 3;

/** Variance between regions: the method of moments, drawn towards a usual one because regions are few. */
function betweenVariance(values: readonly Weighted[]): number {
  const usual = (USUAL_BETWEEN * weighted(values).value) ** 2;
  if (values.length < 2) return usual;
  const weights = values.map(({ variance }) => 1 / variance);
  const sum = weights.reduce((a, b) => a + b, 0);
  const { value: mean } = weighted(values);
  const q = values.reduce((total, { value, variance }) => total + (value - mean) ** 2 / variance, 0);
  const scale = sum - weights.reduce((a, b) => a + b * b, 0) / sum;
  const moments = Math.max(0, (q - (values.length - 1)) / scale);
  const free = values.length - 1;
  return (USUAL_BETWEEN_WEIGHT * usual + free * moments) / (USUAL_BETWEEN_WEIGHT + free);
}

function pool(regions: ReadonlyMap<string, Weighted & { entries: number }>, entries: number) {
  const between = betweenVariance([...regions.values()]);
  const overall = weighted(
    [...regions.values()].map(({ value, variance }) => ({ value, variance: variance + between })),
  );
  const pooled = new Map<string, RegionYield>();
  for (const [region, { value, variance, entries: own }] of regions) {
    const share = between / (between + variance);
    const drawn = overall.value + share * (value - overall.value);
    const doubt = share * variance + (1 - share) ** 2 * overall.variance;
    pooled.set(region, { perStrokeMm: drawn, uMm: Math.sqrt(doubt), entries: own });
  }
  return {
    overall: { perStrokeMm: overall.value, uMm: Math.sqrt(overall.variance + between), entries },
    regions: pooled,
  };
}

/** Strokes that take an amount, few rather than many: the most that the yield's upper 90 % limit allows. */
export function strokesFor(takeMm: number, { perStrokeMm, uMm }: RegionYield): number {
  return Math.max(1, Math.floor(takeMm / (perStrokeMm + 1.645 * uMm)));
}

/** A knife by its name, and what is known of it. */
export interface KnifeInHand {
  readonly name: string | undefined;
  readonly known: KnifeYield | undefined;
}

/** What a stroke takes in a region, if it is known: the region's own yield, or that of the knife where it was not worked. */
export function yieldIn(known: KnifeYield | undefined, region: string): RegionYield | undefined {
  return known?.known ? (known.regions.get(region) ?? known.overall) : undefined;
}
