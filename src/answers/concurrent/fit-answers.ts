import type { PassFaults } from '../../faults/fault.ts';
import { faultSearch } from '../../faults/find-faults.ts';
import { faultOptions, judgedPasses } from '../../faults/judged-passes.ts';
import { isOpen } from '../../faults/open-questions.ts';
import { shortChoices, shortRound } from '../../round/short-round.ts';
import type { ReedPosterior } from '../../surface/reed-posterior.ts';
import { benchReed, settled, type FittedReed } from '../fitted-reed.ts';
import { lessonsOf, type Lessons } from '../from-library.ts';
import { knownPlaces } from '../known-places.ts';
import { leftOpen, liveReed, type LiveReed } from '../live-reed.ts';
import { unfittedReed } from '../unfitted-reed.ts';
import type {
  FitResponse,
  FitOrder,
  FitRequest,
  LiveParts,
  PlacesBefore,
  SurfaceParts,
} from './fit-request.ts';

/** Answers wishes; the last reed stays fitted, so that what is wanted of it next is quick. */
export function fitAnswers(): (wish: FitRequest) => Promise<FitResponse> {
  let last: { readonly key: string; readonly benched: FittedReed } | undefined;
  let taught: { readonly key: string; readonly lessons: Lessons } | undefined;
  const lessons = (others: FitOrder['others']): Lessons => {
    if (!others) return [];
    if (taught?.key !== others.key) taught = { key: others.key, lessons: lessonsOf(others) };
    return taught.lessons;
  };
  const fitted = ({ key, reed, passes, gauges, style, others }: FitOrder) => {
    if (last?.key !== key) last = { key, benched: benchReed(reed, passes, gauges, style, lessons(others)) };
    return last.benched;
  };
  return async (wish) => {
    if (wish.want === 'faults') {
      const faults = await faultsOf(wish, lessons(wish.others));
      return { faults, ...(isOpen(faults) && settledParts(fitted(wish), faults)) };
    }
    if (wish.want === 'places') return { places: placesBefore(wish, lessons(wish.others)) };
    const benched = fitted(wish);
    if (wish.want === 'surfaces') return surfacesOf(benched);
    const live = liveReed(benched, wish.passIndex);
    return live ? { live: liveParts(live) } : {};
  };
}

function surfacesOf({ model, fromLibrary }: FittedReed): FitResponse {
  return model ? { surfaces: surfaceParts(model), ...(fromLibrary && { fromLibrary }) } : {};
}

function placesBefore(
  { reed, passes, gauges, style, next, begun }: Extract<FitRequest, { want: 'places' }>,
  lessons: Lessons,
): PlacesBefore {
  const known = knownPlaces(unfittedReed(reed, passes, gauges, style), next, gauges, lessons);
  return {
    known,
    choices: begun ? [] : shortChoices(known),
    ...(begun?.short && { short: shortRound(known, begun.short) }),
  };
}

function settledParts(benched: FittedReed, faults: readonly PassFaults[]): Pick<FitResponse, 'settled'> {
  const now = settled(benched, faults);
  return now !== benched && now.model ? { settled: surfaceParts(now.model) } : {};
}

/** Faults of a reed's passes, one pass after the other with room between them for other work. */
async function faultsOf(
  { reed, passes, gauges, style }: FitOrder,
  taught: Lessons,
): Promise<readonly PassFaults[]> {
  const { assembled, passes: ordered } = unfittedReed(reed, passes, gauges, style);
  if (assembled.passes.length === 0) return [];
  const search = faultSearch(judgedPasses(assembled, ordered), {
    ...faultOptions(assembled),
    families: taught.map(({ predictive }) => predictive),
  });
  for (;;) {
    await new Promise((resolve) => setTimeout(resolve));
    const step = search.next();
    if (step.done) return step.value;
  }
}

function surfaceParts(model: ReedPosterior): SurfaceParts {
  const { blades, layouts, records, errors, sharedMean, sharedCovariance, noise, noiseFrom } = model;
  return { blades, layouts, records, errors, sharedMean, sharedCovariance, noise, noiseFrom };
}

function liveParts(live: LiveReed): LiveParts {
  const { pass, begun, read, grid, weights } = live;
  return {
    pass,
    begun,
    read,
    grid,
    weights,
    open: leftOpen(live),
  };
}
