import { describe, expect, it } from 'vitest';
import type { Blade } from '../../shared/blade.ts';
import { LONG_SCRAPE } from '../../src/blade/starting-styles.ts';
import { floorAt } from '../../src/blade/floors.ts';
import { placeZones } from '../../src/blade/zones.ts';
import { mapGrid } from '../../src/figures/surface-map.ts';
import { closestVersion, versionAt } from '../../src/plan/closest-version.ts';
import { excessOver } from '../../src/plan/excess.ts';
import { knifeYield, strokesFor } from '../../src/plan/knife-yield.ts';
import { nextStrokes } from '../../src/plan/next-strokes.ts';
import { hybridTarget, offsetTarget, targetFromReed, targetFromSeveral } from '../../src/plan/target.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import type { FitPass } from '../../src/surface/reed-model.ts';
import { seededRandom } from '../seeded-random.ts';
import { scenarioReed } from '../scenario-reed.ts';

const grid = mapGrid(20, 41, 21);
const k117 = { benched: scenarioReed('K-117'), pass: 0 };
const m142 = { benched: scenarioReed('M-142'), pass: 3 };
const target = targetFromReed(k117, grid);
const US = [-0.8, -0.4, 0, 0.4, 0.8];
const YS = [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20];

/** Value of the target at any place, straight between the places of its grid. */
function truthAt(blade: Blade, y: number, u: number): number {
  const { ysMm, us } = grid;
  const [i, j] = [
    Math.min(39, Math.max(0, Math.floor(y / 0.5))),
    Math.min(19, Math.max(0, Math.floor((u + 1) / 0.1))),
  ];
  const [s, t] = [(y - ysMm[i]!) / 0.5, (u - us[j]!) / 0.1];
  const at = (row: number, column: number) => target.blades[blade]!.meanMm[row * us.length + column]!;
  return (
    (1 - s) * ((1 - t) * at(i, j) + t * at(i, j + 1)) + s * ((1 - t) * at(i + 1, j) + t * at(i + 1, j + 1))
  );
}

const bump = (y: number, u: number, [cy, cu, ly, lu, deep]: readonly number[]) =>
  deep! * Math.exp(-0.5 * (((y - cy!) / ly!) ** 2 + ((u - cu!) / lu!) ** 2));

/** A reed read once, true to a thickness by place, with the noise of a careful maker. */
function readReed(
  thickness: (blade: Blade, y: number, u: number) => number,
  seed: number,
  noiseMm = 0.004,
): FitPass {
  const random = seededRandom(seed);
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const readings = (['A', 'B'] as const).flatMap((blade) =>
    YS.flatMap((y) =>
      US.map((u) => ({
        blade,
        fromTipMm: y,
        across: u,
        thicknessMm: Math.max(0.02, Math.round((thickness(blade, y, u) + noiseMm * normal()) * 100) / 100),
        repeats: 1,
        noiseFactor: 1,
      })),
    ),
  );
  return { index: 0, overallLengthMm: 70, bladeLengthMm: 23, halfWidthMm: (y) => 3.5 - 0.05 * y, readings };
}

const zones = placeZones(LONG_SCRAPE, { lengths: LONG_SCRAPE.lengths, overallLengthMm: 70 }, 70);
const planFor = (pass: FitPass, aim = target) => {
  const model = fitReed([pass]);
  const excess = excessOver(model, 0, aim);
  return {
    model,
    excess,
    plan: nextStrokes({ excess, zones, floors: LONG_SCRAPE.floors, geometry: pass, closed: [] }),
  };
};

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
    for (const { takeMm, excessMm } of plan.steps) expect(takeMm).toBeLessThanOrEqual(excessMm / 2);
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
  const model = m142.benched.model!;
  const excess = excessOver(model, 3, target);
  const geometry = model.passes[3]!;
  const plan = nextStrokes({ excess, zones, floors: LONG_SCRAPE.floors, geometry, closed: [] });

  it('advises the blend first, at most half of it', () => {
    expect(plan.steps[0]).toMatchObject({ zone: 'blend' });
    expect(plan.steps[0]!.takeMm).toBeLessThan(0.03);
  });

  it('puts no stroke into the right window of B, and names its lack', () => {
    const inWindow = plan.steps.some(({ places }) =>
      grid.ysMm.some((y, i) =>
        grid.us.some(
          (u, j) =>
            Math.abs(y - 10) < 1 && Math.abs(u - 0.4) < 0.15 && places.B?.[i * grid.us.length + j] === 1,
        ),
      ),
    );
    expect(inWindow).toBe(false);
    expect(plan.lacks.B!.fromTipMm).toBeCloseTo(10, 0);
    expect(plan.lacks.B!.across).toBeGreaterThan(0.2);
  });
});

it('closes the surroundings of a reading at its floor', () => {
  const pass = readReed((blade, y, u) => truthAt(blade, y, u) + 0.04, 5);
  const closed = [{ blade: 'B' as const, fromTipMm: 12, across: 0.4 }];
  const excess = excessOver(fitReed([pass]), 0, target);
  const { steps } = nextStrokes({ excess, zones, floors: LONG_SCRAPE.floors, geometry: pass, closed });
  for (const { places } of steps) {
    grid.ysMm.forEach((y, i) =>
      grid.us.forEach((u, j) => {
        const near = Math.hypot(y - 12, (u - 0.4) * pass.halfWidthMm(y)) <= 2;
        if (near) expect(places.B?.[i * grid.us.length + j] ?? 0).toBe(0);
      }),
    );
  }
});

it('leaves the true thickness above the floor at 19 places in 20', () => {
  let [under, all] = [0, 0];
  for (let seed = 1; seed <= 12; seed++) {
    const random = seededRandom(seed);
    const [cy, cu, deep] = [7 + 8 * random(), 1.2 * random() - 0.6, 0.02 + 0.05 * random()];
    const thickness = (blade: Blade, y: number, u: number) =>
      truthAt(blade, y, u) - 0.03 + bump(y, u, [cy, cu, 2, 0.4, deep]);
    const { plan } = planFor(readReed(thickness, seed), offsetTarget(target, -0.08));
    for (const { places, takeMm } of plan.steps) {
      for (const blade of ['A', 'B'] as const) {
        places[blade]?.forEach((yes, i) => {
          if (yes !== 1) return;
          const [y, u] = [grid.ysMm[Math.floor(i / grid.us.length)]!, grid.us[i % grid.us.length]!];
          const floor = floorAt(LONG_SCRAPE.floors, y, u);
          if (floor === undefined) return;
          all += 1;
          if (thickness(blade, y, u) - takeMm < floor) under += 1;
        });
      }
    }
  }
  expect(all).toBeGreaterThan(200);
  expect(under / all).toBeLessThanOrEqual(0.05);
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
