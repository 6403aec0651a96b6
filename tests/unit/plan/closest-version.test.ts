import { expect, it } from 'vitest';
import { closestVersion, versionAt } from '../../../src/plan/closest-version.ts';
import { differencesFrom } from '../../../src/plan/excess.ts';
import { offsetTarget, targetFromReed } from '../../../src/plan/target.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const k117 = { benched: scenarioReed('K-117'), pass: 0 };
const model = k117.benched.model!;
// Places at the tip and at the edges are drawn out, not read: 0.4 mm and 0.9 half-widths have no say.
const grid = { ysMm: [0.4, 0.5, 3, 8, 13], us: [-0.9, -0.8, -0.4, 0, 0.4, 0.8, 0.9] };
const own = targetFromReed(k117, grid);

/** Below by 0.6 standard uncertainties a square, beyond that a line; above a hump that goes no further than 0.18. */
const misfit = (by: number) => {
  if (by > 0) return 0.18 * (1 - Math.exp(-((by / 0.6) ** 2)));
  return by > -0.6 ? by ** 2 / 2 : 0.6 * -by - 0.18;
};
const counted = (target: typeof own) =>
  differencesFrom(model, 0, target, 0).flatMap(({ valuesMm, uMm, us, ysMm }) =>
    [...valuesMm].flatMap((value, i) =>
      Math.abs(us[i % us.length]!) < 0.85 && ysMm[Math.floor(i / us.length)]! > 0.45
        ? [{ value, u: uMm[i]! }]
        : [],
    ),
  );

it.each([0.02, -0.02, -0.001, 0.001])(
  'a target %d mm thicker everywhere leaves so much to wish for',
  (byMm) => {
    const target = offsetTarget(own, byMm);
    const { lackMm, excessMm, misfit: found } = versionAt(model, 0, target, 0);
    expect(lackMm).toBeCloseTo(Math.max(0, byMm), 12);
    expect(excessMm).toBeCloseTo(Math.max(0, -byMm), 12);
    const places = counted(target);
    expect(places).toHaveLength(2 * 4 * 5);
    expect(found).toBeCloseTo(
      places.reduce((sum, { value, u }) => sum + misfit(value / u), 0) / places.length,
      12,
    );
  },
);

it.each([
  [0.0331, -0.0331],
  [-0.0477, 0.0477],
  // Further than 0.06 mm, and a thirds' step of 0.004, nothing is sought.
  [0.09, -0.064],
])('a common offset of %d mm is found', (byMm, offsetMm) => {
  const found = versionAt(model, 0, offsetTarget(own, byMm), 0, 'best');
  expect(found.offsetMm).toBeCloseTo(offsetMm, 3);
  expect(versionAt(model, 0, offsetTarget(own, byMm), 0).offsetMm).toBe(0);
});

it('a clip is tried every fortieth of a millimetre, up to the longest', () => {
  const clipped = (mm: number) => targetFromReed(k117, { ...grid, ysMm: grid.ysMm.map((y) => y + mm) });
  const sought = (mm: number, longestMm: number) =>
    closestVersion(model, 0, { ...own, blades: clipped(mm).blades }, longestMm).clipMm;
  expect(sought(0.225, 0.4)).toBeCloseTo(0.225, 9);
  expect(sought(0.225, 0.2)).toBeCloseTo(0.2, 9);
  expect(sought(0.225, 0.225)).toBeCloseTo(0.225, 9);
  expect(sought(0, 0.4)).toBe(0);
});
