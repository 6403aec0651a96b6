import { sentence } from '../words/figure-words.ts';
import {
  bareAmount,
  COVERAGE,
  joined,
  numberText,
  takeText,
  thicknessFigure,
  UNIT_WORDS,
  withUnit,
  type NumberFormat,
} from '../words/format.ts';
import { strokesFor, yieldIn, type KnifeInHand } from './knife-yield.ts';
import type { AlongMm, Step } from './step.ts';

/** Nothing may be taken. */
export const NOTHING_TO_TAKE = 'Nothing measurable to take. Play it.';

/** A step in words, part by part: every screen, sheet and card prints these. */
export interface SaidStep {
  /** Zone, blade, side, distances. */
  readonly where: string;
  readonly take: string;
  /** `of the 6.0 ±0.5 hundredths above K-117 there`. */
  readonly of: string;
  readonly strokes: string;
  readonly after: string;
}

/** @param towards What the reed is brought to. */
export function sayStep(step: Step, towards: string, knife: KnifeInHand, writing: NumberFormat): SaidStep {
  const [one, many] = UNIT_WORDS[writing.unit].spoken;
  const excess = joined(thicknessFigure(step.excess, writing));
  const { words, isLess } = sayStrokes(step, knife, writing);
  return {
    where: sayWhere(step, writing),
    take: takeText(step.takeMm, writing),
    of: `of the ${withUnit(excess, excess === '1' ? one : many)} above ${towards} there`,
    strokes: words,
    after:
      isLess || step.stopAndRead
        ? 'Stop there and read the same places before anything else.'
        : 'Then read the same places again, and play.',
  };
}

/** The same in one paragraph, for paper. */
export function stepInWords({ where, take, of, strokes, after }: SaidStep): string {
  return `${where}: take ${take} ${of}. ${strokes} ${after}`;
}

/** Where a step is, in the maker's words: zone, blade, side, distances. */
export function sayWhere(step: Step, writing: NumberFormat): string {
  const { title, blades, side } = step;
  const where = blades.length === 2 ? 'both blades' : `blade ${blades.join('')}`;
  const which = side === 'both' ? '' : `, ${side} side`;
  return `${title}, ${where}${which}, ${stretchWords(step, writing)}`;
}

/** Nearer than this, two distances are one, mm. */
const SAME_MM = 0.15;

const isSame = ([a, b]: AlongMm, [c, d]: AlongMm) => Math.abs(a - c) < SAME_MM && Math.abs(b - d) < SAME_MM;

function stretchWords({ stretch, atCentre, atEdges }: Step, writing: NumberFormat): string {
  const words = ([from, to]: AlongMm) =>
    `${numberText(from, 1, writing)} to ${withUnit(numberText(to, 1, writing), 'mm')}`;
  if (!atCentre || isSame(atCentre, stretch)) return words(stretch);
  return `${words(atCentre)} at the centre${atEdges ? `, ${words(atEdges)} at the edges` : ''}`;
}

/** How many strokes, from what the knife is known to take; modest where too little is known. */
function sayStrokes(
  { zone, blades, takeMm }: Step,
  { name, known }: KnifeInHand,
  writing: NumberFormat,
): { readonly words: string; readonly isLess: boolean } {
  const inTurn = blades.length === 2 ? ', the blades in turn' : '';
  const region = yieldIn(known, zone);
  if (!region) {
    const why = known && !known.known ? ` ${known.sentence}` : '';
    return { words: `A few strokes in each place${inTurn}.${why}`, isLess: false };
  }
  const count = strokesFor(takeMm, region);
  const takes = count * region.perStrokeMm;
  const rate = `${bareRate(region.perStrokeMm, writing)} ±${bareRate(COVERAGE * region.uMm, writing)} a stroke`;
  const logs = region.entries === 1 ? 'one logged piece of work' : `${region.entries} logged pieces of work`;
  if (count * region.perStrokeMm > takeMm)
    return {
      words: `A single stroke with ${knifeWords(name)} takes about ${bareAmount(takes, writing)}, more than is asked: use a finer tool, or leave it. ${sentence(rate)}, from ${logs}.`,
      isLess: true,
    };
  const strokes = withUnit(String(count), count === 1 ? 'stroke' : 'strokes');
  return {
    words: `${strokes} in each place with ${knifeWords(name)}${inTurn}, ${count === 1 ? 'takes' : 'take'} about ${bareAmount(takes, writing)}: ${rate}, from ${logs}.`,
    isLess: bareAmount(takes, writing) !== takeText(takeMm, writing),
  };
}

function knifeWords(name: string | undefined): string {
  if (name === undefined) return 'your knife';
  return /knife/i.test(name) ? `the ${name}` : `the ${name} knife`;
}

function bareRate(mm: number, writing: NumberFormat): string {
  if (writing.unit === 'hundredths') return numberText(mm / 0.01, 2, writing);
  return writing.unit === 'mm' ? numberText(mm, 4, writing) : numberText(mm / 0.0254, 2, writing);
}
