import { describe, expect, it } from 'vitest';
import type { Blade } from '../../shared/blade.ts';
import { LONG_SCRAPE } from '../../src/blade/starting-styles.ts';
import { closestVersion, versionAt } from '../../src/plan/closest-version.ts';
import { knifeYield, strokesFor } from '../../src/plan/knife-yield.ts';
import { makePlan } from '../../src/plan/make-plan.ts';
import type { Plan } from '../../src/plan/next-strokes.ts';
import { hybridTarget, offsetTarget, targetFromReed, targetFromSeveral } from '../../src/plan/target.ts';
import { seededRandom } from '../seeded-random.ts';
import { scenarioReed } from '../scenario-reed.ts';
import { FAMILIES, floorsAfterPlans } from '../study/floors-after-plans.ts';
import {
  bump,
  favourite as k117,
  favouriteTarget,
  grid,
  planFor,
  readReed,
  truthAt,
  zones,
} from '../study/planned-reed.ts';

const m142 = { benched: scenarioReed('M-142'), pass: 3 };
const target = favouriteTarget;

/** Corners of all that a plan outlines on a blade. */
const strokesOn = ({ steps }: Plan, blade: Blade) =>
  steps.flatMap(({ parts }) =>
    parts.filter((part) => part.blade === blade).flatMap(({ outlines }) => outlines.flat()),
  );

describe('excess over a known target', () => {
  const planted = [12, 0, 3, 0.5, 0.05];
  const { excess, plan } = planFor(readReed((blade, y, u) => truthAt(blade, y, u) + bump(y, u, planted), 3));

  it('is recovered where it is sure', () => {
    const errors = (['A', 'B'] as const).flatMap((blade) =>
      grid.ysMm.flatMap((y, i) =>
        grid.us.flatMap((u, j) => {
          const at = i * grid.us.length + j;
          return excess[blade]!.sure[at] === 1 ? [excess[blade]!.valuesMm[at]! - bump(y, u, planted)] : [];
        }),
      ),
    );
    expect(errors.length).toBeGreaterThan(60);
    expect(Math.abs(errors.reduce((sum, e) => sum + e, 0) / errors.length)).toBeLessThan(0.003);
  });

  it('leads to a step there, for at most half of it', () => {
    // What is too much there reaches from the spine into the windows beside it.
    const [first] = plan.steps;
    expect(['spine', 'windows']).toContain(first!.zone);
    const spine = plan.steps.find(({ zone }) => zone === 'spine');
    expect(spine).toMatchObject({ blades: ['A', 'B'] });
    for (const { takeMm, excess: over, parts } of plan.steps)
      for (const one of [over, ...parts.map((part) => part.excess)])
        expect(takeMm).toBeLessThanOrEqual(one.valueMm / 2);
  });
});

it('proposes nothing where there is no excess', () => {
  let [sure, all] = [0, 0];
  for (let seed = 1; seed <= 6; seed++) {
    const { excess, plan } = planFor(readReed(truthAt, seed));
    expect(plan.steps).toEqual([]);
    for (const map of Object.values(excess)) {
      sure += map.sure.reduce((sum, yes) => sum + yes, 0);
      all += map.sure.length;
    }
  }
  expect(sure / all).toBeLessThan(0.05);
});

it('finds a planted clip and offset', () => {
  // The target is this reed as it would be after a clip of 0.3, 0.012 thicker, but for one thick place left to scrape.
  const model = k117.benched.model!;
  const shifted = { ysMm: grid.ysMm.map((y) => y + 0.3), us: grid.us };
  const planted = targetFromReed(k117, shifted);
  const blades = Object.fromEntries(
    (['A', 'B'] as const).map((blade) => {
      const own = planted.blades[blade]!;
      const meanMm = own.meanMm.map((value, i) => {
        const [y, u] = [grid.ysMm[Math.floor(i / grid.us.length)]!, grid.us[i % grid.us.length]!];
        return value + 0.012 - bump(y, u, [11, 0, 2, 0.4, 0.06]);
      });
      return [blade, { ...own, meanMm }];
    }),
  );
  const version = closestVersion(model, 0, { ...planted, grid, blades }, 0.6);
  expect(Math.abs(version.clipMm - 0.3)).toBeLessThanOrEqual(0.05);
  expect(Math.abs(version.offsetMm + 0.012)).toBeLessThan(0.003);
  expect(versionAt(model, 0, { ...planted, grid, blades }, 0.3).lackMm).toBeGreaterThan(version.lackMm);
});

describe('M-142 beside K-117', () => {
  const { plan } = makePlan(m142, target);

  it('advises the blend first, at most half of it', () => {
    expect(plan.steps[0]).toMatchObject({ zone: 'blend' });
    const { takeMm, excess } = plan.steps[0]!;
    expect(takeMm).toBeLessThanOrEqual(Math.min(0.03, excess.valueMm / 2));
  });

  it('puts no stroke into the right window of B, and names its lack', () => {
    const halfWidthMm = 3;
    for (const [y, u] of strokesOn(plan, 'B'))
      expect(Math.hypot(y - 10, (u - 0.4) * halfWidthMm)).toBeGreaterThan(2);
    expect(plan.lacks.B!.fromTipMm).toBeCloseTo(10, 0);
    expect(plan.lacks.B!.across).toBeGreaterThan(0.2);
  });
});

it('keeps the margin that the maker chose from a reading at its floor', () => {
  const pass = readReed((blade, y, u) => truthAt(blade, y, u) + 0.04, 5);
  const closed = [{ blade: 'B' as const, fromTipMm: 12, across: 0.4 }];
  const nearest = (marginMm: number) => {
    const { plan } = planFor(pass, target, { zones, floors: LONG_SCRAPE.floors, closed }, { marginMm });
    const away = ([y, u]: readonly [number, number]) => Math.hypot(y - 12, (u - 0.4) * pass.halfWidthMm(y));
    return Math.min(...strokesOn(plan, 'B').map(away));
  };
  // The grid's places are 0.5 mm apart.
  for (const marginMm of [1, 2, 4]) {
    expect(nearest(marginMm)).toBeGreaterThan(marginMm);
    expect(nearest(marginMm)).toBeLessThan(marginMm + 0.8);
  }
});

it('leaves the true thickness above the floor at 19 places in 20', () => {
  // One reed of each family: both styles, three levels of floors, whole, ragged and partial passes.
  const { places, under, near, reedsWithSteps } = floorsAfterPlans(FAMILIES.length, 1);
  expect(FAMILIES).toHaveLength(18);
  // Where a maker asks a tenth more than the usual floors of a pass read in part, nothing may be left to scrape.
  expect(reedsWithSteps).toBeGreaterThanOrEqual(FAMILIES.length - 1);
  expect(places).toBeGreaterThan(3000);
  expect(near / places).toBeGreaterThan(0.1);
  expect(under / places).toBeLessThanOrEqual(0.05);
});

describe('targets', () => {
  it('of several reeds lie between them, with a spread that few reeds do not make small', () => {
    const several = targetFromSeveral('two', [target, offsetTarget(target, 0.02)]);
    expect(several.blades.A!.meanMm[100]).toBeCloseTo(target.blades.A!.meanMm[100]! + 0.01, 9);
    expect(several.blades.A!.spreadMm[100]).toBeGreaterThan(0.01);
    expect(() => targetFromSeveral('one', [target])).toThrow('must be at least 2');
  });

  it('can take the tip of one reed and the back of another', () => {
    const mixed = hybridTarget(target, offsetTarget(target, 0.05), 8, 2);
    const [first, last] = [0, mixed.blades.A!.meanMm.length - 1];
    expect(mixed.blades.A!.meanMm[first]).toBeCloseTo(target.blades.A!.meanMm[first]!, 12);
    expect(mixed.blades.A!.meanMm[last]).toBeCloseTo(target.blades.A!.meanMm[last]! + 0.05, 12);
  });
});

describe('yield of a knife', () => {
  it('says that two passes are not enough', () => {
    const entry = { region: 'blend', strokes: 8, removed: { valueMm: 0.024, uMm: 0.004 } };
    expect(knifeYield([entry, entry])).toMatchObject({ known: false });
    expect(() => knifeYield([{ ...entry, strokes: 0 }])).toThrow('entries[0].strokes');
  });

  it('covers the true yield with its 90 % interval in 85 to 95 of 100 simulated logs', () => {
    const random = seededRandom(7);
    const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    let covered = 0;
    const logs = 400;
    for (let log = 0; log < logs; log++) {
      const truth = new Map(
        ['blend', 'windows', 'rails'].map((region) => [region, 0.003 * (1 + 0.25 * normal())]),
      );
      const entries = [...truth].flatMap(([region, rate]) =>
        Array.from({ length: 3 }, () => {
          const strokes = 4 + Math.floor(8 * random());
          const removed = strokes * rate * (1 + 0.2 * normal()) + 0.004 * normal();
          return { region, strokes, removed: { valueMm: removed, uMm: 0.004 } };
        }),
      );
      const result = knifeYield(entries);
      if (!result.known) throw new Error('must be known');
      for (const [region, rate] of truth) {
        const { perStrokeMm, uMm } = result.regions.get(region)!;
        if (Math.abs(perStrokeMm - rate) < 1.645 * uMm) covered += 1;
      }
    }
    expect(covered / (3 * logs)).toBeGreaterThan(0.85);
    expect(covered / (3 * logs)).toBeLessThan(0.95);
  });

  it('turns an amount into few strokes rather than many', () => {
    expect(strokesFor(0.02, { perStrokeMm: 0.003, uMm: 0.0003, entries: 5 })).toBe(5);
    expect(strokesFor(0.001, { perStrokeMm: 0.003, uMm: 0.0003, entries: 5 })).toBe(1);
  });
});
