import { MM_PER } from '../../shared/units.ts';
import { plainText, readingText as inUnit } from '../words/format.ts';
import type { GaugeCount, RoundFormat } from './gauge-count.ts';

export const MM_PER_COUNT: Readonly<Record<GaugeCount, number>> = {
  hundredths: MM_PER.hundredths,
  thousandths: MM_PER.hundredths / 10,
  thou: MM_PER.thou,
};

/** More places than any gauge gives; what is left after rounding is the reading as typed. */
const PLACES = 2;

/** A raw reading in the gauge's own count, as it was typed: 0.46 mm is `46`, 0.465 mm is `46.5`. Never coarsened. */
export function readingText(thicknessMm: number, { count, decimal, unit }: RoundFormat): string {
  if (unit) return inUnit(thicknessMm, { unit, decimal });
  return plainText(Number((thicknessMm / MM_PER_COUNT[count]).toFixed(PLACES)), { decimal });
}
