import { describe, expect, it } from 'vitest';
import type { HabitDocument } from '../../../shared/habit.ts';
import type { Strokes } from '../../../shared/pass.ts';
import type { Lengths } from '../../../shared/style.ts';
import { benchReed, zonesAt } from '../../../src/answers/fitted-reed.ts';
import type { OriginalCane } from '../../../src/cane/original-cane.ts';
import { combine, estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { meanRemovedOver } from '../../../src/figures/removed.ts';
import { mapGrid } from '../../../src/figures/surface-map.ts';
import { zoneArea } from '../../../src/figures/zone-mean.ts';
import { notesOn } from '../../../src/plan/compare.ts';
import type { MeantStep } from '../../../src/plan/kept-plan.ts';
import { knifeYield } from '../../../src/plan/knife-yield.ts';
import { meantAndDone } from '../../../src/plan/meant-and-done.ts';
import { ownHabits, whoSays } from '../../../src/plan/own-habits.ts';
import { sayCompared } from '../../../src/plan/say-compared.ts';
import { sayPlaced } from '../../../src/plan/say-placed.ts';
import { sayStep } from '../../../src/plan/say-step.ts';
import { loggedWork } from '../../../src/plan/stroke-log.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const writing = { unit: 'hundredths', decimal: 'point' } as const;
const k117 = scenarioReed('K-117');
type Read = (typeof k117.passes)[number]['readings'][number];
const [first] = k117.passes;
/** K-117 after a second pass, clipped by so much, which took 0.06 mm beside the middle of A's left. */
function worked(clipMm = 0, places: readonly Strokes[] = []) {
  const lost = (at: Read) =>
    at.blade === 'A' && at.across === -0.4 && at.fromTipMm >= 10 && at.fromTipMm <= 14 ? 0.06 : 0;
  const readings = first!.readings.map((at) => ({
    ...at,
    fromTipMm: at.fromTipMm - clipMm,
    thicknessMm: at.thicknessMm! - lost(at),
  }));
  const next = { ...first!, index: 1, readings, overallLengthMm: first!.overallLengthMm! - clipMm };
  return benchReed(k117.reed, [first!, places.length > 0 ? { ...next, scrape: { places } } : next] as never);
}
const PAIR = { before: 0, after: 1 };
const grid = mapGrid(20, 41, 21);

describe('what a pass took beside what was meant', () => {
  const { model } = worked();
  const placesWhere = (isIn: (y: number, u: number) => boolean) =>
    Uint8Array.from(grid.ysMm.flatMap((y) => [...grid.us].map((u) => (isIn(y, u) ? 1 : 0))));
  const step = (places: MeantStep['places'], takeMm = 0.03): MeantStep => ({
    ...{ zone: 'windows', title: 'Windows', side: 'left', fromMm: 10, toMm: 14, excessMm: 0.07, uMm: 0.003 },
    ...{ takeMm, blades: ['A'], places },
  });
  const outside = (...steps: MeantStep[]) => meantAndDone(model!, PAIR, grid, steps).outside;

  it('is most where it was taken, if nothing was meant there', () => {
    const { blade, fromTipMm, across, lost } = outside()!;
    expect(blade).toBe('A');
    expect(across).toBeLessThan(-0.2);
    expect(across).toBeGreaterThanOrEqual(-0.9);
    expect(Math.abs(fromTipMm - 12)).toBeLessThan(2.6);
    const place = { blade, fromTipMm, across } as const;
    const at = (pass: number) => pointFunctional(model!, { ...place, pass });
    const alone = estimate(
      model!,
      combine([
        [1, at(0)],
        [-1, at(1)],
      ]),
    );
    expect(lost.valueMm).toBeCloseTo(alone.valueMm, 9);
    expect(lost.uMm).toBeCloseTo(alone.uMm, 9);
  });

  it('is not outside within 1.5 mm along and 0.3 across of a planned place of the same blade', () => {
    const all = (y: number, u: number) => y > 8 && y < 16 && u < 0;
    const near = outside(step({ A: placesWhere(all) }));
    if (near) {
      expect(near.across > 0.29 || near.fromTipMm < 7 || near.fromTipMm > 17).toBe(true);
    }
    const { fromTipMm, across } = outside()!;
    const only = (dy: number, du: number) =>
      outside(
        step({
          A: placesWhere((y, u) => Math.abs(y - fromTipMm - dy) < 0.01 && Math.abs(u - across - du) < 0.01),
        }),
      )!;
    for (const moved of [only(0, 0), only(1, 0), only(0, 0.2)])
      expect([moved.fromTipMm, moved.across]).not.toEqual([fromTipMm, across]);
    for (const same of [only(2, 0), only(0, 0.4), only(-2, 0)])
      expect([same.fromTipMm, same.across]).toEqual([fromTipMm, across]);
    const other = { ...step({ B: placesWhere(all) }), blades: ['B'] as const };
    expect(outside(other)).toMatchObject({ blade: 'A', fromTipMm, across });
  });

  it('is the mean over its places, and as meant within its 95 %', () => {
    const places = placesWhere((y, u) => y > 10.9 && y < 13.1 && u < -0.29 && u > -0.51);
    const of = (takeMm: number) => meantAndDone(model!, PAIR, grid, [step({ A: places }, takeMm)]).rows[0]!;
    const { done, stillOver } = of(0.03);
    const chosen = [...places.keys()].filter((i) => places[i] === 1);
    const mean = (pass: number) =>
      chosen.reduce((sum, i) => {
        const [fromTipMm, across] = [grid.ysMm[Math.floor(i / 21)]!, grid.us[i % 21]!];
        return (
          sum + estimate(model!, pointFunctional(model!, { blade: 'A', pass, fromTipMm, across })).valueMm
        );
      }, 0) / chosen.length;
    expect(chosen.length).toBeGreaterThan(5);
    expect(done.valueMm).toBeCloseTo(mean(0) - mean(1), 9);
    expect(stillOver.valueMm).toBeCloseTo(0.07 - done.valueMm, 12);
    expect(stillOver.uMm).toBeCloseTo(Math.hypot(0.003, done.uMm), 12);
    const verdicts = [-2, -1.9, 1.9, 2].map((sds) => of(done.valueMm - sds * done.uMm).verdict);
    expect(verdicts).toEqual(['less', 'as meant', 'as meant', 'more']);
    const right = placesWhere((y, u) => y > 10.9 && y < 13.1 && u > 0.29 && u < 0.51);
    const unworked = meantAndDone(model!, PAIR, grid, [step({ A: right }, 0.001)]).rows[0]!;
    expect(unworked.verdict).toBe('not measurable');
  });

  it('is of the same cane after a clip', () => {
    const clipped = worked(0.4).model!;
    const places = placesWhere((y, u) => Math.abs(y - 12) < 0.3 && Math.abs(u + 0.4) < 0.05);
    const i = places.indexOf(1);
    const [y, across] = [grid.ysMm[Math.floor(i / 21)]!, grid.us[i % 21]!];
    expect(places.reduce((sum, one) => sum + one, 0)).toBe(1);
    const { done } = meantAndDone(clipped, PAIR, grid, [step({ A: places })]).rows[0]!;
    const at = (pass: number, fromTipMm: number) =>
      estimate(clipped, pointFunctional(clipped, { blade: 'A', pass, fromTipMm, across })).valueMm;
    expect(done.valueMm).toBeCloseTo(at(0, y) - at(1, y - 0.4), 9);
    expect(meantAndDone(clipped, PAIR, grid, []).outside!.fromTipMm).toBeGreaterThanOrEqual(0.4);
  });
});

it('logged strokes are what their half of a zone lost, of each place that the style knows', () => {
  const strokes = (
    zone: string,
    blade: Strokes['blade'],
    side: Strokes['side'],
    count?: number,
  ): Strokes => ({
    ...{ zone, blade, side, ...(count !== undefined && { strokes: count }) },
  });
  const benched = worked(0, [
    strokes('Windows', 'A', 'left', 6),
    strokes('windows', 'both', 'both', 4),
    strokes('the top', 'A', 'left', 5),
    strokes('windows', 'A', 'right'),
  ]);
  const model = benched.model!;
  const zone = zonesAt(benched, 1).find(({ name }) => name === 'windows')!;
  const mean = (side: 'left' | 'both', ...blades: ('A' | 'B')[]) => {
    const area = zoneArea(zone, model.passes[1]!, side);
    const parts = blades.map((blade) => meanRemovedOver(model, PAIR, blade, area)!);
    return estimate(model, combine(parts.map((part) => [1 / parts.length, part])));
  };
  const work = loggedWork(benched);
  expect(
    work.map(({ knife, reed, passIndex, region, strokes: count }) => [knife, reed, passIndex, region, count]),
  ).toEqual([
    ['no name', 'K-117', 1, 'windows', 6],
    ['no name', 'K-117', 1, 'windows', 4],
  ]);
  for (const [i, expected] of [mean('left', 'A'), mean('both', 'A', 'B')].entries()) {
    expect(work[i]!.removed.valueMm).toBeCloseTo(expected.valueMm, 12);
    expect(work[i]!.removed.uMm).toBeCloseTo(expected.uMm, 12);
  }
  expect(loggedWork(worked())).toEqual([]);
});

it('a knife that worked one region alone takes there what it read, and elsewhere a quarter more or less', () => {
  const entries = [0.02, 0.02, 0.02].map((valueMm) => ({
    ...{ region: 'heart', strokes: 10, removed: { valueMm, uMm: 0.002 } },
  }));
  const found = knifeYield(entries);
  if (!found.known) throw new Error(found.sentence);
  // 0.002 a stroke, each to hypot(0.0002, a fifth of it); between regions a quarter of it, once for this one and once for another.
  const variance = (0.0002 ** 2 + 0.0004 ** 2) / 3;
  const heart = found.regions.get('heart')!;
  expect(heart.perStrokeMm).toBeCloseTo(0.002, 12);
  expect(heart.uMm).toBeCloseTo(Math.sqrt(variance), 12);
  expect(found.overall.uMm).toBeCloseTo(Math.hypot(Math.sqrt(variance), 0.0005, 0.0005), 12);
});

describe('what else differs', () => {
  const gouge = (middleMm: number, sideMm: number) =>
    ({
      thicknessAt: ({ across }: { across: number }) => ({
        valueMm: across === 0 ? middleMm : sideMm,
        uMm: 0,
      }),
    }) as unknown as OriginalCane;
  const reed = (id: string) => ({
    benched: { reed: { id, label: id }, assembled: { style: { key: 'one', name: 'One' } } },
    pass: 0,
  });
  const notes = (mine: OriginalCane | undefined, theirs: OriginalCane | undefined) =>
    notesOn(reed('a') as never, [reed('b') as never], ({ id }) => (id === 'a' ? mine : theirs));

  it('is another gouge, by more than a hundredth in the middle or at a side', () => {
    const own = gouge(0.59, 0.45);
    expect(notes(own, gouge(0.5999, 0.4599))).toEqual([]);
    expect(notes(own, gouge(0.6001, 0.45))).toEqual(['Another gouge.']);
    expect(notes(own, gouge(0.59, 0.4399))).toEqual(['Another gouge.']);
    expect(notes(own, undefined)).toEqual([]);
    expect(notes(undefined, own)).toEqual([]);
  });

  it('stands behind what is compared', () => {
    const said = (...all: string[]) =>
      sayCompared({ zones: [], crossings: [], notes: all, target: { name: 'K-117' } }, writing);
    expect(said('Another gouge.', 'Another staple.').aside).toBe('Another gouge. Another staple.');
    expect(said()).not.toHaveProperty('aside');
  });
});

it('a place is laid on another by each end that differs', () => {
  const ends = (tipMm: number, heartEndMm: number, scrapeEndMm: number): Lengths => ({
    tipMm,
    heartEndMm,
    scrapeEndMm,
  });
  const reed = (label: string, lengths: Lengths) => ({ reed: { label }, assembled: { frame: { lengths } } });
  const said = (lengths: Lengths) =>
    sayPlaced(
      { benched: reed('own', ends(4, 9, 20)), pass: 0 } as never,
      { placing: 'lengths', reeds: [reed('K-117', lengths)] } as never,
      writing,
    );
  expect(said(ends(4, 9, 20))).toMatch(/which are the same on all of them/);
  for (const other of [ends(5, 9, 20), ends(4, 8, 20), ends(4, 9, 21)])
    expect(said(other)).toMatch(/of K-117\.$/);
});

it('a stroke takes so much in every unit', () => {
  const step = { title: 'Heart', zone: 'heart', blades: ['A'], side: 'both', stretch: [5, 8], takeMm: 0.03 };
  const known = { known: true, overall: { perStrokeMm: 0.002, uMm: 0.0005, entries: 1 }, regions: new Map() };
  const said = (unit: 'mm' | 'thou' | 'hundredths') =>
    sayStep(
      { ...step, excess: { valueMm: 0.06, uMm: 0.003 } } as never,
      'K-117',
      { name: undefined, known: known as never },
      { unit, decimal: 'point' },
    ).strokes.replaceAll('\u00a0', ' ');
  // 1.96 times 0.0005 is 0.00098; a thousandth of an inch is 0.0254 mm. At 0.002 + 1.645 * 0.0005 ten are 0.028.
  expect(said('mm')).toMatch(
    /^10 strokes in each place with your knife, take about .*: 0.0020 ±0.0010 a stroke, from one logged/,
  );
  expect(said('hundredths')).toMatch(/: 0.20 ±0.10 a stroke/);
  expect(said('thou')).toMatch(/: 0.08 ±0.04 a stroke/);
});

it('a row of the table is the maker’s own where it was changed, with all that it says', () => {
  const stamp = {
    kind: 'habit',
    formatVersion: 1,
    id: 'x',
    versions: {},
    createdAt: '',
    updatedAt: '',
  } as const;
  const row = { ...stamp, key: 'own-1', symptom: 'Thin', lookAt: 'tip', action: 'clip' } as HabitDocument;
  const last = (more: Partial<HabitDocument>) => ownHabits([{ ...row, ...more }]).at(-1)!;
  const { own, ...bare } = last({});
  expect(own).toEqual(row);
  expect(bare).toEqual({ key: 'own-1', symptom: 'Thin', lookAt: 'tip', action: 'clip' });
  const more = {
    ...{ longScrape: 'a', shortScrape: 'b', risk: 'c', whoSays: 'an invented teacher' },
    ...{ contested: true as const, off: true as const, signs: [{ zone: 'tip', is: 'under' as const }] },
  };
  const { own: _, ...whole } = last(more as never);
  expect(whole).toEqual({ ...bare, ...more });
  expect(whoSays(last({}))).toBe('Your own practice.');
  expect(whoSays(ownHabits([])[0]!)).toBe('Common practice, no source.');
});
