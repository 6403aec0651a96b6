import { describe, expect, it } from 'vitest';
import { foldRound } from '../../../src/round/fold-round.ts';
import { placesToReadAgain } from '../../../src/round/read-twice.ts';
import { stamped, station, taken } from './acts.ts';

// A blade that is flat between 6 and 10 mm, and rises by 0.08 mm for each mm elsewhere; hundredths.
const ROWS = [
  [1, 10],
  [2, 18],
  [3, 26],
  [4, 34],
  [6, 50],
  [8, 50],
  [10, 50],
] as const;
const stations = (['A', 'B'] as const).flatMap((blade) =>
  ROWS.flatMap(([fromTipMm]) => [-0.4, 0, 0.4].map((across) => station(blade, fromTipMm, across))),
);
const readingOf = (place: (typeof stations)[number]) =>
  taken(place, ROWS.find(([row]) => row === place.fromTipMm)![1] / 100);
const at = (seconds: number, draft: ReturnType<typeof readingOf>) => ({ ...draft, seconds });
const roundOf = (drafts: ReturnType<typeof readingOf>[]) => foldRound({ stations }, stamped(drafts));
const whole = stations.map((place, i) => at(10 * i, readingOf(place)));

describe('places read again at the end of a round', () => {
  it('are three in different rows, early, and where a hand that misses moves the reading least', () => {
    const places = placesToReadAgain(roundOf(whole), 0.01);
    // At 8 mm the blade does not rise; elsewhere it does by 0.04 or 0.08 mm for each mm, so that of the others the earliest
    // tell most, those at 10 and 6 mm rise less than the earlier ones.
    expect(places).toHaveLength(3);
    expect(places[0]).toEqual(station('A', 8, -0.4));
    expect(new Set(places.map(({ fromTipMm }) => fromTipMm)).size).toBe(3);
    expect(places.every(({ blade }) => blade === 'A')).toBe(true);
  });

  it('are not offered in a short round, nor where a place was read again already', () => {
    expect(placesToReadAgain(roundOf(whole.slice(0, 19)), 0.01)).toEqual([]);
    const again = at(430, readingOf(stations[2]!));
    expect(placesToReadAgain(roundOf([...whole, again]), 0.01)).toEqual([]);
    const repeat = at(25, readingOf(stations[2]!));
    expect(placesToReadAgain(roundOf([...whole.slice(0, 3), repeat, ...whole.slice(3)]), 0.01)).toHaveLength(
      3,
    );
  });
});
