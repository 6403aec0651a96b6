import type { Blade, Place } from '../../shared/blade.ts';
import { plainText, withUnit, type NumberFormat } from '../words/format.ts';

type Decimal = Pick<NumberFormat, 'decimal'>;

/** The five steps across a blade, seen from its bark side with the tip up. */
export const STEPS = [
  { across: -0.8, words: 'left edge' },
  { across: -0.4, words: 'left' },
  { across: 0, words: 'middle' },
  { across: 0.4, words: 'right' },
  { across: 0.8, words: 'right edge' },
] as const;

/** Number of the step nearest to a position across, 0 (left edge) to 4 (right edge). */
export function nearestStep(across: number): number {
  return Math.min(4, Math.max(0, Math.round((across + 0.8) / 0.4)));
}

/** Where across, in words; a position between the five steps gets its fraction of the half-width too. */
export function acrossWords(across: number, writing: Decimal): string {
  const step = STEPS[nearestStep(across)]!;
  if (Math.abs(step.across - across) < 0.005) return step.words;
  return `${step.words}, ${plainText(Number(Math.abs(across).toFixed(2)), writing)} of the way to the edge`;
}

/** `10`, `0.5`: as precise as it was set, mm. */
export function fromTipText(fromTipMm: number, writing: Decimal): string {
  return plainText(Number(fromTipMm.toFixed(2)), writing);
}

/** `B, 10 mm, right`. */
export function placeWords({ blade, fromTipMm, across }: Place, writing: Decimal): string {
  return `${blade}, ${withUnit(fromTipText(fromTipMm, writing), 'mm')}, ${acrossWords(across, writing)}`;
}

/** The side on which the reed's side-1 dot lies in a blade's own view. */
export function dotSide(blade: Blade): 'left' | 'right' {
  return blade === 'A' ? 'left' : 'right';
}

/** Tells places apart: two readings with one key are repeats of each other. */
export function placeKey({ blade, fromTipMm, across }: Place): string {
  return `${blade} ${fromTipMm.toFixed(3)} ${across === 0 ? '0.000' : across.toFixed(3)}`;
}
