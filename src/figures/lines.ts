import type { Blade } from '../../shared/blade.ts';
import { gaussLegendre } from '../numerics/gauss-legendre.ts';
import type { Functional, ReedModel } from '../surface/reed-model.ts';
import { combine, pointFunctional, sumOfPlaces } from './functional.ts';

/** A stretch of a blade at one position across. */
export interface Stretch {
  readonly blade: Blade;
  readonly pass: number;
  readonly across: number;
  readonly fromMm: number;
  readonly toMm: number;
}

const RULE = gaussLegendre(3);
const CELL_MM = 0.5;

/** Mean thickness along a stretch: of the spine, a channel or a rail. */
export function meanAlong(model: ReedModel, { blade, pass, across, fromMm, toMm }: Stretch): Functional {
  const cells = Math.max(1, Math.ceil((toMm - fromMm) / CELL_MM));
  const length = (toMm - fromMm) / cells;
  const places = Array.from({ length: cells }, (_, i) =>
    RULE.nodes.map((node, k) => ({
      blade,
      pass,
      across,
      fromTipMm: fromMm + (i + node) * length,
      factor: RULE.weights[k]! / cells,
    })),
  );
  return sumOfPlaces(model, places.flat());
}

/** Mean gain of thickness along a stretch, mm per mm: the taper of a tip. */
export function taperAlong(model: ReedModel, { blade, pass, across, fromMm, toMm }: Stretch): Functional {
  const at = (fromTipMm: number) => pointFunctional(model, { blade, pass, fromTipMm, across });
  const length = toMm - fromMm;
  return combine([
    [1 / length, at(toMm)],
    [-1 / length, at(fromMm)],
  ]);
}
