import { describe, expect, it } from 'vitest';
import { rectangleZone } from '../../../src/blade/zones.ts';
import { measurable } from '../../../src/figures/measurable.ts';
import { patchPlaces } from '../../../src/figures/patches.ts';
import { withOwnFactors, zonesThatLost } from '../../../src/figures/surely-lost.ts';
import { factorAt, type PartedMap } from '../../../src/figures/surface-map.ts';

/** Four rows a millimetre apart, three columns; every place known to 0.01 mm, the whole told by four of it, a part by three. */
const map = (...rows: readonly (readonly number[])[]): PartedMap => ({
  ysMm: rows.map((_, row) => row),
  us: [-1, 0, 1],
  valuesMm: Float64Array.from(rows.flat()),
  uMm: new Float64Array(rows.length * 3).fill(0.01),
  factor: () => 4,
  factorOver: () => 3,
});
const upper = rectangleZone('upper', -0.5, 1.5);
const lower = rectangleZone('lower', 1.5, 3.5);

describe('zones that surely lost cane', () => {
  const mean = (valueMm: number) => ({ valueMm, uMm: 0.00255 });

  it('are those whose mean is sure though all zones are looked at: 1.0 ±0.5 is, 0.6 ±0.5 is not', () => {
    const found = zonesThatLost([upper, lower], ({ name }) => mean(name === 'upper' ? 0.01 : 0.006));
    expect(found).toEqual([upper]);
  });

  it('ask for more the more of them there are, and never take growth for a loss', () => {
    // One in a hundred, shared by the zones: one side of the normal distribution at 0.01 and 0.00125.
    const of = (count: number, sds: number) =>
      zonesThatLost(
        Array.from({ length: count }, (_, k) => rectangleZone(String(k), 0, 1)),
        () => ({ valueMm: sds, uMm: 1 }),
      ).length;
    expect([of(1, 2.33), of(1, 2.32), of(8, 3.03), of(8, 3.02)]).toEqual([1, 0, 8, 0]);
    expect(zonesThatLost([upper], () => mean(-0.02))).toEqual([]);
    expect(zonesThatLost([upper], () => undefined)).toEqual([]);
  });
});

describe('places of a map', () => {
  const rows = map([0.035, 0, 0], [0.02, 0.021, 0], [0.01, 0.035, -0.035], [0, 0, 0]);

  it('are told by the whole map, and by their zone where it surely lost cane', () => {
    expect([...measurable(withOwnFactors(rows, []))]).toEqual(new Array(12).fill(0));
    const own = withOwnFactors(rows, [upper]);
    expect([...measurable(own)]).toEqual([1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
    expect(own.factor()).toBe(4);
    expect(factorAt(own, 0.4, -0.9)).toBe(3);
    expect(factorAt(own, 2.2, 0.1)).toBe(4);
  });

  it('growth in such a zone is told by the whole map still', () => {
    expect(measurable(withOwnFactors(rows, [lower]))[8]).toBe(0);
  });

  it('hang together with a sure one as far as each is told by itself alone', () => {
    const sure = measurable(withOwnFactors(rows, [upper]));
    // Down and across, not over a corner to what is not told; 0.01 is less than two standard uncertainties.
    expect([...patchPlaces(rows, sure, [0, 1, 2, 3])]).toEqual([1, 0, 0, 1, 1, 0, 0, 1, 0, 0, 0, 0]);
  });
});
