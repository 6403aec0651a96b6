import { describe, expect, it } from 'vitest';
import type { PassFacts } from '../../../shared/pass.ts';
import type { Trial } from '../../../shared/trial.ts';
import { airLog } from '../../../src/climate/air-log.ts';
import { lifeOf, sayLife } from '../../../src/rotation/life-strip.ts';

const pass = (index: number, facts: Partial<PassFacts> = {}) =>
  ({ index, remedies: [], ...facts }) as unknown as PassFacts;
const trial = (afterPass: number, words: string) =>
  ({ afterPass, words, playedAt: '2026-01-09T10:00:00Z', pitchCents: [] }) as unknown as Trial;

const PASSES = [
  pass(0, { takenAt: '2026-01-05T10:00:00Z', overallLengthMm: 70.9, humidityPct: 52, temperatureC: 21 }),
  pass(1, { takenAt: '2026-01-07T10:00:00Z', overallLengthMm: 70.4 }),
  pass(2, { takenAt: '2026-01-10T22:30:00Z', overallLengthMm: 70.4, clipMm: 0.2 }),
];
const AIR = [
  { at: '2026-01-07T20:00:00Z', humidityPct: 48 },
  { at: '2026-01-10T09:00:00Z', humidityPct: 30 },
];
const entries = (passes = PASSES) =>
  airLog({ air: AIR as unknown as Parameters<typeof airLog>[0]['air'], trials: [], passes });

describe('the life of a reed, pass by pass', () => {
  it('takes a clip as it is written, else by the lengths, and counts days from the first pass', () => {
    const life = lifeOf(PASSES, [], []);
    expect(life.map(({ clipMm }) => Math.round(100 * clipMm) / 100)).toEqual([0, 0.5, 0.2]);
    expect(life.map(({ day }) => day)).toEqual([1, 3, 7]);
  });

  it('has the overall length of a pass whose clip alone was typed', () => {
    const life = lifeOf([pass(0, { overallLengthMm: 70.9 }), pass(1, { clipMm: 0.4 }), pass(2)], [], []);
    expect(life.map(({ overallMm }) => overallMm)).toEqual([70.9, 70.5, 70.5]);
    expect(lifeOf([pass(0)], [], [])[0]).not.toHaveProperty('overallMm');
  });

  it('takes the air that was written down within half a day, and none that is older', () => {
    // 10 h after pass 1; 13.5 h before pass 2.
    expect(lifeOf(PASSES, [], entries()).map(({ air }) => air?.air.humidityPct)).toEqual([52, 48, undefined]);
  });

  it('says how long, how often clipped, and from which words to which', () => {
    const trials = [trial(0, 'peeps high C'), trial(1, 'flat'), trial(1, 'wild'), trial(2, 'two octaves')];
    const life = lifeOf(PASSES, trials, []);
    expect(life[1]!.trial!.words).toBe('wild');
    expect(sayLife(life)).toBe(
      'Three passes in seven days and two clips: from “peeps high C” to “two octaves”.',
    );
    expect(sayLife(lifeOf([pass(0)], [trial(0, 'stiff')], []))).toBe('One pass: “stiff”.');
    expect(sayLife(lifeOf([pass(0), pass(1)], [], []))).toBe('Two passes.');
  });
});
