import type { GaugeCount } from './gauge-count.ts';
import { MM_PER_COUNT } from './reading-text.ts';

/** A zero farther off than this is a gauge that was not zeroed. Common practice, no source. */
const MOST_MM = 1;

/**
 * What the bare tongue reads, typed in the gauge's own count: `0`, `1`, `-1`, a decimal comma allowed.
 *
 * @returns mm, of either sign; undefined for what is no number or lies beyond 1 mm.
 */
export function typedZero(text: string, count: GaugeCount): number | undefined {
  const plain = text.trim().replace(',', '.').replace('\u2212', '-');
  const mm = Number((Number(plain) * MM_PER_COUNT[count]).toFixed(6));
  return plain !== '' && Math.abs(mm) <= MOST_MM ? mm : undefined;
}
