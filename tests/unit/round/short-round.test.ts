import { describe, expect, it } from 'vitest';
import type { Pass } from '../../../shared/pass.ts';
import type { Act } from '../../../shared/round.ts';
import { benchReed } from '../../../src/answers/fitted-reed.ts';
import { lessonsOf, type Lessons } from '../../../src/answers/from-library.ts';
import { knownPlaces } from '../../../src/answers/known-places.ts';
import { unfittedReed } from '../../../src/answers/unfitted-reed.ts';
import { estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { meanOver, zoneArea } from '../../../src/figures/zone-mean.ts';
import { zonesAt } from '../../../src/answers/fitted-reed.ts';
import { expectationByReeds } from '../../../src/round/expected-at.ts';
import { foldRound } from '../../../src/round/fold-round.ts';
import { placeKey } from '../../../src/round/place-words.ts';
import {
  DOUBTS_MM,
  shortChoices,
  shortRound,
  shortState,
  type KnownPlaces,
} from '../../../src/round/short-round.ts';
import { enoughSentence, worthSentence } from '../../../src/round/short-words.ts';
import { inventedMaker } from '../../generator/makers.ts';
import { libraryReed, libraryPass } from '../library-of-maker.ts';

const maker = inventedMaker('varied', 42);
const LESSONS: Lessons = lessonsOf({
  ...{ key: 'sixteen', gauges: [], reeds: Array.from({ length: 16 }, (_, k) => libraryReed(`reed ${k}`)) },
  passes: Array.from({ length: 16 }, (_, k) => libraryPass(`reed ${k}`, maker.reed(k).passes[0]!.readings)),
});
const NEXT = { index: 0, overallLengthMm: 70, threadMm: 47, gaugeStepMm: 0.01 };
const UNREAD = unfittedReed(libraryReed('new'), []);
const known = (lessons: Lessons) => knownPlaces(UNREAD, NEXT, [], lessons);
const LEARNED = known(LESSONS);
const PLAIN = known([]);
const WRITING = { count: 'hundredths', decimal: 'point' } as const;
const ASKED = { question: 'zones', doubtMm: 0.015 } as const;

/** Reads a reed by a short round to its end; the acts and how it stood after each. */
function readShort(
  of: KnownPlaces,
  index: number,
  asked: Parameters<typeof shortRound>[1] = ASKED,
  from = maker,
) {
  const short = shortRound(of, asked);
  const hundredths = new Map(
    from.reed(index).passes[0]!.readings.map((one) => [placeKey(one), Math.round(one.thicknessMm * 100)]),
  );
  const acts: Act[] = [];
  const states = [shortState(short, foldRound({ stations: [...of.places] }, acts))];
  for (;;) {
    const { asked: keys } = states.at(-1)!;
    const folded = foldRound({ stations: of.places.filter((place) => keys.has(placeKey(place))) }, acts);
    if (folded.next === undefined) return { acts, states };
    const { station } = folded.stations[folded.next]!;
    const seq = acts.length + 1;
    const thicknessMm = hundredths.get(placeKey(station))! / 100;
    acts.push({
      ...{ act: 'taken', id: `act ${seq}`, roundId: 'round', deviceId: 'here', seq, at: '', flag: 'ok' },
      ...{ station, thicknessMm },
    });
    states.push(shortState(short, foldRound({ stations: [...of.places] }, acts), `act ${seq}`));
  }
}

const passOf = (acts: readonly Act[]): Pass =>
  libraryPass(
    'new',
    acts.flatMap((act) =>
      act.act === 'taken'
        ? [{ ...act.station, thicknessMm: act.thicknessMm, repeats: 1, noiseFactor: 1 }]
        : [],
    ),
  );

describe('a short round', () => {
  const { acts, states } = readShort(LEARNED, 501);
  const last = states.at(-1)!;

  it('ends at the doubt that was asked for, in a fraction of the places that it takes without other reeds', () => {
    expect(last.isEnough).toBe(true);
    expect(acts.length).toBeLessThan(29);
    expect(acts.length).toBeLessThan(0.6 * readShort(PLAIN, 501).acts.length);
    expect(last.doubtMm).toBeLessThanOrEqual(ASKED.doubtMm);
  });

  it('turns the reed over once, and each reading tells no less than none', () => {
    const blades = acts.flatMap((act) => (act.act === 'taken' ? act.station.blade : []));
    expect(blades).toEqual([...blades].sort());
    states
      .slice(1)
      .forEach((state) => expect(state.doubtMm).toBeLessThanOrEqual(state.last!.beforeMm + 1e-12));
  });

  it('knows the zones as surely as the fit of its readings does afterwards, which every screen shows', () => {
    const { model, fromLibrary, ...benched } = benchReed(
      libraryReed('new'),
      [passOf(acts)],
      [],
      undefined,
      LESSONS,
    );
    expect(fromLibrary?.isOutside).toBe(false);
    const within = zonesAt(benched, 0).filter(({ title }) => !last.beyond.includes(title));
    const squares = within.flatMap((zone) =>
      (['A', 'B'] as const).map(
        (blade) => estimate(model!, meanOver(model!, blade, 0, zoneArea(zone, model!.passes[0]!))!).uMm ** 2,
      ),
    );
    const doubtMm = 1.96 * Math.sqrt(squares.reduce((sum, one) => sum + one, 0) / squares.length);
    expect(doubtMm / last.doubtMm).toBeGreaterThan(0.97);
    expect(doubtMm / last.doubtMm).toBeLessThan(1.03);
  });

  it('says after each reading what was expected of it and what it was worth, and at the end that it is enough', () => {
    expect(worthSentence(states[0]!, WRITING)).toBe('');
    expect(worthSentence(states[1]!, WRITING)).toMatch(
      /^\d+ to \d+ was expected\. The zones: ±[\d.]+ on average, ±[\d.]+ before it\.$/,
    );
    expect(enoughSentence(last, WRITING)).toMatch(
      /^Enough is known\. The zones: ±1\.\d on average, from these readings and 16 of your reeds\. Corners.* stay about as open as a full map leaves them\.$/,
    );
    expect(enoughSentence({ ...last, isEnough: false, beyond: [] }, WRITING)).toMatch(/^No place is left/);
  });

  it('expects a reading as the fit of all others does', () => {
    const others = acts.slice(0, -1);
    const { model } = benchReed(libraryReed('new'), [passOf(others)], [], undefined, LESSONS);
    const { station } = acts.at(-1)! as Extract<Act, { act: 'taken' }>;
    const { valueMm } = estimate(model!, pointFunctional(model!, { ...station, pass: 0 }));
    // Slopes are those that were expected before the first reading: a tenth of its own doubt at most.
    expect(Math.abs(last.last!.expectedMm - valueMm)).toBeLessThan(last.last!.uMm / 10);
  });

  it('goes on by what any reed may be where the reed is unlike the others, and says so', () => {
    const { states: strange, acts: read } = readShort(LEARNED, 3, ASKED, inventedMaker('steady', 4242));
    const end = strange.at(-1)!;
    expect(end.unlike).toBe(16);
    expect(read.length).toBeGreaterThan(40);
    expect(worthSentence(end, WRITING)).toContain(
      'This reed is unlike your other 16: more places are asked for.',
    );
    expect(enoughSentence(end, WRITING)).not.toContain('of your reeds');
  });

  it('chooses places by what any reed may be while the last reeds are of another kind than those before', () => {
    const { ways } = known(LESSONS.map((lesson) => ({ ...lesson, isChanging: true })));
    expect(ways).toHaveLength(1);
    expect(ways[0]).not.toHaveProperty('family');
    expect(LEARNED.ways[0]).toHaveProperty('family');
  });

  it('asks again for what was taken back, and not for what was passed over', () => {
    const short = shortRound(LEARNED, ASKED);
    const { station } = acts[0]! as Extract<Act, { act: 'taken' }>;
    const skipped: Act = {
      ...{ act: 'skipped', id: 'skip', roundId: 'round', deviceId: 'here', seq: 1, at: '', station },
      reason: 'out of reach',
    };
    const stations = [...LEARNED.places];
    const { asked } = shortState(short, foldRound({ stations }, [skipped]));
    expect(asked.has(placeKey(station))).toBe(true);
    expect(asked.size).toBe(states[0]!.asked.size);
    const after = foldRound({ stations: stations.filter((one) => asked.has(placeKey(one))) }, [skipped]);
    expect(after.stations[after.next!]!.station).not.toEqual(station);
  });
});

describe('what a short round may be asked', () => {
  it('takes more places for less doubt, and more without other reeds', () => {
    const choices = shortChoices(LEARNED);
    expect(choices.map(({ question }) => question)).toEqual(['zones', 'blend', 'balance', 'plan']);
    for (const { question, counts } of choices) {
      expect(counts).toEqual([...counts].sort((a, b) => b - a));
      const plain = shortRound(PLAIN, { question, doubtMm: 0.02 }).ways[0]!.planned;
      expect(counts[DOUBTS_MM.indexOf(0.02)]).toBeLessThan(plain.length);
    }
  });
});

describe('what the maker’s other reeds lead to expect of a first pass', () => {
  const own = maker.reed(502).passes[0]!.readings;
  it('covers sound readings, and finds a tenth misread odd', () => {
    const off = own.map((reading, k) => {
      const { valueMm, sdMm } = expectationByReeds(LEARNED, reading, own.toSpliced(k, 1))!;
      return { sds: (reading.thicknessMm - valueMm) / sdMm, slip: 0.1 / sdMm };
    });
    const covered = off.filter(({ sds }) => Math.abs(sds) <= 1.96).length / off.length;
    expect(covered).toBeGreaterThan(0.9);
    expect(off.filter(({ slip }) => slip > 3).length / off.length).toBeGreaterThan(0.9);
  });

  it('is silent without other reeds, and where the reed is unlike them', () => {
    expect(expectationByReeds(PLAIN, own[0]!, [])).toBeUndefined();
    const strange = own.map((one) => ({ ...one, thicknessMm: one.thicknessMm * 1.4 }));
    expect(expectationByReeds(LEARNED, own[0]!, strange.slice(1))).toBeUndefined();
  });
});
