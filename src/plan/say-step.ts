import { withUnit, numberText, bareAmount, COVERAGE, type Writing } from '../words/format.ts';
import { strokesFor, type KnifeYield, type RegionYield } from './knife-yield.ts';
import type { Step } from './next-strokes.ts';

/** Where a step is, in the maker's words: zone, blade, side, distances. */
export function sayWhere({ title, blades, side, fromMm, toMm }: Step, writing: Writing): string {
  const where = blades.length === 2 ? 'both blades' : `blade ${blades.join('')}`;
  const which = side === 'both' ? '' : `, ${side} side`;
  return `${title}, ${where}${which}, from ${numberText(fromMm, 1, writing)} to ${withUnit(numberText(toMm, 1, writing), 'mm')}`;
}

/** How many strokes, from what the knife is known to take; modest where too little is known. */
export function sayStrokes(
  step: Step,
  knife: string | undefined,
  known: KnifeYield | undefined,
  region: RegionYield | undefined,
  writing: Writing,
): string {
  if (!region) {
    const why = known && !known.known ? ` ${known.sentence}` : '';
    return `A few strokes in each place, the blades in turn.${why}`;
  }
  const count = strokesFor(step.takeMm, region);
  const rate = `${bareRate(region.perStrokeMm, writing)} ±${bareRate(COVERAGE * region.uMm, writing)} a stroke`;
  const logs = region.entries === 1 ? 'one logged piece of work' : `${region.entries} logged pieces of work`;
  return `About ${withUnit(String(count), count === 1 ? 'stroke' : 'strokes')} in each place with ${knife ?? 'your knife'}, the blades in turn: ${rate}, from ${logs}.`;
}

function bareRate(mm: number, writing: Writing): string {
  if (writing.unit === 'hundredths') return numberText(mm / 0.01, 2, writing);
  return writing.unit === 'mm' ? numberText(mm, 4, writing) : numberText(mm / 0.0254, 2, writing);
}

/** What is done after a step. */
export function sayAfter({ stopAndRead, uMm, excessMm, takeMm }: Step, writing: Writing): string {
  if (!stopAndRead) return 'Then read the places again, and play.';
  const [left, doubt] = [excessMm - takeMm, COVERAGE * uMm].map((mm) => bareAmount(mm, writing));
  return `Then stop and read before anything else: what would be left, ${left}, is no more than its doubt of ${doubt}. Then play.`;
}
