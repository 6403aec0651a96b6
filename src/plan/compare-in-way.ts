import type { Reed } from '../../shared/reed.ts';
import { IllPosedError } from '../../shared/errors.ts';
import type { ReedAtPass } from '../answers/fitted-reed.ts';
import { USUAL_CANE, type OriginalCane } from '../cane/original-cane.ts';
import { COVERAGE, numberText, withUnit, type NumberFormat } from '../words/format.ts';
import { compare, type Compared, type CaneOf } from './compare.ts';
import type { OverBlade, Target } from './target.ts';
import { commonFactor, inOwnCane, inOwnScale, type Factor, type ComparisonMode } from './ways.ts';

/** A comparison in one of the three ways. */
export interface InWay extends Compared {
  readonly way: ComparisonMode;
  /** Of a comparison in shape: what the target was multiplied with. */
  readonly factor?: Factor;
  /** Of a comparison as shares: what is known of the cane before scraping. */
  readonly canes?: readonly [own: OriginalCane, theirs: OriginalCane];
}

const overBlade =
  (cane: OriginalCane, halfWidthMm: (y: number) => number): OverBlade =>
  (y, across, blade) =>
    cane.thicknessAt({ blade, across, halfWidthMm: halfWidthMm(y) }).valueMm;

/** Compares a reed with a target in a way. @throws IllPosedError where shapes have too little in common. */
export function compareInWay(own: ReedAtPass, target: Target, way: ComparisonMode, caneOf: CaneOf): InWay {
  if (way === 'shape') {
    const factor = commonFactor(own, target);
    return { ...compare(own, inOwnScale(target, factor), { caneOf }), way, factor };
  }
  if (way === 'plain') return { ...compare(own, target, { caneOf }), way };
  const ofReed = (reed: Reed) => caneOf(reed) ?? USUAL_CANE;
  const [example] = target.parts;
  if (!example) throw new IllPosedError('target: without an example there is no cane to take shares of');
  const canes = [ofReed(own.benched.reed), ofReed(example.reed.benched.reed)] as const;
  const ownCane = overBlade(canes[0], own.benched.assembled.passes[own.pass]!.halfWidthMm);
  const theirs = target.parts.map(({ reed: { benched, pass } }) =>
    overBlade(ofReed(benched.reed), benched.assembled.passes[pass]!.halfWidthMm),
  );
  const theirCane: OverBlade = (...at) => theirs.reduce((sum, cane) => sum + cane(...at), 0) / theirs.length;
  const scaled = inOwnCane(target, ownCane, theirCane);
  return { ...compare(own, scaled, { caneOf, originalMm: ownCane }), way, canes };
}

/** What a way of comparing does, in a sentence. */
export function sayWay({ way, factor, canes, target: { name } }: InWay, writing: NumberFormat): string {
  if (factor) {
    const percent = withUnit(numberText(100 * factor.value, 0, writing), '%');
    const doubt = numberText(100 * COVERAGE * factor.u, 1, writing);
    return `This is ${name} at ${percent} (±${doubt}); what is shown is what differs in shape.`;
  }
  if (way === 'plain') return 'Thickness against thickness.';
  const assumed = canes?.some(({ from }) => from === 'common practice')
    ? ' Where no gouge is written down, a usual one is assumed: common practice.'
    : '';
  return `The same share of the cane before scraping is sought at every place.${assumed}`;
}
