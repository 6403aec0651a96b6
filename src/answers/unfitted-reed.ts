import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { assembleReed } from '../reed/assemble.ts';
import type { ReadGauge } from '../reed/pass-gauge.ts';
import type { BenchedReed } from './benched-reed.ts';

/** A reed put together from its documents, without its surfaces. */
export function unfittedReed(
  reed: Reed,
  passes: readonly Pass[],
  gauges: readonly ReadGauge[] = [],
): Omit<BenchedReed, 'model'> {
  const ordered = [...passes].sort((a, b) => a.index - b.index);
  return { reed, passes: ordered, assembled: assembleReed({ reed, passes: ordered, gauges }) };
}
