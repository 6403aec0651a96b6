import type { ReedAtPass } from '../answers/benched-reed.ts';
import { bareAmount, COVERAGE, UNIT_WORDS, type Writing } from '../words/format.ts';
import { planTowards } from './make-plan.ts';
import type { Step } from './next-strokes.ts';
import { sayWhere } from './say-step.ts';

/** The one step to take next towards a favourite; undefined where nothing measurable may be taken. */
export const firstStep = (own: ReedAtPass, favourite: ReedAtPass): Step | undefined =>
  planTowards(own, favourite).steps[0];

/** A step in a sentence for paper: where, how much of how much, and what to do then. */
export function sayFirstStep(step: Step | undefined, label: string, writing: Writing): string {
  if (!step) return 'Nothing measurable to take. Play it.';
  const { takeMm, excessMm, uMm } = step;
  const excess = `${bareAmount(excessMm, writing)} ±${bareAmount(COVERAGE * uMm, writing)} ${UNIT_WORDS[writing.unit].spoken[1]}`;
  return `${sayWhere(step, writing)}: take ${bareAmount(takeMm, writing)} of the ${excess} above ${label}. Then read the places again, and play.`;
}
