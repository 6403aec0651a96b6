import { MAX_THICKNESS_MM, MM_PER, type ThicknessUnit } from '../../../shared/units.ts';

export type UnitDecision = { readonly unit: ThicknessUnit } | { readonly open: readonly ThicknessUnit[] };

/** Above this many thousandths of an inch (0.81 mm) no scraped blade is. Common practice, no source. */
const MOST_THOU = 32;
/** So many of the numbers must be larger than that before they are taken for hundredths: one slip must not decide. */
const SHARE_FOR_HUNDREDTHS = 0.1;

/**
 * The unit of a file's thicknesses where neither its headings nor its cells name one. Fractions up to 2 can only be
 * millimetres; many numbers above 32 only hundredths; the rest is open, and is asked.
 */
export function decideUnit(values: readonly number[]): UnitDecision {
  const count = (test: (value: number) => boolean) => values.filter(test).length;
  const small = count((value) => value <= MAX_THICKNESS_MM);
  const fractions = count((value) => value <= MAX_THICKNESS_MM && !Number.isInteger(value));
  if (values.length === 0 || fractions > values.length / 2) return { unit: 'mm' };
  if (count((value) => value > MOST_THOU) > values.length * SHARE_FOR_HUNDREDTHS)
    return { unit: 'hundredths' };
  return { open: small === values.length ? ['mm', 'hundredths', 'thou'] : ['hundredths', 'thou'] };
}

/** A thickness in mm, without the rounding noise that the multiplication adds in the last places. */
export function toMm(value: number, unit: ThicknessUnit): number {
  return unit === 'mm' ? value : Number((value * MM_PER[unit]).toPrecision(12));
}
