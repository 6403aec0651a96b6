import { expect, it } from 'vitest';
import { estimate, pointFunctional } from '../../src/figures/functional.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import { familyReed, FAMILY_GAUGES } from '../generator/family-reed.ts';

// Two full passes of families that nothing was tuned on, hands and gauges in turn; npm run study:families does the same for many.
const FAMILIES = ['place', 'spine', 'rails', 'thin', 'thick', 'soft bark'] as const;
const HANDS_MM = [0.05, 0.15, 0.25];

/** Mean square of errors in standard uncertainties, over places of both blades after both passes. */
function meanSquareOfErrors(): number {
  let [sum, count] = [0, 0];
  FAMILIES.forEach((family, k) => {
    const gauge = k % 2 === 0 ? 'dial' : 'fine';
    const settings = { family, gauge, handMm: HANDS_MM[k % 3]!, extent: 'full', count: 2 } as const;
    const reed = familyReed({ ...settings, seed: 4_800_001 + k });
    const model = fitReed(reed.passes, { stepMm: FAMILY_GAUGES[gauge].stepMm });
    for (const blade of ['A', 'B'] as const)
      for (const pass of [0, 1])
        for (let fromTipMm = 0.75; fromTipMm < 20; fromTipMm += 0.5)
          for (const across of [-0.7, -0.4, -0.1, 0.2, 0.6]) {
            const place = { blade, pass, fromTipMm, across };
            const { valueMm, uMm } = estimate(model, pointFunctional(model, place));
            sum += ((valueMm - reed.thicknessMm(blade, pass, fromTipMm, across)) / uMm) ** 2;
            count += 1;
          }
  });
  return sum / count;
}

it('errs by as much as it says, and a doubt narrower by a sixth would not hold', () => {
  const square = meanSquareOfErrors();
  expect(square).toBeLessThan(1);
  // A doubt of five sixths has errors of 36 / 25 as many squares: it would be beyond one.
  expect((square * 36) / 25).toBeGreaterThan(1);
});
