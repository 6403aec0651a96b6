import { describe, expect, it } from 'vitest';
import { besideGrid, compare } from '../../../src/plan/compare.ts';
import { sayCompared } from '../../../src/plan/say-compared.ts';
import { targetFromReed } from '../../../src/plan/target.ts';
import { figuresOf } from '../../../src/answers/record/reed-figures.ts';
import { zonesAt } from '../../../src/answers/fitted-reed.ts';
import { localPlace } from '../../../src/answers/local-place.ts';
import { evenness, sayEvenness, sayGouge } from '../../../src/answers/even.ts';
import { outsideMeant } from '../../../src/answers/outside-meant.ts';
import { sayTakenOff } from '../../../src/answers/say-taken-off.ts';
import { takenOff } from '../../../src/answers/taken-off.ts';
import { nearFloors, standingReadings } from '../../../src/answers/standing-readings.ts';
import { sayThereNow } from '../../../src/answers/there-now.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const writing = { unit: 'hundredths', decimal: 'point' } as const;
const m142 = scenarioReed('M-142');
const k117 = scenarioReed('K-117');

describe('there now', () => {
  const [now, favourite] = [figuresOf({ benched: m142, pass: 3 }), figuresOf({ benched: k117, pass: 0 })];

  it('says that the blend of M-142 stands half a millimetre nearer the tip than on K-117', () => {
    // By straight interpolation between the readings: 3.70 against 4.23.
    expect(Math.abs(now.blend!.valueMm - 3.7)).toBeLessThan(0.1);
    expect(Math.abs(favourite.blend!.valueMm - 4.23)).toBeLessThan(0.1);
    expect(sayThereNow(now, writing, favourite).say).toMatch(
      /blend stands at 3\.[678].*nearer the tip than on K-117/,
    );
  });

  it('minds the right window of B at 10 mm, one hundredth above its floor', () => {
    const [nearest] = nearFloors(m142, 3).filter(
      ({ reading }) => reading.across === 0.4 && reading.blade === 'B',
    );
    expect(nearest!.reading).toMatchObject({
      fromTipMm: 10,
      thicknessMm: 0.35,
    });
    expect(nearest!.marginMm).toBeCloseTo(0.01, 9);
  });

  it('keeps older readings where a pass read nothing', () => {
    const standing = standingReadings(m142, 1);
    expect(standing.filter(({ pass }) => pass === 0).every(({ fromTipMm }) => fromTipMm >= 9)).toBe(true);
    expect(standing).toHaveLength(140);
  });
});

describe('taken off', () => {
  it('finds what pass 3 took from the heart, and the dig in B', () => {
    const taken = takenOff(m142, { before: 2, after: 3 });
    expect(taken.most.B!.fromTipMm).toBeGreaterThan(8);
    expect(taken.most.B!.fromTipMm).toBeLessThan(11);
    expect(taken.most.B!.across).toBeGreaterThan(0.2);
    expect(sayTakenOff(m142, taken, writing).say).toMatch(
      /^Pass 3 took about \d.*\shundredths from the heart/,
    );
  });

  it('points out the dig in the right window of B, and what was not read before', () => {
    const { mind, aside } = sayTakenOff(m142, takenOff(m142, { before: 2, after: 3 }), writing);
    expect(mind).toMatch(/^B’s right window lost \d+ at (9|10)(\.\d)?\smm, in one place [1-4]\smm long\.$/);
    expect(aside).toMatch(/^Below 14\smm pass 2 was not read\.$/);
  });

  it('names the largest place of each zone that measurably lost cane, and none elsewhere', () => {
    const { mostOf, most } = takenOff(m142, { before: 2, after: 3 });
    expect(mostOf.get('windows')).toMatchObject({ blade: 'B' });
    // The dig is at 10 mm, the window begins at 9.2: the largest place of the whole blade lies on its edge.
    // So a window's largest is no more than that, and less by no more than its standard uncertainty.
    expect(mostOf.get('windows')!.valueMm).toBeLessThanOrEqual(most.B!.valueMm);
    expect(mostOf.get('windows')!.valueMm).toBeGreaterThan(most.B!.valueMm - most.B!.uMm);
    expect(mostOf.has('corners')).toBe(false);
  });

  it('tells what went outside the strokes that were written down', () => {
    const pair = { before: 2, after: 3 };
    const meant = (...zones: readonly string[]) => {
      const places = zones.map((zone) => ({ zone, blade: 'both', side: 'both' }) as const);
      const passes = m142.passes.map((pass) => (pass.index === 3 ? { ...pass, scrape: { places } } : pass));
      const benched = { ...m142, passes };
      return outsideMeant(benched, takenOff(benched, pair));
    };
    const some = meant('heart', 'heart-sides');
    const all = meant(...m142.assembled.style.zones.map(({ name }) => name));
    if (typeof some === 'string' || typeof all === 'string') throw new Error('it can be told');
    // What was not meant and what was make up the whole: volumes of zones, summed by hand.
    const { rows } = takenOff(m142, pair);
    const volume = (names: readonly string[]) =>
      rows
        .filter(({ name }) => names.includes(name))
        .reduce((sum, { blades }) => sum + blades.A!.volumeMm3 + blades.B!.volumeMm3, 0);
    const everything = volume(rows.map(({ name }) => name));
    // Halves and wholes are summed by different cells; areas agree to a few parts in ten million.
    expect(some.allMm3).toBeCloseTo(everything, 5);
    expect(some.volumeMm3).toBeCloseTo(everything - volume(['heart', 'heart-sides']), 5);
    expect(some.uMm3).toBeGreaterThan(0);
    // The dig in B's right window lies outside.
    expect(some.most).toMatchObject({ blade: 'B' });
    expect(some.most!.across).toBeGreaterThan(0.2);
    expect(Math.abs(all.volumeMm3)).toBeLessThan(1e-12);
    expect(meant('under the wire')).toMatch(/“under the wire”/);
    expect(meant()).toMatch(/No strokes/);
  });

  it('counts only the blade and side that were written down as meant', () => {
    const places = [{ zone: 'windows', blade: 'B', side: 'right' } as const];
    const passes = m142.passes.map((pass) => (pass.index === 3 ? { ...pass, scrape: { places } } : pass));
    const benched = { ...m142, passes };
    const found = outsideMeant(benched, takenOff(benched, { before: 2, after: 3 }));
    if (typeof found === 'string') throw new Error(found);
    const { across, blade } = found.most!;
    const inside = blade === 'B' && across > 0 && found.most!.fromTipMm > 10;
    expect(inside).toBe(false);
  });

  it('calls nothing at 6 mm growth in the clipped, over-soaked pass', () => {
    const { growth } = takenOff(m142, { before: 1, after: 2 });
    expect(growth).toEqual({});
  });
});

describe('even', () => {
  it('names the hand on K-117, and that light would not have shown it', () => {
    const answer = sayEvenness(evenness(figuresOf({ benched: k117, pass: 0 })), writing);
    expect(answer.say).toMatch(/^On both blades the right is thinner than the left/);
    expect(answer.aside).toContain('Light would not have shown it');
  });

  it('looks for one local place before it blames the hand: the dig in B’s right window of M-142', () => {
    const benched = scenarioReed('M-142');
    const found = localPlace(benched, 3)!;
    const zones = evenness(figuresOf({ benched, pass: 3 }));
    const answer = sayEvenness(zones, writing, {
      found,
      placed: zonesAt(benched, 3),
    });
    // By hand from the readings at 10 mm: B 43 and 35; through both blades 75 and 85.
    expect(answer.say).toMatch(
      /^B’s right window is [89]\shundredths thinner than its left at (9\.[5-9]|10|10\.[1-5])\smm, in one place\.$/,
    );
    expect(answer.mind).toBe('Look there first: a dig, or a reading to take again.');
    expect(answer.aside).toMatch(
      /^Looked through, side 1 is (9|10|11)\shundredths thinner at .*: light shows that/,
    );
    expect(answer.aside).not.toContain('windows');
  });

  it('finds no single place where a whole side or a whole blade differs', () => {
    expect(localPlace(k117, 0)).toBeUndefined();
    expect(localPlace(scenarioReed('M-139'), 0)).toBeUndefined();
  });

  it('names the side on M-139: the gouge', () => {
    const answer = sayEvenness(evenness(figuresOf({ benched: scenarioReed('M-139'), pass: 0 })), writing);
    expect(answer.say).toMatch(/^Side 1 of the reed is thicker/);
    expect(answer.mind).toContain('gouge');
  });
  it('lays the side difference at the gouger where the piece was read so, and elsewhere where it was not', () => {
    expect(sayGouge({ valueMm: 0.05, uMm: 0.009 }, writing)).toBe(
      'Its cane was gouged uneven: side 1 less side 2 read +5.0\u00a0±1.8\u00a0hundredths at the gouger.',
    );
    expect(sayGouge({ valueMm: 0.004, uMm: 0.009 }, writing)).toContain(
      '(+0.4)\u00a0±1.8\u00a0hundredths: for a side difference look',
    );
  });
});

describe('beside', () => {
  it('finds M-142 thicker than K-117 at the blend and spine, with the blend nearer the tip', () => {
    const own = { benched: m142, pass: 3 };
    const compared = compare(own, targetFromReed({ benched: k117, pass: 0 }, besideGrid(own)));
    const blend = compared.zones.find(({ name }) => name === 'blend')!;
    expect(blend.difference.valueMm).toBeGreaterThan(0.02);
    const answer = sayCompared(compared, writing);
    expect(answer.say).toMatch(/nearer the tip than on K-117\. Thicker than K-117: .*\shundredths/);
  });
});
