import { describe, expect, it } from 'vitest';
import { placeKey } from '../../../src/round/place-words.ts';
import { doubtfulPlaces } from '../../../src/round/doubtful-places.ts';
import { roundPlans } from '../../../src/round/round-plans.ts';
import { estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import { readSample } from '../../read-sample.ts';

const [firstPass] = readSample('plain').passes;
const among = roundPlans('long').at(-1)!.stations;

describe('the most doubtful places', () => {
  it('lie where nothing was read', () => {
    const isGap = ({ blade, fromTipMm }: { blade: string; fromTipMm: number }) =>
      blade === 'A' && fromTipMm >= 5 && fromTipMm <= 12;
    const model = fitReed([
      { ...firstPass!, readings: firstPass!.readings.filter((reading) => !isGap(reading)) },
    ]);
    const places = doubtfulPlaces(model, among, 5);
    expect(places.filter(isGap).length).toBeGreaterThanOrEqual(3);
    expect(new Set(places.map(placeKey)).size).toBe(5);
  });

  it('begin with the largest share of stiffness unknown, three standard errors by the thickness', () => {
    const model = fitReed([firstPass!]);
    const share = (station: (typeof among)[number]) => {
      const { valueMm, uMm } = estimate(model, pointFunctional(model, { ...station, pass: 0 }));
      return (3 * uMm) / valueMm;
    };
    const [most] = doubtfulPlaces(model, among, 1);
    expect(share(most!)).toBe(Math.max(...among.map(share)));
  });

  it('count as read once asked for: a second of the same neighbourhood waits', () => {
    const model = fitReed([firstPass!]);
    const close = [0, 0.02, 0.04].map((across) => ({ ...among[0]!, across: -0.8 + across }));
    const elsewhere = { ...among[0]!, blade: 'B' as const };
    const [first, second] = doubtfulPlaces(model, [...close, elsewhere], 2);
    expect(new Set([first!.blade, second!.blade])).toEqual(new Set(['A', 'B']));
  });

  it('are all there are, where fewer are offered', () => {
    expect(doubtfulPlaces(fitReed([firstPass!]), among.slice(0, 3), 8)).toHaveLength(3);
  });
});
