import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { StyleTemplate } from '../blade/starting-styles.ts';
import { placeZones, type PlacedZone } from '../blade/zones.ts';
import type { PassFaults } from '../faults/fault.ts';
import { isOpen, whileOpen } from '../faults/open-questions.ts';
import type { ReadGauge } from '../reed/pass-gauge.ts';
import { expectedFrom, type Lessons } from './from-library.ts';
import type { FromLibrary } from './library-words.ts';
import { fitReed } from '../surface/fit-reed.ts';
import type { ReedPosterior } from '../surface/reed-posterior.ts';
import { unfittedReed, type UnfittedReed } from './unfitted-reed.ts';

/** A reed on the bench: its documents, and all that follows from its readings. */
export interface FittedReed extends UnfittedReed {
  /** Absent while nothing was read. */
  readonly model?: ReedPosterior;
  /** What is asked of its passes, in their order, where that widens its figures. */
  readonly found?: readonly PassFaults[];
  /** What the maker's other reeds did for it; absent where they were not asked, or teach nothing. */
  readonly fromLibrary?: FromLibrary;
}

/** As much of it as its figures are made of. */
export type FiguredReed = Pick<FittedReed, 'assembled' | 'model' | 'found'> & {
  readonly reed: Pick<Reed, 'label'>;
};

/**
 * Fits a reed's passes. Takes some hundreds of milliseconds for many full passes: keep the result.
 *
 * @param style The reed's style where it is not as it starts.
 * @param lessons What the maker's other reeds teach, for a reed that was read in few places.
 */
export function benchReed(
  reed: Reed,
  passes: readonly Pass[],
  gauges: readonly ReadGauge[] = [],
  style?: StyleTemplate,
  lessons: Lessons = [],
): FittedReed {
  const unfitted = unfittedReed(reed, passes, gauges, style);
  if (unfitted.assembled.passes.every(({ readings }) => readings.length === 0)) return unfitted;
  const expected = expectedFrom(unfitted.assembled, lessons);
  return { ...unfitted, ...expected, model: fitReed(expected.assembled.passes, expected.assembled.options) };
}

/**
 * The reed as the report has it while faults of its passes are asked: its figures cover both answers, and the noise of its
 * gauge is judged without passes whose labels or lengths are in doubt. The same reed where nothing is asked.
 *
 * @param found What was found in its passes, in their order.
 */
export function settled(benched: FittedReed, found: readonly PassFaults[]): FittedReed {
  if (!benched.model || !isOpen(found)) return benched;
  const { passes, options } = whileOpen(benched.assembled.passes, found, benched.assembled.options);
  return { ...benched, model: fitReed(passes, options), found };
}

/** A reed's zones on one of its passes. */
export function zonesAt({ assembled }: Pick<FiguredReed, 'assembled'>, pass: number): PlacedZone[] {
  return placeZones(assembled.style, assembled.frame, assembled.passes[pass]!.overallLengthMm);
}

/** A reed at a pass, as one follows an example. */
export interface ReedAtPass {
  readonly benched: FittedReed;
  /** Place of the pass. */
  readonly pass: number;
}
