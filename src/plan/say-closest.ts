import {
  amountText,
  bareAmount,
  COVERAGE,
  numberText,
  withUnit,
  type NumberFormat,
} from '../words/format.ts';
import type { Estimate } from '../surface/reed-model.ts';
import type { ClipPreview } from './clip-preview.ts';
import type { Version } from './closest-version.ts';

/** Less than this everywhere is no other version, mm. */
const SAME_MM = 0.003;

/** The closest version of a target that can be reached, and what it costs. */
export function sayClosest(
  { clipMm, offsetMm }: Version,
  now: ClipPreview,
  then: ClipPreview,
  name: string,
  writing: NumberFormat,
): string {
  const amount = ({ valueMm, uMm }: Estimate) =>
    `${amountText(valueMm, writing)} (±${bareAmount(COVERAGE * uMm, writing)})`;
  const clip = clipMm > 0 ? `a clip of ${withUnit(numberText(clipMm, 2, writing), 'mm')}` : 'no clip';
  const version =
    Math.abs(offsetMm) < SAME_MM
      ? `${name} itself`
      : `${name} ${amountText(offsetMm, writing)} ${offsetMm < 0 ? 'thinner' : 'thicker'} everywhere`;
  const lack = `What is under it falls from ${amount(now.lack)} on average to ${amount(then.lack)}, and ${amount(then.excess)} on average is to be scraped.`;
  const price =
    clipMm > 0
      ? ' The price: a shorter tip, and a clip is the one act that nothing undoes.'
      : ' A clip would bring it no nearer.';
  return `The closest that can be reached: ${version}, with ${clip}. ${lack}${price}`;
}
