import { describe, expect, it } from 'vitest';
import { betweenRead, patchesOf, patchPlaces } from '../../../src/figures/patches.ts';
import { measurable } from '../../../src/figures/measurable.ts';
import { mapGrid, removedMap, type FigureMap } from '../../../src/figures/surface-map.ts';
import { unreadBetween } from '../../../src/figures/unread.ts';
import { scenarioReed } from '../../scenario-reed.ts';

/** A map of one column, half a millimetre a row. */
const column = (...valuesMm: number[]): FigureMap => ({
  ysMm: valuesMm.map((_, row) => row / 2),
  us: [0],
  valuesMm: Float64Array.from(valuesMm),
  uMm: new Float64Array(valuesMm.length).fill(0.01),
  factor: () => 3,
});
const sure = (...rows: number[]) => Uint8Array.from(rows);

describe('a patch across rows that lie between readings', () => {
  it('goes on from one read row to the next', () => {
    const map = column(0.05, 0.02, 0.01, 0.05);
    expect([...betweenRead(map, sure(1, 0, 0, 1), [0, 1.5])]).toEqual([0, 1, 1, 0]);
  });

  it('ends at a row that was read and lost nothing measurable, and where a value says that nothing went', () => {
    expect([...betweenRead(column(0.05, 0.02, 0.01, 0.05), sure(1, 0, 0, 1), [0, 0.5, 1.5])]).toEqual([
      0, 0, 0, 0,
    ]);
    expect([...betweenRead(column(0.05, -0.01, 0.01, 0.05), sure(1, 0, 0, 1), [0, 1.5])]).toEqual([
      0, 0, 0, 0,
    ]);
  });

  it('does not reach beyond its last measurable row', () => {
    expect([...betweenRead(column(0.02, 0.05, 0.02), sure(0, 1, 0), [0.5])]).toEqual([0, 0, 0]);
  });
});

describe('what hangs together with a measurable place', () => {
  it('is told from none by itself, and touches it: 0.0197 of 0.01 is more than 1.96 of them, 0.0195 is not', () => {
    const places = (...mm: number[]) => [
      ...patchPlaces(column(...mm), sure(1, 0, 0, 0, 0), [0, 0.5, 1, 1.5, 2]),
    ];
    expect(places(0.05, 0.0197, 0.0195, 0.03, 0.0195)).toEqual([1, 1, 0, 0, 0]);
    expect(places(0.05, 0.0195, 0.03, 0.03, 0.03)).toEqual([1, 0, 0, 0, 0]);
  });
});

describe('the patches of the last pass of M-142', () => {
  const benched = scenarioReed('M-142');
  const model = benched.model!;
  const pair = { before: 2, after: 3 };
  const map = removedMap(model, 'B', 2, 3, mapGrid(model.passes[3]!.bladeLengthMm, 61, 31));
  const lost = measurable(map).map((yes, i) => (yes === 1 && map.valuesMm[i]! > 0 ? 1 : 0));
  const patches = patchesOf(model, pair, 'B', map, lost, unreadBetween(benched.assembled.passes, pair, 'B'));

  it('hold every measurable place once, the largest loss first', () => {
    const step = map.ysMm[1]! - map.ysMm[0]!;
    const area = lost.reduce((sum, yes, i) => {
      const y = map.ysMm[Math.floor(i / map.us.length)]!;
      return sum + (yes ? step * (2 / 30) * model.passes[3]!.halfWidthMm(y) : 0);
    }, 0);
    const held = patches.reduce((sum, { areaMm2 }) => sum + areaMm2, 0);
    // Corners of single cells are no patches.
    expect(held).toBeLessThanOrEqual(area + 1e-9);
    expect(held).toBeGreaterThan(0.9 * area);
    const volumes = patches.map(({ mean, areaMm2 }) => mean.valueMm * areaMm2);
    expect(volumes).toEqual([...volumes].sort((a, b) => b - a));
  });

  it('have the mean of their places, and their most where the dig is', () => {
    // The dig of the invented scenario: B's right window at 10 mm, 0.08 under its left.
    const dig = patches.find(({ most }) => most.across > 0.2 && Math.abs(most.fromTipMm - 10) < 1)!;
    expect(dig.most.valueMm).toBeGreaterThan(0.05);
    expect(dig.mean.valueMm).toBeLessThan(dig.most.valueMm);
    expect(dig.mean.uMm).toBeLessThan(dig.most.uMm);
    expect(dig.fromMm).toBeLessThanOrEqual(dig.most.fromTipMm);
    expect(dig.toMm).toBeGreaterThanOrEqual(dig.most.fromTipMm);
  });
});
