import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { StyleTemplate } from '../blade/starting-styles.ts';
import { assembleReed, type AssembledReed } from '../reed/assemble.ts';
import type { ReadGauge } from '../reed/pass-gauge.ts';

/** A reed's documents, and what is to be fitted of them. */
export interface UnfittedReed {
  readonly reed: Reed;
  /** In order; the model's passes stand in the same places. */
  readonly passes: readonly Pass[];
  readonly assembled: AssembledReed;
}

/** A reed put together from its documents, without its surfaces. */
export function unfittedReed(
  reed: Reed,
  passes: readonly Pass[],
  gauges: readonly ReadGauge[] = [],
  style?: StyleTemplate,
): UnfittedReed {
  const ordered = [...passes].sort((a, b) => a.index - b.index);
  return {
    reed,
    passes: ordered,
    assembled: assembleReed({ reed, passes: ordered, gauges, ...(style && { style }) }),
  };
}
