import { describe, expect, it } from 'vitest';
import type { Style } from '../../../shared/style.ts';
import { measurable } from '../../../src/figures/measurable.ts';
import { bladeMapData, doubtMap, mapZones } from '../../../components/map/map-of-figures.ts';

const point = (fromTipMm: number, across: number, hangsFrom: 'tip' | 'cane' = 'tip') => ({
  fromTipMm,
  across,
  hangsFrom,
});
const tip = [point(0, -1), point(0, 1), point(4, 1), point(5, 0), point(4, -1)];
const back = [point(4, -1), point(5, 0), point(4, 1), point(9, 1, 'cane'), point(9, -1, 'cane')];
const zones: Style['zones'] = [
  { name: 'tip', title: 'Tip', outlines: [tip] },
  { name: 'back', title: 'Back', outlines: [back] },
];
const placed = zones.map(({ name, title, outlines }) => ({
  name,
  title,
  outlines: outlines.map((outline) => outline.map(({ fromTipMm, across }) => [fromTipMm, across] as const)),
}));

describe('mapZones', () => {
  const [first, second] = mapZones({ zones }, placed);

  it('draws a border inside the blade and leaves the edge of the wood to its outline', () => {
    expect(first!.segments).toEqual([
      { hangsFrom: 'tip', points: [4, 5, 4].map((fromTipMm, k) => ({ fromTipMm, across: 1 - k })) },
    ]);
  });

  it('draws what two zones share once, and tells what hangs from the cane', () => {
    expect(second!.segments).toEqual([
      { hangsFrom: 'cane', points: [1, -1].map((across) => ({ fromTipMm: 9, across })) },
    ]);
  });
});

describe('bladeMapData', () => {
  const map = {
    ysMm: [0, 5, 10],
    us: [-1, 0, 1],
    valuesMm: Float64Array.of(0.05, 0.01, 0, 0.04, 0.02, -0.06, 0.1, 0.1, 0.1),
    uMm: new Float64Array(9).fill(0.01),
    factor: () => 3,
  };
  const parts = {
    blade: 'A',
    map,
    geometry: { bladeLengthMm: 23, halfWidthMm: (y: number) => 3.5 - y / 20 },
    readToMm: 6,
    marks: [],
    zones: [],
  } as const;

  it('calls a difference of nothing, known without a doubt, not measurable', () => {
    const middle = { ...map, valuesMm: new Float64Array(9), uMm: new Float64Array(9) };
    const { measurable: found } = bladeMapData({ ...parts, map: middle, isDifference: true });
    expect(Array.from(found!)).toEqual(Array(9).fill(0));
  });

  it('draws nothing beyond what was read', () => {
    const { valuesMm, halfWidthMm } = bladeMapData(parts);
    expect(Array.from(valuesMm).map(Number.isNaN)).toEqual([...Array(6).fill(false), true, true, true]);
    expect(halfWidthMm).toEqual([3.5, 3.25, 3]);
  });

  it('draws the border of the measurable where the core puts it', () => {
    const drawn = Array.from(bladeMapData({ ...parts, isDifference: true }).measurable!, (value) =>
      value > 0.5 ? 1 : 0,
    );
    expect(drawn).toEqual(Array.from(measurable(map)));
  });

  it('shows doubt as a map of its own, 95 % of it', () => {
    for (const doubt of doubtMap(map).valuesMm) expect(doubt).toBeCloseTo(0.0196, 6);
  });
});
