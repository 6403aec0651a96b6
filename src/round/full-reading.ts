import type { GaugeCount } from './gauge-count.ts';

/** Digits of a whole reading: a blade is thinner than 1 mm, and than 100 thousandths of an inch. */
const DIGITS: Readonly<Record<GaugeCount, number>> = { hundredths: 2, thousandths: 3, thou: 2 };

/**
 * Whether what was typed is a whole reading that may go on by itself: two digits in hundredths of a millimetre and in
 * thousandths of an inch, three in thousandths of a millimetre; `05` for a thin place. Never with a decimal mark.
 */
export function isFullReading(text: string, count: GaugeCount): boolean {
  return /^\d+$/.test(text) && text.length >= DIGITS[count] && Number(text) > 0;
}
