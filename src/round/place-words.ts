import type { Blade, Place } from '../../shared/blade.ts';

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
export function acrossWords(across: number): string {
  const step = STEPS[nearestStep(across)]!;
  if (Math.abs(step.across - across) < 0.005) return step.words;
  return `${step.words}, ${Math.abs(across).toFixed(2).replace(/0$/, '')} of the way to the edge`;
}

/** `10 mm`, `0.5 mm`: as precise as it was set, at least whole millimetres. */
export function distanceText(fromTipMm: number): string {
  return String(Number(fromTipMm.toFixed(2)));
}

/** `B, 10 mm, right`. */
export function placeWords({ blade, fromTipMm, across }: Place): string {
  return `${blade}, ${distanceText(fromTipMm)} mm, ${acrossWords(across)}`;
}

/** The side on which the reed's side-1 dot lies in a blade's own view. */
export function dotSide(blade: Blade): 'left' | 'right' {
  return blade === 'A' ? 'left' : 'right';
}

/** Tells places apart: two readings with one key are repeats of each other. */
export function placeKey({ blade, fromTipMm, across }: Place): string {
  return `${blade} ${fromTipMm.toFixed(3)} ${across === 0 ? '0.000' : across.toFixed(3)}`;
}
