import { BLEND_ZONE } from '../blade/zone-meanings.ts';
import { BLEND_MM } from '../figures/crossing.ts';
import { placeOnBlade, type Answer } from './answer-words.ts';
import type { FiguredReed } from './fitted-reed.ts';
import type { ReedFigures } from './record/record.ts';
import {
  amountText,
  bareAmount,
  COVERAGE,
  distanceText,
  readingText,
  UNIT_WORDS,
  withUnit,
  type NumberFormat,
} from '../words/format.ts';
import { apartWords, countWord, isMeasurable, listed, placeWords, sentence } from '../words/figure-words.ts';

/** The answer to "What is there, and how sure?" */
export function sayThereNow(figures: ReedFigures, writing: NumberFormat, favourite?: ReedFigures): Answer {
  const mind = sayNearFloor(figures, writing);
  const aside = sayControls(figures, writing);
  return {
    say: sayBlend(figures, writing, favourite),
    ...(mind && { mind }),
    ...(aside && { aside }),
  };
}

/** What is said to stand where the centre passes the blend's thickness: the blend, in a style that has one. */
function blendStands({ assembled }: FiguredReed, writing: NumberFormat): string {
  const named = assembled.style.zones.some(({ name }) => name === BLEND_ZONE);
  return named ? 'The blend stands at' : `The centre passes ${amountText(BLEND_MM, writing)} at`;
}

function sayBlend(
  { own, blend }: ReedFigures,
  writing: NumberFormat,
  favourite: ReedFigures | undefined,
): string {
  if (!blend) return `The centre line does not pass ${amountText(BLEND_MM, writing)} on this blade.`;
  const stands = `${blendStands(own.benched, writing)} ${distanceText(blend.valueMm, writing)}`;
  if (!favourite?.blend) return `${stands} from the tip, ±${distanceText(COVERAGE * blend.uMm, writing)}.`;
  const apart = {
    valueMm: blend.valueMm - favourite.blend.valueMm,
    uMm: Math.hypot(blend.uMm, favourite.blend.uMm),
  };
  const { label } = favourite.own.benched.reed;
  if (!isMeasurable(apart)) return `${stands}, as on ${label} as far as can be told.`;
  const way = apart.valueMm < 0 ? 'nearer the tip than' : 'further from the tip than';
  return `${stands}, ${apartWords(apart.valueMm, writing)} ${way} on ${label}.`;
}

function sayNearFloor({ placed, near }: ReedFigures, writing: NumberFormat): string | undefined {
  const [nearest] = near;
  if (!nearest) return undefined;
  const { reading, marginMm } = nearest;
  const where = placeOnBlade(placed, reading.blade, reading.fromTipMm, reading.across);
  const above =
    Math.abs(marginMm) < 0.0005
      ? 'is at its floor'
      : `is ${amountText(marginMm, writing)} ${marginMm > 0 ? 'above' : 'under'} its floor`;
  const others = near.length - 1;
  const rest =
    others === 0
      ? ''
      : ` ${sentence(countWord(others))} more ${others === 1 ? 'place is' : 'places are'} near.`;
  return `${where} ${above} at ${placeWords(reading.fromTipMm, writing)}.${rest}`;
}

/** Two means of controls closer than this are the same, mm: three quarters of a usual dial's step. */
const HELD_MM = 0.0075;

function sayControls({ own }: ReedFigures, writing: NumberFormat): string | undefined {
  const {
    benched: { assembled },
    pass,
  } = own;
  const now = assembled.controls[pass] ?? [];
  if (now.length === 0) return undefined;
  const values = listed(now.map(({ thicknessMm }) => readingText(thicknessMm, writing)));
  const reads = `Untouched cane reads ${withUnit(values, UNIT_WORDS[writing.unit].caption)}`;
  const first = assembled.controls.findIndex((controls) => controls.length > 0);
  if (first === pass) return `${reads}.`;
  const mean = (controls: readonly { thicknessMm: number }[]) =>
    controls.reduce((sum, { thicknessMm }) => sum + thicknessMm, 0) / controls.length;
  const moved = mean(now) - mean(assembled.controls[first]!);
  const then = `pass ${assembled.passes[first]!.index}`;
  if (Math.abs(moved) < HELD_MM) return `${reads}, as in ${then}: no change seen.`;
  const way = moved > 0 ? 'more' : 'less';
  return `${reads}, ${bareAmount(moved, writing)} ${way} than in ${then}: zero or wetness moved.`;
}
