import { BLADES, type Blade } from '../../shared/blade.ts';
import type { Estimate, ReedModel } from '../surface/reed-model.ts';
import { combine, estimate, pointFunctional, valueMm } from './functional.ts';

const STEP_MM = 0.1;
const BISECTIONS = 40;

/** The line along which a thickness is sought: one blade, or the mean of both. */
export interface Line {
  readonly blades: readonly Blade[];
  readonly across: number;
}

/** The centre line of the blades that were read. */
export function centreLine(model: ReedModel): Line {
  return { blades: BLADES.filter((blade) => model.blades[blade]), across: 0 };
}

function along(model: ReedModel, pass: number, { blades, across }: Line, fromTipMm: number, slope = false) {
  return combine(
    blades.map((blade) => [
      1 / blades.length,
      pointFunctional(model, {
        blade,
        pass,
        fromTipMm,
        across,
        ...(slope && { derivative: 'along' as const }),
      }),
    ]),
  );
}

/**
 * The first distance from the tip at which a line reaches a thickness, mm, with its uncertainty by the delta method:
 * the doubt of the thickness there divided by the slope. Undefined where the line does not reach it on the blade.
 */
export function crossing(
  model: ReedModel,
  pass: number,
  line: Line,
  thicknessMm: number,
): Estimate | undefined {
  const value = (fromTipMm: number) => valueMm(model, along(model, pass, line, fromTipMm)) - thicknessMm;
  const { bladeLengthMm } = model.passes[pass]!;
  if (value(0) >= 0) return undefined;
  for (let low = 0; low + STEP_MM <= bladeLengthMm; low += STEP_MM) {
    if (value(low + STEP_MM) >= 0) return refine(model, pass, line, value, low);
  }
  return undefined;
}

function refine(
  model: ReedModel,
  pass: number,
  line: Line,
  value: (y: number) => number,
  from: number,
): Estimate {
  let [low, high] = [from, from + STEP_MM];
  for (let k = 0; k < BISECTIONS; k++) {
    const middle = (low + high) / 2;
    if (value(middle) >= 0) high = middle;
    else low = middle;
  }
  const { uMm } = estimate(model, along(model, pass, line, high));
  const slope = valueMm(model, along(model, pass, line, high, true));
  return { valueMm: high, uMm: uMm / Math.abs(slope) };
}
