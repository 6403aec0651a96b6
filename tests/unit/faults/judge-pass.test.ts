import { describe, expect, it } from 'vitest';
import type { Blade } from '../../../shared/blade.ts';
import { amountEstimate } from '../../../src/faults/amount-estimate.ts';
import type { CaneState } from '../../../src/faults/cane-state.ts';
import { explain, type Cane, type JudgedPass } from '../../../src/faults/explanation.ts';
import { judgePass } from '../../../src/faults/judge-pass.ts';
import {
  untouchedLogLikelihood,
  zoneLogLikelihood,
  type Changes,
} from '../../../src/faults/scraping-likelihood.ts';
import type { OffsetSuspicion, Suspicion } from '../../../src/faults/suspicion.ts';
import { cholesky, inverseFromCholesky } from '../../../src/numerics/cholesky.ts';
import type { FitReading } from '../../../src/surface/reed-model.ts';
import { seededRandom } from '../../seeded-random.ts';

const LENGTH_MM = 70;
const U_MM = 0.002;
const NOISE = { seatingMm: 0.004, placementMm: 0 };
/** A reed by a formula, mm: every side of either blade another, steep at the tip. */
const thickness = (blade: Blade, y: number, across: number) =>
  0.1 + 0.5 * (1 - Math.exp(-y / 5)) + 0.05 * Math.sin(y / 2 + (blade === 'A' ? 0 : 2) + 3 * across);

const tabled = (mmAt: (y: number) => number, toMm: number): ReturnType<CaneState> => {
  const zs = Array.from({ length: 5 * toMm + 1 }, (_, i) => LENGTH_MM - toMm + 0.2 * i);
  return {
    fromMm: LENGTH_MM - toMm,
    mm: Float64Array.from(zs, (z) => mmAt(LENGTH_MM - z)),
    uMm: new Float64Array(zs.length).fill(U_MM),
    hull: [LENGTH_MM - 20, LENGTH_MM],
  };
};
const stations: CaneState = (blade, across) => tabled((y) => thickness(blade, y, across), 24);
const CONTROL_MM = 0.6;
const controls: CaneState = () => tabled(() => CONTROL_MM, 24);
const cane: Cane = { stations, controls };

const PLACES = Array.from({ length: 14 }, (_, k) => k + 1).flatMap((y) =>
  ([-0.4, 0, 0.4] as const).flatMap((across) =>
    (['A', 'B'] as const).map((blade) => ({ blade, fromTipMm: y, across })),
  ),
);
/** A pass of nearly normal errors, of 0.004 mm, as something makes it. */
function passOf(
  read: (place: (typeof PLACES)[number], time: number) => number,
  more: Partial<JudgedPass> = {},
): JudgedPass {
  const random = seededRandom(5);
  const error = () => 0.004 * (Array.from({ length: 12 }, random).reduce((sum, r) => sum + r) - 6);
  const readings = PLACES.map((place, i): FitReading => {
    const time = i / (PLACES.length - 1);
    return { ...place, thicknessMm: read(place, time) + error(), time, noiseFactor: 1, repeats: 1 };
  });
  return { index: 1, overallLengthMm: LENGTH_MM, readings, controls: [], ...more };
}
const plain = ({ blade, fromTipMm, across }: (typeof PLACES)[number]) => thickness(blade, fromTipMm, across);
const other = { A: 'B', B: 'A' } as const;

describe('a fault planted in a whole pass', () => {
  const told = (pass: JudgedPass) =>
    judgePass(pass, cane, NOISE).findings.map(({ suspicion, grade, amount, u }) => ({
      ...{ suspicion, grade, amount, u },
    }));
  const near = (amount: number) => expect.closeTo(amount, 2) as number;

  it('is none in a sound pass, nor in one that was scraped', () => {
    expect(told(passOf(plain))).toEqual([]);
    expect(told(passOf((place) => plain(place) - (place.fromTipMm < 6 ? 0.03 : 0)))).toEqual([]);
  });

  it.each([
    [{ kind: 'zero', blade: 'A' }, (at) => plain(at) + (at.blade === 'A' ? 0.03 : 0), 0.03],
    [{ kind: 'zero', blade: 'both' }, (at) => plain(at) + 0.03, 0.03],
    [{ kind: 'drift', blade: 'both' }, (at, time) => plain(at) + 0.04 * time, 0.04],
    [{ kind: 'swelling', blade: 'both' }, (at) => plain(at) * 1.05, 0.05],
  ] as const satisfies readonly (readonly [OffsetSuspicion, Parameters<typeof passOf>[0], number])[])(
    'is named with its size: %o',
    (suspicion, read, amount) => {
      expect(told(passOf(read))).toMatchObject([{ suspicion, grade: 'named', amount: near(amount) }]);
    },
  );

  it.each(['both', 'B'] as const)('is a shift of %s', (blade) => {
    const moved = passOf((at) =>
      blade === 'both' || at.blade === blade ? thickness(at.blade, at.fromTipMm + 0.5, at.across) : plain(at),
    );
    const [found, ...more] = told(moved);
    expect(more).toEqual([]);
    expect(found).toMatchObject({ suspicion: { kind: 'shifted', blade }, grade: 'named' });
    expect(Math.abs(found!.amount - 0.5)).toBeLessThan(1.96 * found!.u);
    expect(found!.u).toBeGreaterThan(0.08);
  });

  it.each([
    [true, []],
    [false, ['A', 'B']],
    [false, ['B']],
    [true, ['A']],
  ] as const)('is a label: swapped %s, mirrored %s', (swapped, mirrored) => {
    const found = told(
      passOf(({ blade, across, fromTipMm }) => {
        const side = (mirrored as readonly Blade[]).includes(blade) ? 0 - across : across;
        return thickness(swapped ? other[blade] : blade, fromTipMm, side);
      }),
    );
    expect(found).toEqual([
      { suspicion: { kind: 'labels', labelling: { swapped, mirrored } }, grade: 'named', amount: 0, u: 0 },
    ]);
  });
});

describe('the evidence for a fault', () => {
  const relabelled = (swapped: boolean, ...mirrored: Blade[]) =>
    [
      { kind: 'labels', labelling: { swapped, mirrored } } satisfies Suspicion,
      passOf(({ blade, across, fromTipMm }) =>
        thickness(swapped ? other[blade] : blade, fromTipMm, mirrored.includes(blade) ? 0 - across : across),
      ),
    ] as const;
  const zero = (blade: 'A' | 'both') =>
    [
      { kind: 'zero', blade } satisfies Suspicion,
      passOf((at) => plain(at) + (blade === 'both' || at.blade === blade ? 0.03 : 0)),
    ] as const;
  const swollen = [
    { kind: 'swelling', blade: 'both' } satisfies Suspicion,
    passOf((at) => plain(at) * 1.05),
  ] as const;

  it.each([
    [1, zero('both')],
    [6, zero('A')],
    [0, swollen],
    [0, relabelled(true)],
    [0, relabelled(false, 'A', 'B')],
    [1.5, relabelled(false, 'B')],
    [1.5, relabelled(true, 'A', 'B')],
    [3, relabelled(true, 'A')],
  ] as const)('is what it gains, less %d for what is rarer', (cost, [suspicion, pass]) => {
    const [found] = judgePass(pass, cane, NOISE).findings;
    expect(found!.suspicion).toEqual(suspicion);
    const before = explain(pass, cane, NOISE, []);
    const after = explain(pass, cane, NOISE, [suspicion], { from: before });
    expect(found!.evidence).toBeCloseTo(after.logLikelihood - before.logLikelihood - cost, 9);
  });

  it('is asked where untouched cane and growth do not confirm it', () => {
    // Thinner all over: a zero that moved, or a knife that went everywhere.
    const [found] = judgePass(
      passOf((at) => plain(at) - 0.03),
      cane,
      NOISE,
    ).findings;
    if (found) expect(found.grade).toBe('asked');
    const held = passOf((at) => plain(at) - 0.03, {
      controls: [0, 1, 2].map((k) => ({
        ...{ blade: 'A' as const, fromTipMm: 15 + k, across: 0, thicknessMm: CONTROL_MM - 0.03 },
        ...{ noiseFactor: 1, repeats: 1 },
      })),
    });
    const [moved] = judgePass(held, cane, NOISE).findings;
    expect(moved).toMatchObject({ suspicion: { kind: 'zero', blade: 'both' }, grade: 'named' });
    expect(moved!.amount).toBeCloseTo(-0.03, 2);
  });

  it('is shared by a zero and a shift where the blade is of one slope', () => {
    const sloped: Cane = { controls, stations: () => tabled((y) => 0.2 + 0.02 * y, 24) };
    const pass = passOf(({ fromTipMm }) => 0.2 + 0.02 * (fromTipMm + 1.2));
    const [found] = judgePass(pass, sloped, NOISE).findings;
    const kinds = [found!, ...found!.rivals].map(({ suspicion }) => suspicion.kind);
    expect([...kinds].sort()).toEqual(['shifted', 'zero']);
    for (const { suspicion, amount } of [found!, ...found!.rivals])
      expect(Math.abs(amount / (suspicion.kind === 'zero' ? 0.024 : 1.2) - 1)).toBeLessThan(0.25);
  });
});

describe('how likely a pass is under what it is suspected of', () => {
  // Amounts of sound passes, and of faults; the logarithm of their density leaves out what is alike for all.
  const SOUND = { 'shifted both': 0.06, 'swelling both': 0.01, 'zero both': 0.002 };
  const FAULT = { shifted: 0.8, swelling: 0.025, zero: 0.025, drift: 0.025 };
  /** What a reading beyond the known cane costs: as one of a normal distribution of 0.008 mm at its standard deviation. */
  const BEYOND = Math.log(Math.exp(-0.5) / (0.008 * Math.sqrt(2 * Math.PI)));
  const far: FitReading[] = [20.05, 20.11, 23].map((fromTipMm) => ({
    ...{ blade: 'A', fromTipMm, across: 0, thicknessMm: 0.58, noiseFactor: 2, repeats: 4 },
  }));
  const twice = [{ blade: 'A', fromTipMm: 5, across: 0, grewMm: 0.012, apart: 0.5 } as const];
  const untouched: FitReading[] = [0.605, 0.611].map((thicknessMm) => ({
    ...{ blade: 'B', fromTipMm: 18, across: 0.1, thicknessMm, noiseFactor: 1, repeats: 2, time: 0.5 },
  }));
  const read = passOf((at) => plain(at) - (at.blade === 'B' ? 0.01 : 0));
  const pass = { ...read, readings: [...read.readings, ...far], controls: untouched, readTwice: twice };

  it.each<readonly Suspicion[]>([
    [],
    [{ kind: 'zero', blade: 'A' }],
    [{ kind: 'drift', blade: 'both' }],
    [{ kind: 'swelling', blade: 'both' }],
    [{ kind: 'shifted', blade: 'B' }],
  ])('is that of its zones, of untouched cane and of the amounts: %o', (...suspicions) => {
    const said = explain(pass, cane, NOISE, suspicions);
    const { shiftMm, zeroMm, driftMm, swelling } = said.offsets;
    const change = (one: FitReading, mm: number) => ({
      mm: one.thicknessMm - mm * (1 + swelling) - zeroMm[one.blade] - driftMm * (one.time ?? 0),
      u: Math.hypot(U_MM, (NOISE.seatingMm * one.noiseFactor) / Math.sqrt(one.repeats)),
    });
    const changes = (of: readonly { mm: number; u: number }[]): Changes => ({
      changeMm: Float64Array.from(of, ({ mm }) => mm),
      uMm: Float64Array.from(of, ({ u }) => u),
    });
    // A line of the table is straight between places 0.2 mm apart.
    const tableAt = ({ blade, across, fromTipMm }: FitReading) => {
      const at = 5 * (fromTipMm + shiftMm[blade]);
      const near = (k: number) => thickness(blade, k / 5, across);
      const k = Math.floor(at);
      return near(k) + (at - k) * (near(k + 1) - near(k));
    };
    const known = pass.readings.filter(({ fromTipMm }) => fromTipMm <= 20.1);
    const zones = [
      [0, 3.5],
      [3.5, 5.5],
      [5.5, 9],
      [9, 99],
    ].map(([from, to]) =>
      zoneLogLikelihood(
        (['A', 'B'] as const).map((blade) =>
          changes(
            known
              .filter((one) => one.blade === blade && one.fromTipMm > from! && one.fromTipMm <= to!)
              .map((one) => change(one, tableAt(one))),
          ),
        ),
      ),
    );
    const still =
      untouchedLogLikelihood(changes(untouched.map((one) => change(one, CONTROL_MM)))) +
      untouchedLogLikelihood(changes([{ mm: 0.012 - 0.5 * driftMm, u: Math.SQRT2 * NOISE.seatingMm }]));
    const own = suspicions.map(({ kind, ...more }) => `${kind} ${'blade' in more ? more.blade : ''}`);
    const stray = [...said.amounts].map(([key, amount]) => {
      const sd = own.includes(key) ? FAULT[key.split(' ')[0] as 'zero'] : SOUND[key as 'zero both'];
      return -0.5 * (amount / sd) ** 2;
    });
    expect(said.ofControls).toBeCloseTo(still, 9);
    const all = [...zones, ...stray].reduce((sum, one) => sum + one, still) + 2 * BEYOND;
    expect(said.logLikelihood).toBeCloseTo(all, 6);
    expect([...said.amounts.keys()].sort()).toEqual(
      [...Object.keys(SOUND).filter((key) => !own.includes(key)), ...own].sort(),
    );
    expect(said.changes).toHaveLength(known.length);
    const [first] = said.changes;
    expect(first!.expectedMm).toBeCloseTo(
      first!.reading.thicknessMm - change(first!.reading, tableAt(first!.reading)).mm,
      9,
    );
  });
});

describe('how large an offset is', () => {
  // Untouched cane alone, eight readings to 0.0045 mm each: a normal posterior, by hand.
  const u = Math.hypot(U_MM, NOISE.seatingMm);
  const count = 8;
  const only = (addedMm: (time: number) => number): JudgedPass => ({
    ...{ index: 1, overallLengthMm: LENGTH_MM, readings: [] },
    controls: Array.from({ length: count }, (_, i) => {
      const time = i / (count - 1);
      const thicknessMm = CONTROL_MM + addedMm(time);
      return { blade: 'A', fromTipMm: 18, across: 0, thicknessMm, time, noiseFactor: 1, repeats: 1 };
    }),
  });
  const sizeOf = (pass: JudgedPass, suspicion: OffsetSuspicion) =>
    amountEstimate(pass, cane, NOISE, explain(pass, cane, NOISE, [suspicion]), suspicion);

  it('is its mean and standard deviation, what sound passes share left open', () => {
    // Mean of the readings: zero + 0.6 swelling, to u / sqrt 8; zero 0.025, swelling 0.01 apart from it.
    const open = u ** 2 / count + (CONTROL_MM * 0.01) ** 2;
    const share = 0.025 ** 2 / (0.025 ** 2 + open);
    const { amount, u: found } = sizeOf(
      only(() => 0.02),
      { kind: 'zero', blade: 'both' },
    );
    expect(amount / (0.02 * share)).toBeCloseTo(1, 1);
    expect(found / Math.sqrt((1 - share) * 0.025 ** 2)).toBeCloseTo(1, 1);
  });

  it('is at most its own standard deviation where nothing tells, with what hides in lengths', () => {
    const { amount, u: found } = sizeOf(
      only(() => 0),
      { kind: 'shifted', blade: 'A' },
    );
    expect(amount).toBeCloseTo(0, 6);
    expect(found / Math.hypot(0.8, 0.08)).toBeCloseTo(1, 1);
  });

  it('of a drift has what was scraped in the order of reading in its doubt', () => {
    // Least squares of 0.03 t with the shared zero of 0.002 and swelling of 0.006 open, by 2 x 2 sums.
    const times = Array.from({ length: count }, (_, i) => i / (count - 1));
    const [st, stt] = [4, times.reduce((sum, t) => sum + t * t, 0)];
    const shared = 0.002 ** 2 + (CONTROL_MM * 0.01) ** 2;
    const ofShared = count + u ** 2 / shared;
    const ofDrift = stt + u ** 2 / 0.025 ** 2;
    const left = ofDrift - (st * st) / ofShared;
    const { amount, u: found } = sizeOf(
      only((t) => 0.03 * t),
      { kind: 'drift', blade: 'both' },
    );
    expect(amount / ((0.03 * (stt - (st * st) / ofShared)) / left)).toBeCloseTo(1, 1);
    expect(found / Math.hypot(u / Math.sqrt(left), 0.004)).toBeCloseTo(1, 1);
  });

  it('is weighed with every other offset at its likeliest', () => {
    const pass = only((t) => 0.02 + 0.03 * t);
    const [zero, drift] = [
      { kind: 'zero', blade: 'both' },
      { kind: 'drift', blade: 'both' },
    ] as const;
    const said = explain(pass, cane, NOISE, [zero, drift]);
    const [ofZero, ofDrift] = [zero, drift].map((one) => amountEstimate(pass, cane, NOISE, said, one));
    // Normal equations of zero, drift and swelling, each drawn to nothing by its own standard deviation.
    const times = Array.from({ length: count }, (_, i) => i / (count - 1));
    const at = times.map((t) => [1, t, CONTROL_MM]);
    const sums = [0, 1, 2].map((i) =>
      [0, 1, 2].map((j) => at.reduce((sum, x) => sum + x[i]! * x[j]!, 0) / u ** 2),
    );
    [0.025, 0.025, 0.01].forEach((sd, i) => (sums[i]![i]! += sd ** -2));
    const right = [0, 1, 2].map(
      (i) => at.reduce((sum, x, k) => sum + x[i]! * (0.02 + 0.03 * times[k]!), 0) / u ** 2,
    );
    const cov = inverseFromCholesky(cholesky(Float64Array.from(sums.flat()), 3), 3);
    const expected = (i: number) => right.reduce((sum, one, j) => sum + cov[3 * i + j]! * one, 0);
    expect(ofZero!.amount / expected(0)).toBeCloseTo(1, 1);
    expect(ofDrift!.amount / expected(1)).toBeCloseTo(1, 1);
    expect(ofZero!.u / Math.sqrt(cov[0]!)).toBeCloseTo(1, 1);
    expect(ofDrift!.u / Math.hypot(Math.sqrt(cov[4]!), 0.004)).toBeCloseTo(1, 1);
  });
});
