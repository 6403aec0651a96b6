import type { Blade } from '../../shared/blade.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import type { Estimate } from '../../shared/estimate.ts';
import { estimate, pointFunctional } from '../../src/figures/functional.ts';
import type { QUADRANTS } from '../../src/figures/zone-figures.ts';
import type { OpeningData } from '../charts/chart-data.ts';

type Corner = (typeof QUADRANTS)[number];

const CORNER = { fromTipMm: 0.75, across: 0.8 };
const EDGE_POINTS = 21;
/** Drawn where the opening was not measured, mm. Common practice, no source. */
const USUAL_OPENING_MM = 1;

/** Thickness at the four corners of the tip; undefined where a blade was not read. */
export function cornersOf(benched: FittedReed, pass: number): Record<Corner, Estimate> | undefined {
  const model = benched.model!;
  if (!model.blades.A || !model.blades.B) return undefined;
  const corner = (name: Corner) => {
    const across = name[1] === 'L' ? -CORNER.across : CORNER.across;
    const place = { blade: name[0] as Blade, pass, fromTipMm: CORNER.fromTipMm, across };
    return estimate(model, pointFunctional(model, place));
  };
  return { AL: corner('AL'), AR: corner('AR'), BL: corner('BL'), BR: corner('BR') };
}

/** The tip of a reed after a pass; undefined where a blade was not read. */
export function openingOf(benched: FittedReed, pass: number): OpeningData | undefined {
  const model = benched.model!;
  const corners = cornersOf(benched, pass);
  if (!corners) return undefined;
  const at = (blade: Blade, across: number) => {
    const place = { blade, pass, fromTipMm: CORNER.fromTipMm, across };
    return estimate(model, pointFunctional(model, place)).valueMm;
  };
  const cornersMm = {
    AL: corners.AL.valueMm,
    AR: corners.AR.valueMm,
    BL: corners.BL.valueMm,
    BR: corners.BR.valueMm,
  };
  const across = Array.from({ length: EDGE_POINTS }, (_, i) => -1 + (2 * i) / (EDGE_POINTS - 1));
  const edge = (blade: Blade) => ({ across, thicknessMm: across.map((u) => at(blade, u)) });
  return {
    cornersMm,
    facingMm: { side1: cornersMm.AL - cornersMm.BR, side2: cornersMm.AR - cornersMm.BL },
    edges: { A: edge('A'), B: edge('B') },
    widthMm: 2 * benched.assembled.passes[pass]!.halfWidthMm(0),
    openingMm: benched.passes[pass]?.openingMm ?? USUAL_OPENING_MM,
  };
}
