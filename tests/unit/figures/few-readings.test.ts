import { expect, it } from 'vitest';
import { estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { isBeyond, reachOf } from '../../../src/figures/reach.ts';
import { mapGrid, thicknessMap } from '../../../src/figures/surface-map.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import { readSample } from '../../read-sample.ts';
import { seededRandom } from '../../seeded-random.ts';

const [pass] = readSample('plain').passes;
const all = pass!.readings.filter(({ blade }) => blade === 'A');

/** Between 5 and 12 of a blade's readings, none twice. */
function few(seed: number) {
  const random = seededRandom(seed);
  const keyed = all.map((reading) => ({ reading, key: random() })).sort((a, b) => a.key - b.key);
  return keyed.slice(0, 5 + Math.floor(8 * random())).map(({ reading }) => reading);
}

it('goes through few readings without straying, and says how unsure it is beyond them', () => {
  let [places, covered] = [0, 0];
  for (let seed = 1; seed <= 40; seed++) {
    const readings = few(seed);
    const model = fitReed([{ ...pass!, readings }]);
    const { valuesMm, uMm, ysMm, us } = thicknessMap(model, 'A', 0, mapGrid(20, 21, 9));
    const reach = reachOf(readings);
    const read = readings.map(({ thicknessMm }) => thicknessMm);
    const [least, most] = [Math.min(...read), Math.max(...read)];
    valuesMm.forEach((value, k) => {
      const place = { fromTipMm: ysMm[Math.floor(k / us.length)]!, across: us[k % us.length]! };
      // Between readings a fifth of a blade's thickness at most; beyond them by as much as two standard errors more.
      const room = 0.1 + (isBeyond(reach, place) ? 2 * uMm[k]! : 0);
      expect(value, `seed ${seed}`).toBeGreaterThan(least - room);
      expect(value, `seed ${seed}`).toBeLessThan(most + room);
    });
    expect(Math.max(...uMm), `seed ${seed}`).toBeGreaterThan(0.05);
    for (const { fromTipMm, across, thicknessMm } of all) {
      const at = pointFunctional(model, { blade: 'A', pass: 0, fromTipMm, across });
      const { valueMm, uMm: u } = estimate(model, at);
      places += 1;
      if (Math.abs(valueMm - thicknessMm) <= 1.96 * Math.hypot(u, model.noiseMm.A!)) covered += 1;
    }
  }
  // Most of these readings the fits have not seen; 88 % lie in their bands of 95 %.
  expect(covered / places).toBeGreaterThan(0.85);
});
