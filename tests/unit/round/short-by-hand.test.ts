import { describe, expect, it } from 'vitest';
import type { Station } from '../../../shared/grid.ts';
import type { Act } from '../../../shared/round.ts';
import { foldRound } from '../../../src/round/fold-round.ts';
import { placeKey } from '../../../src/round/place-words.ts';
import {
  shortChoices,
  shortRound,
  shortState,
  type KnownPlaces,
  type Way,
} from '../../../src/round/short-round.ts';

const N = 16;
const PLACES: readonly Station[] = Array.from({ length: N }, (_, k) => ({
  ...{ blade: 'A', fromTipMm: k + 1, across: 0, role: 'station' },
}));
const [SURFACE_MM2, NOISE_MM2] = [4e-4, 1e-4];
/** Places that tell nothing of each other; the second is read four times less surely, and those behind it hardly stray. */
const variance = (k: number) => (k < 2 ? SURFACE_MM2 : 1e-4 - k * 1e-6);

function way(meanMm: number, more: Partial<Way> = {}): Way {
  const diagonal = (at: (k: number) => number) =>
    Float64Array.from({ length: N * N }, (_, k) => (k % (N + 1) === 0 ? at(k % N) : 0));
  return {
    knowing: {
      meanMm: new Float64Array(N).fill(meanMm),
      covariance: diagonal(variance),
      noiseMm2: Float64Array.from({ length: N }, (_, k) => (k === 1 ? 4 : 1) * NOISE_MM2),
      // What is asked is the first two places themselves.
      asked: Float64Array.from({ length: 2 * N }, (_, k) => (k === 0 || k === N + 1 ? SURFACE_MM2 : 0)),
      askedMm2: Float64Array.of(SURFACE_MM2, SURFACE_MM2),
    },
    ...more,
  };
}
const learned = (meanMm: number, reeds: number) =>
  way(meanMm, {
    reeds,
    family: {
      dof: 1e9,
      othersMm2: Float64Array.from({ length: N * N }, (_, k) => (k % (N + 1) === 0 ? 100 * SURFACE_MM2 : 0)),
    },
  });
const known = (...ways: Way[]): KnownPlaces => ({
  ...{ places: PLACES, ways, titles: ['Tip', 'Corners'] },
  questions: { zones: [0, 1], blend: [0], balance: [], plan: [] },
});
const ASKED: Parameters<typeof shortRound>[1] = { question: 'zones', doubtMm: 0.03 };
const DOUBT_95 = 1.959964;

const taken = (place: number, thicknessMm: number, seq: number, flag: 'ok' | 'doubtful' = 'ok'): Act => ({
  ...{ act: 'taken', id: `act ${seq}`, roundId: 'round', deviceId: 'here', seq, at: '', flag },
  ...{ station: PLACES[place]!, thicknessMm },
});
const stateOf = (of: KnownPlaces, acts: readonly Act[], lastId?: string, asked = ASKED) =>
  shortState(shortRound(of, asked), foldRound({ stations: [...PLACES] }, [...acts]), lastId);
/** So many of the places, as expected of a mean of 0.5 mm. */
const readAsExpected = (places: readonly number[]) => places.map((place, k) => taken(place, 0.5, k + 1));

describe('a short round, worked by hand', () => {
  it('leaves s2 v / (v + s2) of a place that was read, and half the noise where it was read twice', () => {
    const once = stateOf(known(way(0.5)), [taken(0, 0.52, 1)], 'act 1');
    // The corner cannot be told to 0.03: 2e-4 of 4e-4 are left of it, 0.0277, and 1.25 times that is enough.
    expect(once.beyond).toEqual(['Corners']);
    expect(once.doubtMm).toBeCloseTo(DOUBT_95 * Math.sqrt(0.8e-4), 6);
    expect(once.last).toMatchObject({ id: 'act 1', expectedMm: 0.5, uMm: Math.sqrt(5e-4) });
    expect(once.last!.beforeMm).toBeCloseTo(DOUBT_95 * 0.02, 6);
    const twice = stateOf(known(way(0.5)), [taken(0, 0.52, 1), taken(0, 0.51, 2)]);
    expect(twice.doubtMm).toBeCloseTo(DOUBT_95 * Math.sqrt((4e-4 * 0.5e-4) / 4.5e-4), 6);
    expect(twice.last).toBeUndefined();
    // A doubtful reading is three times as noisy.
    const doubtful = stateOf(known(way(0.5)), [taken(0, 0.52, 1, 'doubtful')]);
    expect(doubtful.doubtMm).toBeCloseTo(DOUBT_95 * Math.sqrt((4e-4 * 9e-4) / 13e-4), 6);
  });

  it('weighs both figures alike where neither can be told so surely, and names none beyond', () => {
    const { beyond, doubtMm } = stateOf(known(way(0.5)), [taken(0, 0.5, 1)], undefined, {
      ...ASKED,
      doubtMm: 0.005,
    });
    expect(beyond).toEqual([]);
    expect(doubtMm).toBeCloseTo(DOUBT_95 * Math.sqrt((0.8e-4 + 4e-4) / 2), 6);
  });

  it('asks first what tells most of the figures, then where least is known: twelve in all', () => {
    const { asked, isEnough } = stateOf(known(way(0.5)), []);
    expect([...asked]).toEqual(PLACES.slice(0, 12).map(placeKey));
    expect(isEnough).toBe(false);
    for (const { counts } of shortChoices(known(way(0.5)))) expect(new Set(counts)).toEqual(new Set([12]));
    expect(shortChoices(known(way(0.5))).map(({ question }) => question)).toEqual(['zones', 'blend']);
  });

  it('knows enough once what was asked was read, and asks for no more after twelve', () => {
    const two = stateOf(known(way(0.5)), readAsExpected([0, 1]));
    expect(two.isEnough).toBe(true);
    expect(two.asked.size).toBe(12);
    const others = [4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15];
    const without = stateOf(known(way(0.5)), readAsExpected(others));
    expect(without.isEnough).toBe(false);
    // What was planned before the first reading stays asked for.
    expect(without.asked.size).toBe(16);
    const all = stateOf(known(way(0.5)), readAsExpected([0, 1, ...others.slice(2)]));
    expect(all.asked.size).toBe(12);
  });

  it('goes by the way that the readings are likest, and says from how many reeds', () => {
    const ways = known(learned(0.5, 20), learned(0.4, 9), way(0.45));
    expect(stateOf(ways, [])).toMatchObject({ reeds: 20 });
    expect(stateOf(ways, [taken(0, 0.5, 1)])).toMatchObject({ reeds: 20 });
    const thin = stateOf(ways, [taken(0, 0.4, 1)], 'act 1');
    expect(thin).toMatchObject({ reeds: 9, last: { expectedMm: 0.4 } });
    expect(thin.unlike).toBeUndefined();
  });

  it('goes by any reed where the readings are unlike all ways, and says how many reeds they are unlike', () => {
    // Four readings 0.1 mm off by a standard deviation of 0.0224 or less: no such reed is in the family.
    const acts = [0, 2, 3, 4].map((place, k) => taken(place, 0.6, k + 1));
    const state = stateOf(known(learned(0.5, 20), way(0.45)), acts, 'act 4');
    expect(state.reeds).toBeUndefined();
    expect(state).toMatchObject({ unlike: 20, last: { expectedMm: 0.45 } });
    expect(stateOf(known(way(0.45)), acts).unlike).toBeUndefined();
    // Two standard deviations off at one place is too little to go by; at each of twelve it is not.
    const offBy2 = (place: number) =>
      0.5 + 2 * Math.sqrt(variance(place) + (place === 1 ? 4 : 1) * NOISE_MM2);
    const reads = (count: number) =>
      Array.from({ length: count }, (_, place) => taken(place, offBy2(place), place + 1));
    expect(stateOf(known(learned(0.5, 20), way(0.45)), reads(1)).unlike).toBeUndefined();
    expect(stateOf(known(learned(0.5, 20), way(0.45)), reads(12)).unlike).toBe(20);
  });
});
