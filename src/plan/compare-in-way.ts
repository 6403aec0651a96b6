import type { Reed } from '../../shared/reed.ts';
import { IllPosedError } from '../../shared/errors.ts';
import type { ReedAtPass } from '../answers/benched-reed.ts';
import { originalMm, USUAL_GOUGE, type Gouge } from '../blade/original-cane.ts';
import { COVERAGE, numberText, withUnit, type Writing } from '../words/format.ts';
import { compare, type Compared, type GougeOf } from './compare.ts';
import type { OverBlade, Target } from './target.ts';
import { commonFactor, inOwnCane, inOwnScale, type Factor, type ComparisonMode } from './ways.ts';

/** A comparison in one of the three ways. */
export interface InWay extends Compared {
  readonly way: ComparisonMode;
  /** Of a comparison in shape: what the target was multiplied with. */
  readonly factor?: Factor;
  /** Of a comparison as shares: what is known of the cane before scraping. */
  readonly gouges?: readonly [own: Gouge, theirs: Gouge];
}

const caneOf =
  (gouge: Gouge, halfWidthMm: (y: number) => number): OverBlade =>
  (y, u) =>
    originalMm(gouge, u, halfWidthMm(y));

/** Compares a reed with a target in a way. @throws IllPosedError where shapes have too little in common. */
export function compareInWay(own: ReedAtPass, target: Target, way: ComparisonMode, gougeOf: GougeOf): InWay {
  if (way === 'shape') {
    const factor = commonFactor(own, target);
    return { ...compare(own, inOwnScale(target, factor), { gougeOf }), way, factor };
  }
  if (way === 'plain') return { ...compare(own, target, { gougeOf }), way };
  const ofReed = (reed: Reed) => gougeOf(reed) ?? USUAL_GOUGE;
  const [example] = target.parts;
  if (!example) throw new IllPosedError('target: without an example there is no cane to take shares of');
  const gouges = [ofReed(own.benched.reed), ofReed(example.reed.benched.reed)] as const;
  const ownCane = caneOf(gouges[0], own.benched.assembled.passes[own.pass]!.halfWidthMm);
  const theirs = target.parts.map(({ reed: { benched, pass } }) =>
    caneOf(ofReed(benched.reed), benched.assembled.passes[pass]!.halfWidthMm),
  );
  const theirCane: OverBlade = (y, u) => theirs.reduce((sum, cane) => sum + cane(y, u), 0) / theirs.length;
  const scaled = inOwnCane(target, ownCane, theirCane);
  return { ...compare(own, scaled, { gougeOf, originalMm: ownCane }), way, gouges };
}

/** What a way of comparing does, in a sentence. */
export function sayWay({ way, factor, gouges, target: { name } }: InWay, writing: Writing): string {
  if (factor) {
    const percent = withUnit(numberText(100 * factor.value, 0, writing), '%');
    const doubt = numberText(100 * COVERAGE * factor.u, 1, writing);
    return `This is ${name} at ${percent} (±${doubt}); what is shown is what differs in shape.`;
  }
  if (way === 'plain') return 'Thickness against thickness.';
  const assumed = gouges?.some(({ from }) => from === 'common practice')
    ? ' Where no gouge is written down, a usual one is assumed: common practice.'
    : '';
  return `The same share of the cane before scraping is sought at every place.${assumed}`;
}
