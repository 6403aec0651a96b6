import { describe, expect, it } from 'vitest';
import type { Fault, PassFaults } from '../../../src/faults/fault.ts';
import { isOpen, whileOpen } from '../../../src/faults/open-questions.ts';
import { BLADES } from '../../../shared/blade.ts';
import { rectangleZone } from '../../../src/blade/zones.ts';
import { estimate } from '../../../src/figures/functional.ts';
import { meanRemovedOver } from '../../../src/figures/removed.ts';
import { zoneArea } from '../../../src/figures/zone-mean.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import type { FitReading } from '../../../src/surface/reed-model.ts';
import { familyReed } from '../../generator/family-reed.ts';

const reading = (blade: 'A' | 'B', fromTipMm: number, across: number, thicknessMm: number): FitReading => ({
  ...{ blade, fromTipMm, across, thicknessMm, noiseFactor: 1, repeats: 1 },
});
const readings = [
  reading('A', 5, 0.4, 0.5),
  reading('A', 5, -0.4, 0.44),
  reading('A', 5, 0, 0.6),
  reading('B', 5, 0.4, 0.41),
  reading('A', 8, 0.4, 0.55),
];
const pass = { index: 1, bladeLengthMm: 24, overallLengthMm: 70, halfWidthMm: () => 3, readings };
const fault = (kind: Fault['kind'], blade: Fault['blade'], more: Partial<Fault> = {}): Fault => ({
  ...{ kind, blade, grade: 'asked', evidence: 5, ...more },
});
const found = (faults: readonly Fault[], readAgain: PassFaults['readAgain'] = []): PassFaults => ({
  ...{ index: 1, faults, readAgain },
});
const whileAsked = (one: PassFaults) => whileOpen([pass], [one], { stepMm: 0.01 });

/** A seating of 0.004 mm, and a step of 0.01 mm shown. */
const SEATING_MM = Math.hypot(0.004, 0.01 / Math.sqrt(12));
/** How far off each reading may be, mm, from how much noisier it became. */
const apart = (one: PassFaults) =>
  whileAsked(one).passes[0]!.readings.map(({ noiseFactor }) =>
    Number((SEATING_MM * Math.sqrt(noiseFactor ** 2 - 1)).toFixed(9)),
  );

/** How much thicker each reading is than its place if labels were taken for each other, mm. */
const off = (one: PassFaults) =>
  whileAsked(one).passes[0]!.readings.map(({ mislabelledMm: mm }) => mm && Number(mm.toFixed(9)));

describe('a reading that may be another', () => {
  it('is off by what lies under the other label, where blades may be swapped', () => {
    expect(off(found([fault('swapped', 'both')]))).toEqual([0.09, undefined, undefined, -0.09, undefined]);
    expect(apart(found([fault('swapped', 'both')]))).toEqual([0, 0, 0, 0, 0]);
  });

  it('is off by the reading of the other side, where a blade may be mirrored', () => {
    expect(off(found([fault('mirrored', 'A')]))).toEqual([0.06, -0.06, 0, undefined, undefined]);
    expect(off(found([fault('mirrored', 'both')]))).toEqual([0.06, -0.06, 0, undefined, undefined]);
    expect(off(found([fault('mirrored', 'B')]))).toEqual(Array.from({ length: 5 }, () => undefined));
  });

  it('is off by the nearest reading under the other label, where rows lie close together', () => {
    const close = {
      ...pass,
      readings: [reading('A', 5, 0, 0.5), reading('B', 4.8, 0, 0.4), reading('B', 5, 0, 0.46)],
    };
    const open = whileOpen([close], [found([fault('swapped', 'both')])], { stepMm: 0.01 });
    expect(open.passes[0]!.readings[0]!.mislabelledMm).toBeCloseTo(0.04, 12);
  });

  it('is off by what the pass before has between both places, where its own has nothing under the other label', () => {
    const before = {
      ...{ ...pass, index: 0, overallLengthMm: 70.1 },
      readings: [reading('A', 8.1, 0.4, 0.6), reading('B', 8.1, 0.4, 0.57)],
    };
    const open = whileOpen([before, pass], [found([]), found([fault('swapped', 'both')])], { stepMm: 0.01 });
    expect(open.passes[1]!.readings.at(-1)!.mislabelledMm).toBeCloseTo(0.57 - 0.6, 12);
  });

  it('weighs as little as what was meant, or else expected, lies apart from it', () => {
    const place = { fromTipMm: 5, across: 0.4 };
    expect(apart(found([fault('digits', 'A', { place, valueMm: 0.53, expectedMm: 0.7 })]))).toEqual([
      0.03, 0, 0, 0, 0,
    ]);
    expect(apart(found([fault('digits', 'B', { place, expectedMm: 0.61 })]))).toEqual([0, 0, 0, 0.2, 0]);
    expect(apart(found([fault('increase', 'A', { place, valueMm: 0.2 })]))).toEqual([0, 0, 0, 0, 0]);
  });

  it('weighs less where it is low with no knife before it; a dig weighs in full', () => {
    const low = { blade: 'A', fromTipMm: 5, across: -0.4, readMm: 0.44, expectedMm: 0.52 } as const;
    expect(apart(found([], [{ ...low, inDoubt: true }]))).toEqual([0, 0.08, 0, 0, 0]);
    expect(apart(found([], [low]))).toEqual([0, 0, 0, 0, 0]);
    expect([isOpen([found([], [{ ...low, inDoubt: true }])]), isOpen([found([], [low])])]).toEqual([
      true,
      false,
    ]);
  });
});

it('what all readings of a pass share is as unsure as the largest question', () => {
  const shared = (...faults: Fault[]) => whileAsked(found(faults)).options.openErrors;
  const nothing = { zeroMm: 0, driftMm: 0, swelling: 0, lengthMm: 0, labels: 0 };
  expect(shared()).toEqual([nothing]);
  expect([isOpen([found([])]), isOpen([found([fault('zero', 'A')])])]).toEqual([false, true]);
  expect(
    shared(
      ...[fault('zero', 'A', { valueMm: 0.02 }), fault('zero', 'B', { valueMm: -0.03 })],
      ...[fault('drift', 'both', { valueMm: -0.025 }), fault('swelling', 'both', { factor: 0.98 })],
      ...[fault('clip', 'both', { valueMm: 0.4 }), fault('shifted', 'both', { valueMm: -0.5 })],
      fault('increase', 'A', { valueMm: 0.9 }),
    ),
  ).toEqual([
    { zeroMm: 0.03, driftMm: 0.025, swelling: expect.closeTo(0.02, 12) as number, lengthMm: 0.5, labels: 0 },
  ]);
  expect(shared(fault('swelling', 'both'), fault('zero', 'A'))).toEqual([nothing]);
  expect(shared(fault('swapped', 'both'))).toEqual([{ ...nothing, labels: 1 }]);
  expect(shared(fault('mirrored', 'A'))).toEqual([{ ...nothing, labels: 1 }]);
});

it('may be the other blade throughout, so that one go of the knife on this one went unread', () => {
  const oneBlade = { ...pass, readings: readings.filter(({ blade }) => blade === 'A') };
  const of = (kind: Fault['kind']) =>
    whileOpen([oneBlade], [found([fault(kind, 'both')])], { stepMm: 0.01 }).options.openErrors![0]!.unreadMm;
  expect([of('swapped'), of('mirrored')]).toEqual([0.012, undefined]);
});

describe('what came off while a swap is asked', () => {
  const ZONES_MM = [
    [0.3, 3.6],
    [5.5, 8.5],
    [10.5, 17],
  ] as const;
  const reed = familyReed({
    family: 'rails',
    gauge: 'dial',
    handMm: 0.15,
    extent: 'full',
    count: 2,
    seed: 5780004,
  });
  const swapped = reed.passes.with(1, {
    ...reed.passes[1]!,
    readings: reed.passes[1]!.readings.map((one) => ({ ...one, blade: one.blade === 'A' ? 'B' : 'A' })),
  });
  const { passes, options } = whileOpen(swapped, [found([]), found([fault('swapped', 'both')])], {
    stepMm: 0.01,
  });
  /** How far means of zones are from the truth, in parts of their 95 % uncertainties, and one standard uncertainty, mm. */
  const beside = (fitted: ReturnType<typeof fitReed>) =>
    ZONES_MM.flatMap(([from, to]) =>
      BLADES.map((blade) => {
        const area = zoneArea(rectangleZone('zone', from, to), passes[1]!);
        const { valueMm, uMm } = estimate(
          fitted,
          meanRemovedOver(fitted, { before: 0, after: 1 }, blade, area)!,
        );
        const trueMm = area.nodes.reduce(
          (mm, { x, y, area: part }) => mm + (part / area.areaMm2) * reed.removedMm(blade, 1, x, y),
          0,
        );
        return { off: Math.abs(valueMm - trueMm) / (1.96 * uMm), uMm };
      }),
    );

  it('is covered where blades were swapped, and as well where they were not; settling it narrows it', () => {
    const open = beside(fitReed(passes, options));
    expect(Math.max(...open.map(({ off }) => off))).toBeLessThan(1.1);
    const blind = fitReed(
      passes.map((pass) => ({ ...pass, readings: pass.readings.map(({ mislabelledMm: _, ...one }) => one) })),
      options,
    );
    expect(Math.max(...beside(blind).map(({ off }) => off))).toBeGreaterThan(2);
    const settled = beside(fitReed(reed.passes, { stepMm: 0.01 }));
    // Zones in which the blades are alike are as sure with both answers.
    const widths = (of: typeof open) => of.reduce((sum, { uMm }) => sum + uMm, 0);
    expect(widths(settled)).toBeLessThan(0.85 * widths(open));
    const asked = whileOpen(reed.passes, [found([]), found([fault('swapped', 'both')])], { stepMm: 0.01 });
    const clean = beside(fitReed(asked.passes, asked.options));
    const furthest = (of: typeof clean) => Math.max(...of.map(({ off }) => off));
    expect(furthest(clean)).toBeLessThan(furthest(settled));
  });
});

describe('the noise of a gauge', () => {
  it('is not learned from passes whose places are asked about', () => {
    const asked = (['zero', 'swapped', 'drift', 'mirrored', 'shifted', 'digits', 'clip'] as const).map(
      (kind) => found([fault('swelling', 'both'), fault(kind, 'A')]),
    );
    const passes = asked.map((_, index) => ({ ...pass, index }));
    expect(whileOpen(passes, asked, { stepMm: 0.01 }).options.unsettled).toEqual([1, 3, 4, 6]);
  });
});
