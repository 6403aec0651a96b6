import type { Reading } from '../../shared/reading.ts';
import type { RoundFormat } from '../../src/round/gauge-count.ts';
import { typedReading } from '../../src/round/typed-reading.ts';
import { readAgain, readOnce, type StationChange } from './grid-cells.ts';

type OnBlade = Pick<Reading, 'blade' | 'fromTipMm' | 'across'>;

/**
 * What a text typed into a station's cell makes of it: nothing clears it, a number stands in for what was read, `+` and a
 * number is kept beside it. A sentence where it cannot be understood.
 */
export function typedChange(
  { blade, fromTipMm, across }: OnBlade,
  before: readonly Reading[],
  text: string,
  { count, decimal }: RoundFormat,
): { readonly change: StationChange } | { readonly why: string } {
  const typed = typedReading(text, count, decimal);
  if (typed.kind === 'unclear') return { why: typed.why };
  if (typed.kind === 'blank') return { change: readOnce(blade, fromTipMm, across, undefined) };
  const isAgain = /^\s*\+/.test(text) && before.length > 0;
  const change = isAgain
    ? readAgain({ blade, fromTipMm, across }, before, typed.thicknessMm)
    : readOnce(blade, fromTipMm, across, typed.thicknessMm);
  return { change };
}
