import type { Pass } from '../../../shared/pass.ts';
import type { Reed } from '../../../shared/reed.ts';
import type { Round } from '../../../shared/round.ts';
import type { StyleTemplate } from '../../blade/starting-styles.ts';
import type { ReadGauge } from '../../reed/pass-gauge.ts';
import type { PassFaults } from '../../faults/fault.ts';
import type { KnownPlaces, ShortChoice, ShortRound } from '../../round/short-round.ts';
import { openedFor } from '../../surface/add-reading.ts';
import { fittedReed, type FittedParts } from '../../surface/reed-posterior.ts';
import type { FittedReed } from '../fitted-reed.ts';
import type { LeftOpen, LiveReed } from '../live-reed.ts';
import type { OtherReeds } from '../from-library.ts';
import type { NextPass } from '../known-places.ts';
import type { FromLibrary } from '../library-words.ts';
import { unfittedReed } from '../unfitted-reed.ts';

/** A reed to be fitted. Plain data, as is everything else here: it may go to another thread and come back. */
export interface FitOrder {
  /** Two orders with the same key have the same fit. */
  readonly key: string;
  readonly reed: Reed;
  readonly passes: readonly Pass[];
  readonly gauges: readonly ReadGauge[];
  /** The reed's style as the maker has it; absent where it is as it starts. */
  readonly style?: StyleTemplate;
  /** The maker's other reeds, for one that was read in few places. */
  readonly others?: OtherReeds;
}

/**
 * What is wanted of a reed: its surfaces, what is shown while its pass of this index is typed, the faults of its passes, or
 * what is known of its places before its next pass.
 */
export type FitRequest = FitOrder &
  (
    | { readonly want: 'surfaces' }
    | { readonly want: 'faults' }
    | { readonly want: 'live'; readonly passIndex: number }
    | { readonly want: 'places'; readonly next: NextPass; readonly begun?: Pick<Round, 'short'> | undefined }
  );

/** What is known before a pass is read, what a short round may be asked, and the one that was begun. */
export interface PlacesBefore {
  readonly known: KnownPlaces;
  readonly choices: readonly ShortChoice[];
  readonly short?: ShortRound;
}

/** The surfaces, without the functions that follow from them and from the reed's documents. */
export type SurfaceParts = FittedParts;

/** What a live reed holds beside its surfaces, and what these leave open. */
export interface LiveParts extends Pick<LiveReed, 'pass' | 'begun' | 'read' | 'grid' | 'weights'> {
  readonly open: LeftOpen;
}

/** Each absent where there is nothing: a reed without readings, a pass that it does not have. */
export interface FitResponse {
  readonly surfaces?: SurfaceParts;
  readonly fromLibrary?: FromLibrary;
  readonly live?: LiveParts;
  readonly faults?: readonly PassFaults[];
  readonly places?: PlacesBefore;
  /** Beside faults that leave the noise of the gauge to be judged without some passes: the surfaces by that noise. */
  readonly settled?: SurfaceParts;
}

/** The reed of an order with the surfaces that were answered. */
export function benchedFrom(
  { reed, passes, gauges, style }: FitOrder,
  { surfaces, fromLibrary }: FitResponse,
): FittedReed {
  const unfitted = { ...unfittedReed(reed, passes, gauges, style), ...(fromLibrary && { fromLibrary }) };
  return surfaces ? withSurfaces(unfitted, surfaces) : unfitted;
}

/** A reed with these surfaces. */
export function withSurfaces(reed: FittedReed, surfaces: SurfaceParts): FittedReed {
  return { ...reed, model: fittedReed(reed.assembled.passes, surfaces) };
}

/** The live reed that was answered, over the reed that it was wanted of. */
export function liveFrom(benched: FittedReed, { live }: FitResponse): LiveReed | undefined {
  if (!live || !benched.model) return undefined;
  const { pass, begun, read, grid, weights } = live;
  const model = openedFor(benched.model, pass);
  return { benched, model, pass, begun, read, grid, weights };
}
