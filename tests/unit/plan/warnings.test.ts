import { describe, expect, it } from 'vitest';
import { LONG_SCRAPE } from '../../../src/blade/starting-styles.ts';
import { benchReed } from '../../../src/answers/fitted-reed.ts';
import { figuresOf } from '../../../src/answers/record/reed-figures.ts';
import type { OriginalCane } from '../../../src/cane/original-cane.ts';
import { estimate, pointFunctional, sumOfPlaces } from '../../../src/figures/functional.ts';
import type { Done } from '../../../src/plan/meant-and-done.ts';
import { warningsOn, type WarningInput } from '../../../src/plan/warnings.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const writing = { unit: 'hundredths', decimal: 'point' } as const;
const k117 = scenarioReed('K-117');
type Read = (typeof k117.passes)[number]['readings'][number];
/** K-117 with some readings thicker, or thinner, by so much. */
const altered = (byMm: (at: Read) => number) =>
  benchReed(
    k117.reed,
    k117.passes.map((pass) => ({
      ...pass,
      readings: pass.readings.map((at) => ({ ...at, thicknessMm: at.thicknessMm! + byMm(at) })),
    })),
  );
const wordsOn = (benched: typeof k117, about: string, more: Partial<WarningInput> = {}) =>
  warningsOn({ own: { benched, pass: 0 }, writing, ...more })
    .filter((one) => one.about === about)
    .map(({ words }) => words.replaceAll('\u00a0', ' '));
/** Side 1 is the left of A and the right of B. */
const sideOf = ({ blade, across }: Read) => (across === 0 ? 0 : across < 0 === (blade === 'A') ? 1 : 2);

describe('cane of which one side is thicker', () => {
  it.each([
    [1, 2],
    [2, 1],
  ])('is told where two zones show it: side %d', (thick, thin) => {
    const [words, ...more] = wordsOn(
      altered((at) => (sideOf(at) === thick ? 0.04 : 0)),
      'cane',
    );
    expect(more).toEqual([]);
    expect(words).toMatch(
      new RegExp(
        `^Side ${thick} is thicker than side ${thin} on both blades, by [3-5](\\.5)? hundredths at the `,
      ),
    );
  });

  it('is not told of K-117, nor of one zone', () => {
    expect(wordsOn(k117, 'cane')).toEqual([]);
    const corner = ({ fromTipMm, ...at }: Read) =>
      fromTipMm < 1.5 && sideOf({ fromTipMm, ...at }) === 1 ? 0.06 : 0;
    expect(wordsOn(altered(corner), 'cane')).toEqual([]);
  });
});

describe('readings and their floors', () => {
  // A long scrape's floor along the spine, from 9.4 to 20 mm, by its table.
  const FLOOR_MM = LONG_SCRAPE.floors.floorMm[LONG_SCRAPE.floors.fromTipMm.indexOf(9.4)]![0]!;
  const at = (aboveMm: number) => (one: Read) =>
    one.blade === 'A' && one.fromTipMm === 12 && one.across === 0 ? FLOOR_MM + aboveMm - one.thicknessMm! : 0;

  it('are under by more than half a step of a usual dial, which cannot be put back', () => {
    expect(wordsOn(altered(at(-0.0024)), 'under floor')).toEqual([]);
    expect(wordsOn(altered(at(-0.02)), 'under floor')).toEqual([
      'Spine: one reading is under the floor, by 2 hundredths at most. That cannot be put back.',
    ]);
  });

  it('are at it, or near it', () => {
    expect(wordsOn(altered(at(-0.0024)), 'near floor')[0]).toMatch(/^A’s spine is at its floor at 12 mm/);
    expect(wordsOn(altered(at(0.0024)), 'near floor')[0]).toMatch(/^A’s spine is at its floor at 12 mm/);
    expect(wordsOn(altered(at(0.01)), 'near floor')[0]).toMatch(
      /^A’s spine is 1 hundredth above its floor at 12 mm/,
    );
    expect(wordsOn(altered(at(-0.02)), 'near floor').join()).not.toMatch(/spine/);
  });
});

it('what went beyond what was meant is said, blade by blade', () => {
  const row = (verdict: Done['verdict'], title: string, valueMm: number) =>
    ({ blade: 'B', title, verdict, meantMm: 0.01, done: { valueMm, uMm: 0.002 } }) as Done;
  const done = [row('more', 'Tip', 0.03), row('as meant', 'Heart', 0.01), row('more', 'Rails', 0.02)];
  expect(wordsOn(k117, 'more than meant', { done })).toEqual([
    'More went than was meant: B’s tip lost 3 where 1 hundredth was meant and B’s rails lost 2 where 1 hundredth was meant.',
  ]);
  expect(wordsOn(k117, 'more than meant', { done: [row('less', 'Tip', 0.001)] })).toEqual([]);
  expect(wordsOn(k117, 'more than meant')).toEqual([]);
});

describe('a heart that is thin for its gouge', () => {
  const { model, assembled } = k117;
  const { tipMm, heartEndMm } = assembled.frame.lengths;
  // Half a millimetre below the middle between the end of the tip and that of the heart, the mean of both blades.
  const place = { pass: 0, fromTipMm: (tipMm + heartEndMm) / 2 + 0.5, across: 0 };
  const { valueMm, uMm } = estimate(
    model!,
    sumOfPlaces(model!, [
      { ...place, blade: 'A', factor: 0.5 },
      { ...place, blade: 'B', factor: 0.5 },
    ]),
  );
  const alone = (['A', 'B'] as const).map((blade) =>
    estimate(model!, pointFunctional(model!, { ...place, blade })),
  );
  const cane = (thicknessMm: number, from: OriginalCane['from']) =>
    ({ from, thicknessAt: () => ({ valueMm: thicknessMm, uMm: 0 }) }) as unknown as OriginalCane;
  const said = (share: number, from: OriginalCane['from'] = 'readings') =>
    wordsOn(k117, 'heart', { cane: cane((valueMm + 1.96 * uMm) / share, from) });

  it('is one under three quarters of it, by more than its doubt', () => {
    expect(valueMm).toBeCloseTo((alone[0]!.valueMm + alone[1]!.valueMm) / 2, 9);
    expect(said(0.751)).toEqual([]);
    const percent = Math.round((74.9 * valueMm) / (valueMm + 1.96 * uMm));
    expect(said(0.749)).toEqual([
      `The heart is ${percent} % of its gouge; less than 75 % is thin for it (common practice, no source).`,
    ]);
    expect(said(0.749, 'common practice')[0]).toMatch(/% of a usual gouge;/);
  });
});

describe('corners of a tip', () => {
  const corner = (byMm: number) =>
    altered(({ fromTipMm, across }) => (fromTipMm <= 2 && across > 0.3 ? byMm : 0));

  it('are uneven from a hundredth on, by the largest contrast', () => {
    expect(wordsOn(k117, 'tip')).toEqual([]);
    expect(wordsOn(corner(0.004), 'tip')).toEqual([]);
    const benched = corner(0.06);
    const { balance } = figuresOf({ benched, pass: 0 }).zones.find(({ name }) => name === 'corners')!;
    const most = Math.max(...Object.values(balance!).map((one) => Math.abs(one.valueMm)));
    expect(most).toBeGreaterThan(0.02);
    const [words] = wordsOn(benched, 'tip');
    const by = Number(/they differ by ([\d.]+) hundredths\.$/.exec(words!)![1]) / 100;
    expect(Math.abs(by - most)).toBeLessThanOrEqual(0.0051);
  });
});
