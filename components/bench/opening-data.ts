import type { Blade } from '../../shared/blade.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import { estimate, pointFunctional } from '../../src/figures/functional.ts';
import type { QUADRANTS } from '../../src/figures/zone-figures.ts';
import type { OpeningData } from '../charts/chart-data.ts';

const CORNER = { fromTipMm: 0.75, across: 0.8 };
const EDGE_POINTS = 21;
/** Drawn where the opening was not measured, mm. Common practice, no source. */
const USUAL_OPENING_MM = 1;

/** The tip of a reed after a pass; undefined where a blade was not read. */
export function openingOf(benched: FittedReed, pass: number): OpeningData | undefined {
  const model = benched.model!;
  if (!model.blades.A || !model.blades.B) return undefined;
  const at = (blade: Blade, across: number) => {
    const place = { blade, pass, fromTipMm: CORNER.fromTipMm, across };
    return estimate(model, pointFunctional(model, place)).valueMm;
  };
  const corner = (name: (typeof QUADRANTS)[number]) =>
    at(name[0] as Blade, name[1] === 'L' ? -CORNER.across : CORNER.across);
  const cornersMm = { AL: corner('AL'), AR: corner('AR'), BL: corner('BL'), BR: corner('BR') };
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
