import type { ReedAtPass } from '../answers/benched-reed.ts';
import { zonesAt } from '../answers/benched-reed.ts';
import { nearFloors } from '../answers/there-now.ts';
import { mapGrid } from '../figures/surface-map.ts';
import { bareAmount, COVERAGE, numberText, UNIT_WORDS, withUnit, type Writing } from '../report/format.ts';
import { excessOver } from './excess.ts';
import { nextStrokes, type Step } from './next-strokes.ts';
import { targetFromReed } from './target.ts';

const GRID = { along: 51, across: 31 };
/** Within one step of a usual dial above its floor a reading may be at it, mm. */
const AT_FLOOR_MM = 0.0105;

/** The one step to take next towards a favourite; undefined where nothing measurable may be taken. */
export function firstStep({ benched, pass }: ReedAtPass, favourite: ReedAtPass): Step | undefined {
  const geometry = benched.assembled.passes[pass]!;
  const other = favourite.benched.assembled.passes[favourite.pass]!;
  const lastMm = Math.min(
    geometry.bladeLengthMm,
    other.bladeLengthMm,
    Math.max(0, ...other.readings.map(({ fromTipMm }) => fromTipMm)),
  );
  const target = targetFromReed(favourite, mapGrid(lastMm, GRID.along, GRID.across));
  return nextStrokes({
    excess: excessOver(benched.model!, pass, target),
    zones: zonesAt(benched, pass, 'tip'),
    floors: benched.assembled.style.floors,
    geometry,
    closed: nearFloors(benched, pass)
      .filter(({ marginMm }) => marginMm <= AT_FLOOR_MM)
      .map(({ reading }) => reading),
  }).steps[0];
}

/** A step in a sentence for paper: where, how much of how much, and what to do then. */
export function sayFirstStep(step: Step | undefined, label: string, writing: Writing): string {
  if (!step) return 'Nothing measurable to take. Play it.';
  const { title, blades, side, fromMm, toMm, takeMm, excessMm, uMm } = step;
  const which = blades.length === 2 ? 'both blades' : `blade ${blades.join('')}`;
  const where = `${title}, ${which}${side === 'both' ? '' : `, ${side} side`}, from ${numberText(fromMm, 1, writing)} to ${withUnit(numberText(toMm, 1, writing), 'mm')}`;
  const excess = `${bareAmount(excessMm, writing)} ±${bareAmount(COVERAGE * uMm, writing)} ${UNIT_WORDS[writing.unit].spoken[1]}`;
  return `${where}: take ${bareAmount(takeMm, writing)} of the ${excess} above ${label}. Then read the places again, and play.`;
}
