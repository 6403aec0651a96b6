import { describe, expect, it } from 'vitest';
import { dayNumber } from '../../../shared/moment.ts';
import { survivalCurve, survivingAt } from '../../../src/learning/survival.ts';
import { inRotation } from '../../../src/rotation/in-rotation.ts';
import { lasting } from '../../../src/rotation/lifetimes.ts';
import { livesOf } from '../../../src/rotation/lives.ts';
import { proposals } from '../../../src/rotation/proposals.ts';
import { adviceFor } from '../../../src/rotation/suggest.ts';
import { engagement, reed, trial, use } from './playing.ts';

const NOW = '2026-03-10T10:00:00.000+01:00';
const POINT = { decimal: 'point' as const };
const at = (day: string) => `2026-03-${day}T19:00:00.000+01:00`;

describe('lives by day', () => {
  const concert = reed({ label: 'L-2', tiedOn: '2026-02-01' });
  const bench = reed({ label: 'L-3', state: 'scraping' });
  const blank = reed({ label: 'L-10', state: 'blank', tiedOn: '2026-03-02' });
  const gone = reed({ label: 'L-1', state: 'retired' });
  const kept = {
    reeds: [blank, bench, gone, concert],
    passes: [],
    trials: [trial(concert.id, at('01'), { minutes: 30, verdict: 'rehearsal' })],
    uses: [use(concert.id, 2.5, at('04'), { service: 'concert', felt: 4 }), use(gone.id, 9, at('01'))],
  };
  const lives = livesOf(kept, inRotation(kept, NOW), POINT);

  it('stand played reeds first, then those on the bench, then blanks; none that is retired', () => {
    expect(lives.map((life) => life.reed.label)).toEqual(['L-2', 'L-3', 'L-10']);
  });

  it('have every playing with its hours, and begin with the first thing that was done', () => {
    const [own] = lives;
    expect(own!.plays.map(({ hours, isConcert, words }) => [hours, isConcert, words])).toEqual([
      [0.5, false, 'trial, 30\u00a0min'],
      [2.5, true, 'concert, 2.5\u00a0h, felt 4 of 5'],
    ]);
    // The bars of a reed add up to its hours.
    expect(own!.plays.reduce((sum, { hours }) => sum + hours, 0)).toBe(own!.row!.hours);
    expect(own).toMatchObject({ tied: dayNumber('2026-02-01'), begun: dayNumber('2026-03-01') });
    expect(lives[2]).not.toHaveProperty('begun');
  });
});

describe('a reed for each engagement', () => {
  const good = reed({ label: 'P-1' });
  const worn = reed({ label: 'P-2' });
  const ends = [4, 6, 8, 9, 12].map((hours, k) => ({
    reed: reed({ label: `E-${k}`, state: 'retired', retirement: { on: '2026-02-01', cause: 'worn out' } }),
    hours,
  }));
  const reeds = [good, worn, ...ends.map((one) => one.reed)];
  const uses = [
    use(good.id, 4, at('06')),
    use(worn.id, 11, at('08')),
    ...ends.map((one) => use(one.reed.id, one.hours, '2026-01-10T10:00:00.000+01:00')),
  ];
  const trials = [
    trial(good.id, at('01'), { verdict: 'concert', afterPass: 1 }),
    trial(worn.id, at('01'), { verdict: 'concert', afterPass: 1 }),
  ];
  const rotation = inRotation({ reeds, uses, trials }, NOW);
  const lived = lasting(reeds, uses);
  const propose = (...engagements: ReturnType<typeof engagement>[]) =>
    proposals(
      engagements.map((one) => ({
        engagement: one,
        advice: adviceFor(one, { rotation, reeds, lasting: lived, now: NOW, writing: POINT }),
      })),
      lived,
      POINT,
    );

  it('comes in the order of the days, and counts what the days before add', () => {
    const [first, second] = propose(engagement(at('24'), {}), engagement(at('14'), {}));
    expect([first!.first?.row.reed.label, second!.first?.row.reed.label]).toEqual(['P-1', 'P-1']);
    expect([first!.hoursAfter, second!.hoursAfter]).toEqual([7, 10]);
    // From the 6th to the 10th four whole days are full only at 19:00: three, and four more to the 14th.
    expect(first!.words).toContain('rested 7\u00a0days; about 7\u00a0h after it');
    expect(second!.words).toContain('rested 10\u00a0days; about 10\u00a0h after it');
  });

  it('says it where a reed would go beyond every one that ended', () => {
    const [taken] = propose(engagement(at('14'), { reedId: worn.id }));
    expect(taken).toMatchObject({ isSure: true, hoursAfter: 14 });
    expect(taken!.words).toContain('none of yours that ended went further than 12\u00a0h');
  });

  it('has no reed where none can be played', () => {
    const advice = adviceFor(engagement(at('14'), {}), {
      rotation: [],
      reeds: [],
      lasting: lasting([], []),
      now: NOW,
      writing: POINT,
    });
    expect(
      proposals([{ engagement: engagement(at('14'), {}), advice }], lasting([], []), POINT)[0],
    ).toMatchObject({
      isSure: false,
      words: 'No reed can be played yet.',
    });
  });
});

it('the share that lasts longer is read off the curve at any hour', () => {
  // By hand: of four, one ends at 2 h and one at 5 h; one is alive at 3 h. 3/4, then 3/4 times 1/2.
  const curve = survivalCurve([
    { duration: 2, cause: 'worn out' },
    { duration: 3 },
    { duration: 5, cause: 'chipped' },
    { duration: 6 },
  ]);
  expect([0, 1.9, 2, 4, 5, 99].map((hours) => survivingAt(curve, hours))).toEqual([
    1, 1, 0.75, 0.75, 0.375, 0.375,
  ]);
});
