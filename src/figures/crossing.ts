import { BLADES, type Blade } from '../../shared/blade.ts';
import { dot } from '../numerics/quadratic-form.ts';
import { firstRise } from '../numerics/root.ts';
import type { Estimate, ReedModel } from '../surface/reed-model.ts';
import { combine, estimate, pointFunctional, valueMm } from './functional.ts';

/** Thickness at which the centre line is said to be in the blend, mm. Common practice, no source. */
export const BLEND_MM = 0.3;
/** Thicknesses whose places on the centre line are followed, mm. Common practice, no source. */
export const CROSSINGS_MM = [0.2, 0.3, 0.4] as const;

const STEP_MM = 0.1;
/** Far below any doubt, and above the rounding of a thickness over the steepest slope. */
const TOLERANCE_MM = 1e-10;

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

/** Thickness along a line as a function of the distance from the tip; one buffer serves all places. */
function thicknessAlong(
  model: ReedModel,
  pass: number,
  { blades, across }: Line,
): (fromTipMm: number) => number {
  const parts = blades.map((blade) => {
    const mean = model.meanAfter(blade, pass);
    return { blade, mean, weights: new Float64Array(mean.length) };
  });
  return (fromTipMm) => {
    let sum = 0;
    for (const { blade, mean, weights } of parts) {
      model.addWeights(weights.fill(0), { blade, pass, fromTipMm, across }, 1);
      sum += dot(weights, mean);
    }
    return sum / parts.length;
  };
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
  const thickness = thicknessAlong(model, pass, line);
  const over = (fromTipMm: number) => thickness(fromTipMm) - thicknessMm;
  const { bladeLengthMm } = model.passes[pass]!;
  if (over(0) >= 0) return undefined;
  const fromTipMm = firstRise(over, bladeLengthMm, STEP_MM, TOLERANCE_MM);
  if (fromTipMm === undefined) return undefined;
  const { uMm } = estimate(model, along(model, pass, line, fromTipMm));
  const slope = valueMm(model, along(model, pass, line, fromTipMm, true));
  return { valueMm: fromTipMm, uMm: uMm / Math.abs(slope) };
}
