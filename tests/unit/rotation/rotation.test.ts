import { describe, expect, it } from 'vitest';
import type { Reed } from '../../../shared/reed.ts';
import { historyOf, onOnePage, strokesWords } from '../../../src/rotation/history.ts';
import { responseOf } from '../../../src/reed/response-of.ts';
import type { Trial } from '../../../shared/trial.ts';
import { inRotation, lastHeard } from '../../../src/rotation/in-rotation.ts';
import { lasting, lifetimesOf } from '../../../src/rotation/lifetimes.ts';
import { adviceFor } from '../../../src/rotation/suggest.ts';
import { dayWords } from '../../../src/words/day-words.ts';
import { engagement, reed, trial, use } from './playing.ts';

const NOW = '2026-03-10T12:00:00.000+01:00';
const retired = (label: string, cause: NonNullable<Reed['retirement']>['cause']) =>
  reed({ label, state: 'retired', retirement: { on: '2026-03-01', cause } });

describe('what is in rotation', () => {
  const [rested, fresh, blank] = [
    reed({ label: 'T-1' }),
    reed({ label: 'T-2', purpose: 'small halls' }),
    reed({ label: 'T-3', state: 'blank' }),
  ];
  const uses = [
    use(rested.id, 2, '2026-03-01T12:00:00.000+01:00', { felt: 5, service: 'concert' }),
    use(rested.id, 1.5, '2026-02-20T12:00:00.000+01:00'),
    use(fresh.id, 1, '2026-03-10T09:00:00.000+01:00'),
  ];
  const rows = inRotation({ reeds: [fresh, blank, rested, retired('T-4', 'lost')], uses, trials: [] }, NOW);

  it('holds reeds that are alive and past the blank, the longest rested first', () => {
    expect(rows.map(({ reed: { label } }) => label)).toEqual(['T-1', 'T-2']);
  });

  it('adds the hours, whatever the order they were written in, and counts whole days', () => {
    expect(rows[0]).toMatchObject({ hours: 3.5, daysSince: 9, lastPlayed: '2026-03-01T12:00:00.000+01:00' });
    expect(rows[1]!.daysSince).toBe(0);
  });

  it('takes the maker’s own word for what a reed is best for, then what felt best', () => {
    expect(rows[1]!.bestFor).toEqual({ words: 'small halls', by: 'maker' });
    expect(rows[0]!.bestFor).toEqual({ words: 'concert', by: 'feel' });
  });

  it('lets a later trial stand over an earlier one, and leaves what it does not say', () => {
    const trials = [
      trial(rested.id, '2026-03-02T10:00:00.000+01:00', { verdict: 'concert', response: 5 }),
      trial(rested.id, '2026-03-01T10:00:00.000+01:00', { verdict: 'not yet', stability: 2 }),
    ];
    expect(lastHeard(trials)).toMatchObject({ verdict: 'concert', response: 5, stability: 2 });
  });

  it('says that a reed speaks as late as the latest note that was tried, over what was said of it before', () => {
    const tried = (playedAt: string, said: Partial<Trial>) =>
      ({ reedId: 'a', playedAt, pitchCents: [], ...said }) as unknown as Trial;
    const whole = tried('2026-01-01T10:00:00+01:00', { response: 5 });
    const notes = tried('2026-01-02T10:00:00+01:00', { lowD: 4, lowBFlat: 2 });
    expect(lastHeard([whole, notes]).response).toBe(2);
    expect(lastHeard([notes, whole]).response).toBe(2);
    expect(lastHeard([notes, { ...whole, playedAt: '2026-01-03T10:00:00+01:00' }]).response).toBe(5);
    expect(responseOf({})).toBe(undefined);
  });
});

describe('how long reeds last', () => {
  const reeds = [
    retired('T-1', 'worn out'),
    retired('T-2', 'chipped'),
    retired('T-3', 'given away'),
    retired('T-4', 'never good'),
    reed({ label: 'T-5' }),
  ];
  const uses = reeds
    .filter(({ label }) => label !== 'T-4')
    .map(({ id }, i) => use(id, 10 + i, '2026-02-01T10:00:00.000+01:00'));

  it('counts only endings that playing brings; alive, given away and lost are censored', () => {
    expect(lifetimesOf(reeds, uses)).toMatchObject([
      { duration: 10, cause: 'worn out' },
      { duration: 11, cause: 'chipped' },
      { duration: 12 },
      { duration: 13 },
    ]);
  });

  it('leaves a reed that was never played out, and says so', () => {
    const lived = lasting(reeds, uses);
    expect(lived).toMatchObject({ ended: 2, censored: 2, neverPlayed: 1, medianHours: 11 });
    // By hand: 4 at risk, then 3.
    expect(lived.curve.map(({ surviving }) => surviving)).toEqual([0.75, 0.5]);
    expect([...lived.byCause.keys()]).toEqual(['worn out', 'chipped']);
  });
});

describe('what to play', () => {
  const steady = reed({ label: 'T-1' });
  const quick = reed({ label: 'T-2' });
  const old = reed({ label: 'T-3' });
  const bad = reed({ label: 'T-4' });
  const reeds = [steady, quick, old, bad];
  const on = '2026-03-01T10:00:00.000+01:00';
  const trials = [
    trial(steady.id, on, { stability: 5, resistance: 3, response: 3, verdict: 'concert' }),
    trial(quick.id, on, { stability: 2, resistance: 2, response: 5, verdict: 'rehearsal' }),
    trial(old.id, on, { stability: 5, resistance: 3, verdict: 'concert' }),
    trial(bad.id, on, { verdict: 'no' }),
  ];
  const uses = [use(steady.id, 6, on), use(quick.id, 6, on), use(old.id, 40, on), use(bad.id, 6, on)];
  const rotation = inRotation({ reeds, uses, trials }, NOW);
  const lived = lasting(reeds, uses);
  const advise = (own: Parameters<typeof engagement>[1]) =>
    adviceFor(engagement('2026-03-15T19:00:00.000+01:00', own), {
      rotation,
      reeds,
      lasting: lived,
      now: NOW,
      writing: { decimal: 'point' },
    });
  const first = (own: Parameters<typeof engagement>[1]) => advise(own).play[0]!.row.reed.label;

  it('answers a loud and long evening with the steady reed, an intimate one with the quick', () => {
    expect(first({ wants: ['loud and long'] })).toBe('T-1');
    expect(first({ wants: ['intimate', 'high town'] })).toBe('T-2');
  });

  it('gives its reasons, for and against, and no score', () => {
    const { play, days } = advise({ wants: ['loud and long'] });
    expect(days).toBe(5);
    expect(play[0]!.speaksFor).toContain('holds its notes');
    const worn = play.find(({ row }) => row.reed.label === 'T-3')!;
    expect(worn.speaksAgainst.join()).toMatch(/40\u00a0h played; reeds often last 15\u00a0h/);
  });

  it('never offers a reed that was last called no', () => {
    expect(advise({}).play.map(({ row }) => row.reed.label)).not.toContain('T-4');
  });

  it('says what to make ready only when nothing is free of doubt', () => {
    expect(advise({}).makeReady).toBeUndefined();
    const nothing = adviceFor(engagement('2026-04-15T19:00:00.000+01:00', {}), {
      rotation: [],
      reeds: [reed({ label: 'T-9', state: 'blank' })],
      lasting: lasting([], []),
      now: NOW,
      writing: { decimal: 'point' },
    });
    expect(nothing.makeReady).toMatch(/36 days: go on with T-9/);
  });

  it('tells what a journey to a high and dry town does to reeds, from the air at home', () => {
    const {
      title: _title,
      wants: _wants,
      ...stamped
    } = engagement(NOW, { temperatureC: 21, humidityPct: 60 });
    const here = { ...stamped, kind: 'air' as const };
    const advice = adviceFor(
      engagement('2026-03-15T19:00:00.000+01:00', { humidityPct: 25, elevationM: 1900 }),
      { rotation, reeds, lasting: lived, here, now: NOW, writing: { decimal: 'point' } },
    );
    expect(advice.journey.join(' ')).toMatch(/close and to leak.*stiff and slow.*leave the knife/);
  });
});

describe('the history of a reed', () => {
  it('runs in the order of the days and ends with its end', () => {
    const one = reed({
      label: 'T-1',
      tiedOn: '2026-01-02',
      state: 'retired',
      retirement: { on: '2026-02-01', cause: 'chipped', lesson: 'clip later' },
    });
    const happenings = historyOf(one, {
      passes: [],
      trials: [trial(one.id, '2026-01-20T10:00:00.000+01:00', { verdict: 'concert', response: 5 })],
      uses: [
        use(one.id, 2, '2026-02-01T20:00:00.000+01:00'),
        use(one.id, 1, '2026-01-10T20:00:00.000+01:00'),
      ],
    });
    expect(happenings.map(({ what }) => what)).toEqual([
      'on its staple',
      'rehearsal, 1\u00a0h',
      'concert, response 5',
      'rehearsal, 2\u00a0h',
      'chipped',
    ]);
    expect(happenings.at(-1)!.words).toBe('clip later');
  });

  it('fits on one page: a long one tells playings that follow each other together', () => {
    const one = reed({ label: 'T-1', tiedOn: '2026-01-02' });
    const uses = Array.from({ length: 40 }, (_, i) =>
      use(one.id, 1.5, `2026-02-${String(1 + (i % 28)).padStart(2, '0')}T20:00:00Z`),
    );
    const long = historyOf(one, { passes: [], trials: [], uses });
    const sheet = onOnePage(long);
    expect(sheet.map(({ what }) => what)).toEqual([
      'on its staple',
      `40 times, 60\u00a0h in all, until ${dayWords('2026-02-28')}`,
    ]);
    expect(onOnePage(long.slice(0, 10))).toEqual(long.slice(0, 10));
  });
});

it('says where the knife went in the trade’s words, and in the maker’s own where they are no zone', () => {
  expect(strokesWords({ zone: 'heart-sides', strokes: 8 })).toBe('heart sides 8');
  expect(strokesWords({ zone: 'slope-upper' })).toBe('upper slope');
  expect(strokesWords({ zone: 'left of the dig', strokes: 2 })).toBe('left of the dig 2');
});
