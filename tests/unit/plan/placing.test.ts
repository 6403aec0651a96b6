import { describe, expect, it } from 'vitest';
import type { Pass } from '../../../shared/pass.ts';
import type { Reed } from '../../../shared/reed.ts';
import { benchReed, zonesAt } from '../../../src/answers/fitted-reed.ts';
import { LONG_SCRAPE } from '../../../src/blade/starting-styles.ts';
import { stretched } from '../../../src/blade/zones.ts';
import { mapGrid } from '../../../src/figures/surface-map.ts';
import { compare } from '../../../src/plan/compare.ts';
import { makeTarget, type Followed } from '../../../src/plan/make-target.ts';
import { makePlan } from '../../../src/plan/make-plan.ts';
import { sayPlaced } from '../../../src/plan/say-placed.ts';
import { scenarioReed } from '../../scenario-reed.ts';
import { bump } from '../../study/planned-reed.ts';

const writing = { unit: 'hundredths', decimal: 'point' } as const;
const k117 = scenarioReed('K-117');
const grid = mapGrid(22, 51, 31);

/** Ends of tip, heart and scrape that no style has: a longer tip, a shorter heart. */
const lengths = { tipMm: 5, heartEndMm: 9.5, scrapeEndMm: 21 };
const carried = (fromTipMm: number) => stretched(fromTipMm, LONG_SCRAPE.lengths, lengths);

/** K-117 with its zones stretched, each reading carried along, thicker at some places. */
function stretchedReed(extra: (fromTipMm: number, across: number) => number = () => 0) {
  const [pass] = k117.passes as [Pass];
  const readings = pass.readings.map((reading) => {
    const fromTipMm = carried(reading.fromTipMm);
    return {
      ...reading,
      fromTipMm,
      thicknessMm: reading.thicknessMm! + extra(fromTipMm, reading.across),
    };
  });
  const reed = { ...k117.reed, id: 'stretched', label: 'P-1', lengths } as Reed;
  return {
    benched: benchReed(reed, [{ ...pass, overallLengthMm: pass.overallLengthMm! + 1, readings }]),
    pass: 0,
  };
}

const follow = (placing: Followed['placing']): Followed => ({
  recipe: { from: 'reeds', examples: [{ reedId: k117.reed.id, passIndex: 0 }] },
  placing,
  reeds: [k117],
});

describe('a reed whose tip, heart and scrape end elsewhere', () => {
  const own = stretchedReed();
  const byLengths = compare(own, makeTarget(follow('lengths'), own, grid));
  const fromTip = compare(own, makeTarget(follow('tip'), own, grid));

  it('placed by its zones is the reed that it was stretched from', () => {
    // Smoothing knows millimetres, not zones: stretched readings give a surface that strays a little between them.
    for (const { difference } of byLengths.zones) expect(Math.abs(difference.valueMm)).toBeLessThan(0.003);
    for (const { own: mine, other } of byLengths.crossings)
      if (mine && other) expect(Math.abs(mine.valueMm - other.valueMm)).toBeLessThan(0.1);
    expect(byLengths.crossings.filter(({ own: mine, other }) => mine && other).length).toBeGreaterThan(1);
    const told = Object.values(byLengths.excess).flatMap(({ sure }) => [...sure]);
    expect(told.filter((yes) => yes === 1).length / told.length).toBeLessThan(0.05);
  });

  it('placed from the tip differs where its zones lie elsewhere', () => {
    const blend = fromTip.zones.find(({ name }) => name === 'blend')!;
    expect(Math.abs(blend.difference.valueMm)).toBeGreaterThan(0.01);
    expect(fromTip.distance!.rmsMm).toBeGreaterThan(3 * byLengths.distance!.rmsMm);
  });

  it('has its zones where its own lengths put them', () => {
    const tipEnd = zonesAt(own.benched, 0).find(({ name }) => name === 'tip')!;
    const template = LONG_SCRAPE.zones.find(({ name }) => name === 'tip')!;
    expect(tipEnd.outlines[0]!.map(([y]) => y)).toEqual(
      template.outlines[0]!.map(({ fromTipMm }) => carried(fromTipMm)),
    );
  });
});

it('recovers what is planted on a stretched reed, at its own place, and plans there', () => {
  const hill = [carried(13), 0, 2, 0.35, 0.05];
  const own = stretchedReed((y, u) => bump(y, u, hill));
  const { excess, plan } = makePlan(own, makeTarget(follow('lengths'), own, grid));
  const errors = Object.values(excess).flatMap(({ valuesMm, sure, ysMm, us }) =>
    [...valuesMm.keys()].flatMap((i) =>
      sure[i] === 1 ? [valuesMm[i]! - bump(ysMm[Math.floor(i / us.length)]!, us[i % us.length]!, hill)] : [],
    ),
  );
  expect(errors.length).toBeGreaterThan(40);
  expect(Math.abs(errors.reduce((sum, error) => sum + error, 0) / errors.length)).toBeLessThan(0.003);
  expect(plan.steps.map(({ zone }) => zone)).toContain('spine');
});

describe('the statement', () => {
  const own = stretchedReed();
  const same = { benched: k117, pass: 0 };

  it('names the ends that lie on each other', () => {
    expect(sayPlaced(own, follow('lengths'), writing)).toBe(
      'Placed by the ends of tip, heart and scrape: 5\u00a0mm, 9.5\u00a0mm and 21\u00a0mm here lie on 4\u00a0mm, 9\u00a0mm and 20\u00a0mm of K-117.',
    );
  });

  it('says what is left aside from the tip', () => {
    expect(sayPlaced(own, follow('tip'), writing)).toMatch(
      /^Placed from the tip: equal distances lie on each other, though tip, heart and scrape end at 5\smm/,
    );
    expect(sayPlaced(same, follow('tip'), writing)).toBe(
      'Placed from the tip: equal distances lie on each other.',
    );
  });

  it('says where nothing moves, and where there is no example', () => {
    expect(sayPlaced(same, follow('lengths'), writing)).toMatch(/which are the same on all of them: 4\smm/);
    const usual: Followed = { recipe: { from: 'style' }, placing: 'tip', reeds: [] };
    expect(sayPlaced(own, usual, writing)).toMatch(/^Laid out for this reed, whose .* end at 5\smm/);
  });
});
