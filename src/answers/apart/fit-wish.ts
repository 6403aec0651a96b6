import type { Pass } from '../../../shared/pass.ts';
import type { Reed } from '../../../shared/reed.ts';
import type { ReadGauge } from '../../reed/pass-gauge.ts';
import type { PassFaults } from '../../faults/fault.ts';
import { faultSearch } from '../../faults/find-faults.ts';
import { judgedPasses } from '../../faults/judged-passes.ts';
import { fittedReed, type FittedReed } from '../../surface/fitted-reed.ts';
import { benchReed, unfittedReed, type BenchedReed } from '../benched-reed.ts';
import { leastSure, liveReed, type LeastSure, type LiveReed } from '../live-reed.ts';

/** A reed to be fitted. Plain data, as is everything else here: it may go to another thread and come back. */
export interface FitOrder {
  /** Two orders with the same key have the same fit. */
  readonly key: string;
  readonly reed: Reed;
  readonly passes: readonly Pass[];
  readonly gauges: readonly ReadGauge[];
}

/** What is wanted of a reed: its surfaces, what is shown while its pass of this index is typed, or the faults of its passes. */
export type FitWish = FitOrder &
  (
    | { readonly want: 'surfaces' }
    | { readonly want: 'faults' }
    | { readonly want: 'live'; readonly passIndex: number }
  );

/** The surfaces, without the functions that follow from the reed's documents. */
export type SurfaceParts = Pick<
  FittedReed,
  'blades' | 'layouts' | 'sharedMean' | 'sharedCovariance' | 'noise' | 'noiseFrom'
>;

/** What a live reed holds beside its surfaces, and what these leave most open. */
export interface LiveParts extends Pick<LiveReed, 'pass' | 'read' | 'grid'> {
  readonly weights: Omit<LiveReed['weights'], 'layouts'>;
  readonly leastSure?: LeastSure;
}

/** Each absent where there is nothing: a reed without readings, a pass that it does not have. */
export interface FitAnswer {
  readonly surfaces?: SurfaceParts;
  readonly live?: LiveParts;
  readonly faults?: readonly PassFaults[];
}

/** Answers wishes; the last reed stays fitted, so that what is wanted of it next is quick. */
export function fitAnswers(): (wish: FitWish) => Promise<FitAnswer> {
  let last: { readonly key: string; readonly benched: BenchedReed } | undefined;
  const fitted = ({ key, reed, passes, gauges }: FitOrder) => {
    if (last?.key !== key) last = { key, benched: benchReed(reed, passes, gauges) };
    return last.benched;
  };
  return async (wish) => {
    if (wish.want === 'faults') return { faults: await faultsOf(wish) };
    const benched = fitted(wish);
    if (wish.want === 'surfaces') return benched.model ? { surfaces: surfaceParts(benched.model) } : {};
    const live = liveReed(benched, wish.passIndex);
    return live ? { live: liveParts(live) } : {};
  };
}

/** Faults of a reed's passes, one pass after the other with room between them for other work. */
async function faultsOf({ reed, passes, gauges }: FitOrder): Promise<readonly PassFaults[]> {
  const { assembled, passes: ordered } = unfittedReed(reed, passes, gauges);
  const search = faultSearch(judgedPasses(assembled, ordered), assembled.options);
  for (;;) {
    await new Promise((resolve) => setTimeout(resolve));
    const step = search.next();
    if (step.done) return step.value;
  }
}

/** The reed of an order with the surfaces that were answered. */
export function benchedFrom({ reed, passes, gauges }: FitOrder, { surfaces }: FitAnswer): BenchedReed {
  const unfitted = unfittedReed(reed, passes, gauges);
  const model = surfaces && fittedReed({ passes: unfitted.assembled.passes, ...surfaces });
  return { ...unfitted, ...(model && { model }) };
}

/** The live reed that was answered, over the reed that it was wanted of. */
export function liveFrom(benched: BenchedReed, { live }: FitAnswer): LiveReed | undefined {
  const { model } = benched;
  if (!live || !model) return undefined;
  const { pass, read, grid, weights } = live;
  return { benched, model, pass, read, grid, weights: { ...weights, layouts: model.layouts } };
}

function surfaceParts({
  blades,
  layouts,
  sharedMean,
  sharedCovariance,
  noise,
  noiseFrom,
}: FittedReed): SurfaceParts {
  return { blades, layouts, sharedMean, sharedCovariance, noise, noiseFrom };
}

function liveParts(live: LiveReed): LiveParts {
  const { pass, read, grid, weights } = live;
  const place = leastSure(live);
  return {
    pass,
    read,
    grid,
    weights: { zones: weights.zones, maps: weights.maps },
    ...(place && { leastSure: place }),
  };
}
