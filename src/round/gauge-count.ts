import type { ThicknessUnit } from '../../shared/units.ts';
import type { NumberFormat } from '../words/format.ts';

/** What a whole number from the gauge counts: hundredths or thousandths of a millimetre, or of an inch (thou). */
export type GaugeCount = 'hundredths' | 'thousandths' | 'thou';

/** How a round writes its numbers: in the gauge's own count, with the maker's decimal sign. */
export interface RoundFormat extends Pick<NumberFormat, 'decimal'> {
  readonly count: GaugeCount;
  /** Readings are written in this unit instead of the gauge's count: beside figures of the bench. */
  readonly unit?: ThicknessUnit;
}

/** Above this step a gauge is read in hundredths. */
const COARSEST_THOUSANDTHS_MM = 0.005;

/** The count that fits a gauge's smallest step and the maker's unit. */
export function countFor(stepMm: number, unit: ThicknessUnit): GaugeCount {
  if (unit === 'thou') return 'thou';
  return stepMm <= COARSEST_THOUSANDTHS_MM ? 'thousandths' : 'hundredths';
}

export const COUNT_WORDS: Readonly<Record<GaugeCount, string>> = {
  hundredths: 'hundredths of a millimetre',
  thousandths: 'thousandths of a millimetre',
  thou: 'thousandths of an inch',
};
