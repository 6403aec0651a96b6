import { describe, expect, it } from 'vitest';
import { familyReed, FAMILY_GAUGES } from '../generator/family-reed.ts';
import { readSample } from '../read-sample.ts';
import { addPower, noPower } from '../study/power-study.ts';

// What a scrape leaves on the maps of Taken off; npm run study:power does the same for many reeds.
describe.each([
  // 1.5 times what was coloured where every place was told over the whole map: 34 and 24 %.
  ['plain', 0.51],
  ['clip', 0.36],
])('of the places of %s that lost more than 15 µm', (name, share) => {
  const { passes, truth } = readSample(name);
  const power = noPower();
  addPower(power, passes, 0.01, (blade, pass, y, u) => {
    const fromFirstTip = passes[0]!.overallLengthMm - passes[pass]!.overallLengthMm + y;
    return truth.passes[pass]!.scraped[blade].reduce(
      (sum, [cy, cu, ly, lu, deep]) =>
        sum + deep * Math.exp(-0.5 * (((fromFirstTip - cy) / ly) ** 2 + ((u - cu) / lu) ** 2)),
      0,
    );
  });

  it('enough are coloured by themselves, and most lie in a place, patch or zone', () => {
    expect(power.byPlace / power.places).toBeGreaterThanOrEqual(share);
    expect(power.byAny / power.places).toBeGreaterThanOrEqual(0.65);
  });

  it('none is coloured that lost nothing', () => {
    expect([power.falseMaps, power.grownMaps]).toEqual([0, 0]);
  });
});

it('of reeds on which no surface was tuned most of what went is seen, and hardly a map shows what did not go', () => {
  const power = noPower();
  (['place', 'rails', 'thin'] as const).forEach((family, k) => {
    const [handMm, gauge] = [[0.05, 0.15, 0.25][k]!, (['dial', 'fine'] as const)[k % 2]!];
    const reed = familyReed({ family, gauge, handMm, extent: 'full', seed: 976_001 + k, count: 2 });
    addPower(power, reed.passes, FAMILY_GAUGES[gauge].stepMm, reed.removedMm);
  });
  expect(power.byAny / power.places).toBeGreaterThanOrEqual(0.65);
  expect(power.falseMaps / power.maps).toBeLessThanOrEqual(1 / 6);
});
