import type { WishedGouge } from '../../shared/settings.ts';
import { COVERAGE } from '../words/format.ts';
import type { Estimate } from '../surface/reed-model.ts';
import type { GougeCurve } from './gouge-curve.ts';
import type { PieceEvenness } from './evenness.ts';

/** To begin with, for the maker to change. Common practice, no source. */
export const STARTING_GOUGE: WishedGouge = {
  centreMm: 0.59,
  sideMm: 0.46,
  sideArcMm: 4.3,
  mostSideDifferenceMm: 0.03,
};

/** A gouged piece beside the gouge that was wished for: found less wished. */
export interface GougeComparison {
  readonly centre?: Estimate;
  readonly side1?: Estimate;
  readonly side2?: Estimate;
  /** Whether the sides differ by more than the maker allows: `doubtful` when the readings cannot tell. */
  readonly sides?: 'equal enough' | 'doubtful' | 'too different';
}

const less = ({ valueMm, uMm }: Estimate, wishedMm: number): Estimate => ({
  valueMm: valueMm - wishedMm,
  uMm,
});

/** Compares a piece with the wish at the wish's own places: off the curve where there is one, else off the readings. */
export function compareGouge(
  evenness: PieceEvenness,
  curve: GougeCurve | undefined,
  wished: WishedGouge,
): GougeComparison {
  const { sideDifference } = evenness;
  const centre = curve ? curve.thicknessAt(0) : evenness.centre;
  return {
    ...(centre && { centre: less(centre, wished.centreMm) }),
    ...(curve && {
      side1: less(curve.thicknessAt(-wished.sideArcMm), wished.sideMm),
      side2: less(curve.thicknessAt(wished.sideArcMm), wished.sideMm),
    }),
    ...(sideDifference && { sides: judge(sideDifference, wished.mostSideDifferenceMm) }),
  };
}

function judge({ valueMm, uMm }: Estimate, mostMm: number): NonNullable<GougeComparison['sides']> {
  const over = Math.abs(valueMm) - mostMm;
  if (Math.abs(over) <= COVERAGE * uMm) return 'doubtful';
  return over > 0 ? 'too different' : 'equal enough';
}
