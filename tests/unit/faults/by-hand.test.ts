import { describe, expect, it } from 'vitest';
import { climb } from '../../../src/faults/climb.ts';
import { growthOf, lessDrift } from '../../../src/faults/drift.ts';
import { asExplained } from '../../../src/faults/explained-pass.ts';
import type { Explanation, JudgedPass } from '../../../src/faults/explanation.ts';
import { driftOfFirst } from '../../../src/faults/first-drift.ts';
import { growthEvidence, regionsOf } from '../../../src/faults/growth.ts';
import {
  isNew,
  offsetsAlong,
  suspicionsOf,
  trueAcross,
  trueBlade,
  type OffsetSuspicion,
} from '../../../src/faults/suspicion.ts';
import type { FitReading } from '../../../src/surface/reed-model.ts';

const reading = (fromTipMm: number, across: number, thicknessMm: number, blade: 'A' | 'B' = 'A') =>
  ({ blade, fromTipMm, across, thicknessMm, noiseFactor: 1, repeats: 1 }) as FitReading;

describe('what a pass may be suspected of', () => {
  const untimed = { readings: [reading(5, 0, 0.4)] };
  const timed = { readings: [{ ...reading(5, 0, 0.4), time: 0.2 }] };

  it('is seven offsets, a drift where it is known when readings were taken, and seven wrong labellings', () => {
    const kinds = (of: typeof untimed) => suspicionsOf(of, []).map(({ kind }) => kind);
    expect(kinds(untimed).filter((kind) => kind === 'labels')).toHaveLength(7);
    expect([kinds(untimed).length, kinds(timed).length]).toEqual([14, 15]);
    expect(kinds(timed)).toContain('drift');
  });

  it('holds one offset of a kind, and one labelling', () => {
    const zero: OffsetSuspicion = { kind: 'zero', blade: 'A' };
    expect(suspicionsOf(timed, [zero])).toHaveLength(12);
    expect([
      isNew([zero], { kind: 'zero', blade: 'B' }),
      isNew([zero], { kind: 'shifted', blade: 'A' }),
    ]).toEqual([false, true]);
  });

  it('adds its amounts up by kind and blade', () => {
    const suspicions: OffsetSuspicion[] = [
      { kind: 'zero', blade: 'both' },
      { kind: 'zero', blade: 'B' },
      { kind: 'shifted', blade: 'A' },
      { kind: 'drift', blade: 'both' },
      { kind: 'swelling', blade: 'both' },
    ];
    expect(offsetsAlong(suspicions, [0.01, 0.02, 0.2, 0.003, 0.005])).toEqual({
      zeroMm: { A: 0.01, B: 0.03 },
      shiftMm: { A: 0.2, B: 0 },
      driftMm: 0.003,
      swelling: 0.005,
    });
  });

  it('puts blades and sides right again', () => {
    const labelling = { swapped: true, mirrored: ['A'] } as const;
    expect([trueBlade('A', labelling), trueBlade('B', labelling)]).toEqual(['B', 'A']);
    expect([trueBlade('A', { ...labelling, swapped: false }), trueAcross('A', 0.4, labelling)]).toEqual([
      'A',
      -0.4,
    ]);
    expect([trueAcross('B', 0.4, labelling), trueAcross('A', 0, labelling)]).toEqual([0.4, 0]);
  });
});

describe('places read twice', () => {
  // Rows 1 mm apart, 0.40, 0.42, 0.46 thick: 0.03 mm per mm in the middle one.
  const readings = [reading(5, 0, 0.4), reading(6, 0, 0.42), reading(7, 0, 0.46)];
  const twice = (fromTipMm: number, grewMm: number, apart: number) =>
    ({ blade: 'A', across: 0, fromTipMm, grewMm, apart }) as const;

  it('are as unsure as two readings where the blade is so steep', () => {
    const pass = { readings, readTwice: [twice(6, 0.01, 0.5), twice(9, 0.01, 0.5)] };
    const [steep, level] = growthOf(pass, { seatingMm: 0.003, placementMm: 0.1 });
    expect(steep!.uMm).toBeCloseTo(0.006, 12);
    expect(level!.uMm).toBeCloseTo(0.003 * Math.SQRT2, 12);
    expect(growthOf({ readings }, { seatingMm: 0.003, placementMm: 0.1 })).toEqual([]);
    expect(lessDrift([steep!], 0.02).changeMm[0]).toBeCloseTo(0, 12);
  });

  it('tell a drift of a first pass from 0.008 mm on: asked from three standard deviations, named from 4.5', () => {
    // Two places a whole pass apart, each to 0.003 mm: the mean to 0.0021213.
    const found = (mm: number, count = 2) =>
      driftOfFirst(
        { readings, readTwice: Array.from({ length: count }, () => twice(9, mm, 1)) },
        { seatingMm: 0.003 / Math.SQRT2, placementMm: 0 },
      );
    expect(found(0.0079)).toEqual([]);
    const [asked] = found(0.0081);
    expect(asked).toMatchObject({ kind: 'drift', grade: 'asked', valueMm: 0.008, uMm: 0.0021 });
    expect(asked!.evidence).toBeCloseTo(0.0081 / 0.0021213, 3);
    expect(found(-0.0096)[0]).toMatchObject({
      grade: 'named',
      valueMm: -0.01,
      remedy: { kind: 'drift', driftMm: -0.01 },
    });
    expect(found(0.0095)[0]!.grade).toBe('asked');
    expect(found(0.05, 1)).toEqual([]);
  });
});

describe('growth of a part of a blade', () => {
  const change = (fromTipMm: number, across: number, changeMm: number, uMm: number) => ({
    ...{ reading: reading(fromTipMm, across, 0.4), expectedMm: 0.4, changeMm, uMm },
  });

  it('is a weighted mean, no sooner sure than 0.002 mm', () => {
    // Weights 40,000 and 10,000: 0.014, to 0.0044721 and 0.002 together.
    const [region] = regionsOf([change(5, 0, 0.01, 0.005), change(6, 0, 0.03, 0.01)]);
    expect(region!.meanMm).toBeCloseTo(0.014, 12);
    expect(region!.uMm).toBeCloseTo(Math.hypot(Math.sqrt(1 / 50_000), 0.002), 12);
    expect(growthEvidence(region!.changes)).toBeCloseTo(0.5 * (0.014 / Math.sqrt(24e-6)) ** 2, 9);
  });

  it('takes a single reading for four of its standard deviations at most, and loss for nothing', () => {
    expect(regionsOf([change(5, 0, 0.05, 0.01)])[0]!.meanMm).toBeCloseTo(0.04, 12);
    expect(regionsOf([change(5, 0, -0.05, 0.01)])[0]!.meanMm).toBeCloseTo(-0.04, 12);
    expect(growthEvidence([change(5, 0, -0.05, 0.01)])).toBe(0);
  });

  it.each([
    [3.5, 0, 3.51, 0],
    [7, 0, 7.01, 0],
    [12, 0, 12.01, 0],
    [5, 0.19, 5, 0.2],
    [5, -0.2, 5, 0.2],
  ])('parts a place at %d mm, %d from one at %d mm, %d', (y, u, otherY, otherU) => {
    expect(regionsOf([change(y, u, 0, 1), change(otherY, otherU, 0, 1)])).toHaveLength(2);
    expect(regionsOf([change(y, u, 0, 1), change(y, u, 0, 1)])).toHaveLength(1);
  });
});

describe('a pass as it enters what is known of the cane', () => {
  const own = { ...reading(10, 0.4, 0.5), noiseFactor: 2, repeats: 4, time: 0.5 };
  const pass = { overallLengthMm: 70, readings: [own], controls: [] } as unknown as JudgedPass;
  const noise = { seatingMm: 0.003, placementMm: 0 };
  const odd = { reading: own, expectedMm: 0.4, sds: 5 };

  it('has its named faults undone', () => {
    const explanation = {
      labelling: { swapped: true, mirrored: ['A'] },
      offsets: { shiftMm: { A: 0.2, B: 0 }, zeroMm: { A: 0.01, B: 0 }, driftMm: 0.02, swelling: 0.005 },
    } as unknown as Explanation;
    const [station] = asExplained(pass, noise, explanation, []).stations;
    expect(station).toMatchObject({ blade: 'B', across: -0.4 });
    expect(station!.zMm).toBeCloseTo(59.8, 12);
    expect(station!.thicknessMm).toBeCloseTo(0.48 / 1.005, 12);
    // Twice as noisy, read four times.
    expect(station!.seatingMm).toBeCloseTo(0.003, 12);
  });

  it('was soaked as long as is written, if anything is', () => {
    const of = (one: JudgedPass) => asExplained(one, noise, undefined, []);
    expect(of({ ...pass, soakMin: 6 }).soakMin).toBe(6);
    expect(of(pass)).not.toHaveProperty('soakMin');
  });

  it('has odd readings put right, left out, or believed a sixth as much', () => {
    const of = (grade: 'named' | 'asked', meantMm?: number) =>
      asExplained(pass, noise, undefined, [{ ...odd, grade, ...(meantMm !== undefined && { meantMm }) }])
        .stations;
    expect(of('named', 0.41)[0]!.thicknessMm).toBe(0.41);
    expect(of('named')).toEqual([]);
    expect(of('asked')[0]).toMatchObject({
      thicknessMm: 0.5,
      seatingMm: expect.closeTo(0.018, 12) as number,
    });
  });
});

it('climbs a round top, and stays within bounds', () => {
  const hill = (x: Float64Array) => 3 - (x[0]! - 1) ** 2 - 4 * (x[1]! + 0.5) ** 2 - x[0]! * x[1]!;
  // Its slopes vanish where 2 x + y = 2 and x + 8 y = -4: x = 4 / 3, y = -2 / 3.
  const { x, value } = climb(hill, Float64Array.of(0, 0));
  expect(value).toBeCloseTo(hill(Float64Array.of(4 / 3, -2 / 3)), 2);
  expect(x[0]).toBeCloseTo(4 / 3, 1);
  expect(x[1]).toBeCloseTo(-2 / 3, 1);
  expect(Math.abs(climb(hill, Float64Array.of(0, 0), 0.25).x[0]!)).toBe(0.25);
});

it.each([
  [4, 1.4, [1.4]],
  [4, 4, [1.5, 3, 4]],
  // Bends less than one count for one: 0.4, then by the true bend 1.6 more, of which 1.5 are the longest step; the last
  // gains 0.001, which is evidence of nothing.
  [0.2, 2, [0.4, 1.9, 2]],
])('climbs a parabola that bends by %d to its top at %d', (bend, topAt, steps) => {
  const asked: number[] = [];
  const hill = ([x = 0]: Float64Array) => {
    asked.push(Number(x.toFixed(6)));
    return -0.5 * bend * (x - topAt) ** 2;
  };
  expect(climb(hill, Float64Array.of(0)).x[0]).toBeCloseTo(topAt, 9);
  // Where it stood, beside the differences to either side.
  const stood = steps.flatMap((x) => [x, Number((x + 0.1).toFixed(6)), Number((x - 0.1).toFixed(6))]);
  const last = bend < 1 ? -2 : stood.length;
  expect(asked.slice(0, 3 + stood.length + Math.min(0, last))).toEqual([
    0,
    0.1,
    -0.1,
    ...stood.slice(0, last),
  ]);
});
