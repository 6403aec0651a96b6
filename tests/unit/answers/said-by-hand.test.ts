import { describe, expect, it } from 'vitest';
import { ALONE, evenness, sayEvenness } from '../../../src/answers/even.ts';
import type { LocalPlace } from '../../../src/answers/local-place.ts';
import type { ReedFigures } from '../../../src/answers/record/record.ts';
import { questionOpen } from '../../../src/answers/record/question-open.ts';
import { sayTakenOff } from '../../../src/answers/say-taken-off.ts';
import type { TakenOff } from '../../../src/answers/taken-off.ts';
import { sayThereNow } from '../../../src/answers/there-now.ts';
import { zonesAt } from '../../../src/answers/fitted-reed.ts';
import type { Fault } from '../../../src/faults/fault.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const writing = { unit: 'hundredths', decimal: 'point' } as const;
const plain = (words: string | undefined) => words?.replaceAll('\u00a0', ' ');
const m142 = scenarioReed('M-142');
const placed = zonesAt(m142, 3);

type Zones = Parameters<typeof sayEvenness>[0];
/** A zone whose contrasts are so many hundredths, each to 0.4 of one: at 95 %, 0.78. */
const zone = (title: string, hand: number, side = 0, blade = 0) =>
  ({
    ...{ name: title.toLowerCase(), title, blades: {} },
    balance: Object.fromEntries(
      Object.entries({ hand, side, blade }).map(([name, by]) => [name, { valueMm: by / 100, uMm: 0.004 }]),
    ),
  }) as unknown as Zones[number];
const said = (...zones: Zones[number][]) => {
  const { say, mind, aside } = sayEvenness(zones, writing);
  return [say, mind, aside].map(plain);
};

describe('whether a reed is even, and whose doing it is', () => {
  it('wants two zones beyond their doubt, or one beyond one and a half times as much', () => {
    expect(ALONE).toBeCloseTo(2.94, 2);
    const even = [
      'Even, as far as this gauge can tell: no difference is larger than its doubt.',
      undefined,
      undefined,
    ];
    expect(said(zone('Heart', 0.7), zone('Tip', 0.7))).toEqual(even);
    expect(said(zone('Heart', 1.17), zone('Tip', -0.9))).toEqual(even);
    expect(said(zone('Heart', 1.18))[0]).toMatch(/^On both blades the right is thicker than the left/);
    expect(said(zone('Heart', 0.8), zone('Tip', 0.9))[0]).toMatch(/^On both blades the right is thicker/);
    expect(said()).toEqual([
      'Only one blade is read, so nothing can be said of evenness.',
      undefined,
      undefined,
    ]);
  });

  it('is the hand, the cane or the strokes, the largest zones first, three of them', () => {
    expect(said(zone('Heart', -2), zone('Tip', -4), zone('Rails', -3), zone('Spine', -1))).toEqual([
      'On both blades the right is thinner than the left, by about 4 hundredths at the tip, 3 at the rails and 2 at the heart.',
      'A habit of the hand, or a tilt on the tongue, does that; an uneven gouge does not.',
      'Light would not have shown it: looked through, both sides total the same.',
    ]);
    expect(said(zone('Heart', 0, 0, 2))).toEqual([
      'Blade A is heavier than B, by about 2 hundredths at the heart.',
      'Unequal strokes, or unequal cane, do that.',
      'Light would not have shown it: it passes through both blades at once.',
    ]);
    expect(said(zone('Heart', 0, 0, -2))[0]).toMatch(/^Blade B is heavier than A/);
  });

  it('is what weighs most over all its zones', () => {
    expect(said(zone('Heart', 2, 3), zone('Tip', 2, 0))[0]).toMatch(/^On both blades the right/);
    expect(said(zone('Heart', 2, 5), zone('Tip', 2, 0))[0]).toMatch(/^Side 1 of the reed/);
  });

  it('shows in light where both blades together differ by three hundredths', () => {
    expect(said(zone('Heart', 0, 1.5))[2]).toBe(
      'Light shows it: looked through, side 1 is the darker by 3 hundredths.',
    );
    expect(said(zone('Heart', 0, -2))[2]).toBe(
      'Light shows it: looked through, side 2 is the darker by 4 hundredths.',
    );
    expect(said(zone('Heart', 0, -1), zone('Tip', 0, -1))).toEqual([
      'Side 2 of the reed is thicker than side 1, on both blades, by about 1 hundredth at the heart and 1 at the tip.',
      'An uneven gouge, shape or tie does that; the hand does not.',
      'Light would hardly have shown it: looked through, the sides differ by 2 hundredths.',
    ]);
  });

  it('leaves out zones without both blades', () => {
    const { balance: _, ...bare } = zone('Tip', 3);
    expect(evenness({ zones: [zone('Heart', 1), bare] } as unknown as ReedFigures)).toEqual([
      zone('Heart', 1),
    ]);
  });
});

describe('a single place that explains a difference', () => {
  const local = (mirrorMm: number, throughMm: number, across: number, blade: 'A' | 'B' = 'A') =>
    ({
      place: { blade, fromTipMm: 10, across },
      mirror: { valueMm: mirrorMm, uMm: 0.005 },
      through: { valueMm: throughMm, uMm: 0.005 },
      zones: ['windows'],
    }) satisfies LocalPlace;
  const found = (one: LocalPlace, ...zones: Zones[number][]) => {
    const { say, mind, aside } = sayEvenness(zones, writing, { found: one, placed });
    return [say, mind, aside].map(plain);
  };

  it('is a dig or was missed, beside its mirror; what differs elsewhere is said after it', () => {
    expect(found(local(-0.06, -0.02, 0.4), zone('Windows', 5))).toEqual([
      'A’s right window is 6 hundredths thinner than its left at 10 mm, in one place.',
      'Look there first: a dig, or a reading to take again.',
      'Looked through, both sides are alike at 10 mm: light does not show it. Elsewhere no difference is larger than its doubt.',
    ]);
    const [say, mind, aside] = found(local(0.05, 0.03, -0.4), zone('Windows', 5), zone('Heart', 2));
    expect(say).toBe('A’s left window is 5 hundredths thicker than its right at 10 mm, in one place.');
    expect(mind).toBe('Look there first: a place that was missed, or a reading to take again.');
    expect(aside).toBe(
      'Looked through, side 1 is 3 hundredths thicker at 10 mm: light shows that, but not which blade it is. Elsewhere on both blades the right is thicker than the left, by about 2 hundredths at the heart. A habit of the hand, or a tilt on the tongue, does that; an uneven gouge does not.',
    );
  });

  it('darkens side 1 on the left of A and on the right of B', () => {
    const side = (across: number, blade: 'A' | 'B') =>
      /side (\d)/.exec(found(local(-0.06, -0.06, across, blade))[2]!)![1];
    expect([side(-0.4, 'A'), side(0.4, 'A'), side(-0.4, 'B'), side(0.4, 'B')]).toEqual(['1', '2', '2', '1']);
    expect(found(local(-0.06, -0.06, 0.4))[2]).toMatch(/is 6 hundredths thinner at 10 mm/);
    // Beyond 0.03 mm, but within its own doubt.
    const unsure = { ...local(-0.06, -0.04, 0.4), through: { valueMm: -0.04, uMm: 0.021 } };
    expect(found(unsure)[2]).toMatch(/both sides are alike/);
  });
});

describe('what is there now', () => {
  const style = (...names: string[]) => ({ zones: names.map((name) => ({ name })) });
  const reading = (thicknessMm: number) => ({ thicknessMm });
  const figures = (more: Record<string, unknown>, assembled: Record<string, unknown> = {}) =>
    ({
      own: {
        benched: {
          reed: { label: 'K-117' },
          assembled: {
            style: style('blend'),
            controls: [],
            passes: [{ index: 0 }, { index: 3 }],
            ...assembled,
          },
        },
        pass: 1,
      },
      ...{ placed, near: [], blend: { valueMm: 4.32, uMm: 0.05 }, ...more },
    }) as unknown as ReedFigures;
  const now = (
    more: Record<string, unknown>,
    assembled?: Record<string, unknown>,
    favourite?: ReedFigures,
  ) => {
    const { say, mind, aside } = sayThereNow(figures(more, assembled), writing, favourite);
    return { say: plain(say), mind: plain(mind), aside: plain(aside) };
  };

  it('is where the blend stands, with its 95 %', () => {
    expect(now({}).say).toBe('The blend stands at 4.3 mm from the tip, ±0.1 mm.');
    expect(now({}, { style: style('tip') }).say).toBe(
      'The centre passes 30 hundredths at 4.3 mm from the tip, ±0.1 mm.',
    );
    expect(now({ blend: undefined }).say).toBe('The centre line does not pass 30 hundredths on this blade.');
  });

  it('is beside a favourite where the two can be told apart', () => {
    const at = (valueMm: number) => now({}, {}, figures({ blend: { valueMm, uMm: 0.05 } })).say;
    // hypot(0.05, 0.05) is 0.0707, 1.96 of it 0.1386.
    expect(at(4.45)).toBe('The blend stands at 4.3 mm, as on K-117 as far as can be told.');
    expect(at(4.46)).toMatch(/ nearer the tip than on K-117\.$/);
    expect(at(4.18)).toMatch(/ further from the tip than on K-117\.$/);
    expect(at(4.19)).toMatch(/as far as can be told/);
  });

  it('is what is nearest its floor', () => {
    const near = (...marginsMm: number[]) =>
      now({
        near: marginsMm.map((marginMm) => ({
          reading: { blade: 'B', fromTipMm: 10, across: 0.4 },
          marginMm,
        })),
      }).mind;
    expect(near()).toBeUndefined();
    expect(near(0.0004)).toBe('B’s right window is at its floor at 10 mm.');
    expect(near(-0.0004)).toBe('B’s right window is at its floor at 10 mm.');
    expect(near(-0.01, 0.01)).toBe(
      'B’s right window is 1 hundredth under its floor at 10 mm. One more place is near.',
    );
    expect(near(0.01, 0.02, 0.02)).toBe(
      'B’s right window is 1 hundredth above its floor at 10 mm. Two more places are near.',
    );
    expect(near(0.0006)).toMatch(/above its floor/);
  });

  it('is what untouched cane reads, and whether it moved by three quarters of a step', () => {
    const read = (first: number[], second: number[]) =>
      now({}, { controls: [first.map(reading), second.map(reading)] }).aside;
    expect(read([0.6], [])).toBeUndefined();
    expect(read([], [0.6, 0.61])).toBe('Untouched cane reads 60 and 61 hundredths.');
    expect(read([0.6], [0.6, 0.61])).toBe(
      'Untouched cane reads 60 and 61 hundredths, as in pass 0: no change seen.',
    );
    expect(read([0.6], [0.6, 0.62])).toBe(
      'Untouched cane reads 60 and 62 hundredths, 1 more than in pass 0: zero or wetness moved.',
    );
    expect(read([0.64, 0.62], [0.6])).toMatch(/^Untouched cane reads 60 hundredths, 3 less than in pass 0/);
    expect(read([0.6], [0.6076])).toMatch(/ more than /);
    expect(read([0.6], [0.6074])).toMatch(/no change seen/);
  });
});

describe('the place that lost most, or grew', () => {
  const taken = (more: Partial<TakenOff>): TakenOff => ({
    ...{ pair: { before: 2, after: 3 }, rows: [], spans: {}, byZone: {}, maps: {}, lostZones: {} },
    ...{ between: {}, patches: [], most: {}, growth: {}, mostOf: new Map(), ...more },
  });
  const minds = (more: Partial<TakenOff>) => plain(sayTakenOff(m142, taken(more), writing).mind);
  const at = (valueMm: number, fromTipMm = 10, across = 0.4) => ({ valueMm, fromTipMm, across, uMm: 0.005 });
  // Every millimetre, one column: half of 0.06 is passed from 9 to 11 mm, and again, apart, at 14.
  const ysMm = Array.from({ length: 20 }, (_, k) => k);
  const map = (lostMm: Record<number, number>, width = 1) =>
    ({
      ...{ ysMm, us: width === 1 ? [0.4] : [0, 0.4] },
      valuesMm: Float64Array.from(ysMm.flatMap((y) => [...(width === 1 ? [] : [0.06]), lostMm[y] ?? 0])),
    }) as unknown as NonNullable<TakenOff['maps']['A']>;
  const losses = { 8: 0.029, 9: 0.031, 10: 0.06, 11: 0.04, 12: 0.01, 14: 0.06 };

  it('is said with its length where it stands out from its zone', () => {
    for (const width of [1, 2])
      expect(minds({ most: { B: at(0.06) }, maps: { B: map(losses, width) } })).toBe(
        'B’s right window lost 6 at 10 mm, in one place 2 mm long.',
      );
    expect(minds({ most: { B: at(0.06) }, maps: { B: map({ 10: 0.06 }) } })).toMatch(
      /in one place 1 mm long/,
    );
    const both = { A: at(0.05), B: at(0.06) };
    expect(minds({ most: both, maps: { A: map(losses), B: map(losses) } })).toMatch(/^B’s/);
    expect(minds({ most: { ...both, A: at(0.07) }, maps: { A: map(losses), B: map(losses) } })).toMatch(
      /^A’s/,
    );
  });

  it('is not said where its zone lost half as much', () => {
    const rows = (meanMm: number, blade: 'A' | 'B' = 'B') => [
      {
        ...{ name: 'windows', title: 'Windows' },
        blades: { [blade]: { mean: { valueMm: meanMm, uMm: 0.05 }, areaMm2: 10, volumeMm3: 1, uMm3: 1 } },
      },
    ];
    const with_ = (meanMm: number, blade?: 'A' | 'B') =>
      minds({ most: { B: at(0.06) }, maps: { B: map(losses) }, rows: rows(meanMm, blade) });
    expect(with_(0.0301)).toBeUndefined();
    expect(with_(0.0299)).toMatch(/^B’s right window lost 6/);
    expect(with_(0.05, 'A')).toMatch(/^B’s right window lost 6/);
  });

  it('is growth, blade by blade, before any loss', () => {
    const growth = { A: at(0.02, 6, 0), B: at(0.03, 8, -0.4) };
    expect(minds({ growth, most: { B: at(0.06) }, maps: { B: map(losses) } })).toMatch(
      /^A reads 2 hundredths thicker at 6 mm, .* and B reads 3 hundredths thicker at 8 mm, .*\. Cane does not grow: look for a fault in the readings\.$/,
    );
    expect(minds({})).toBeUndefined();
  });
});

it('what is asked of passes is listed once for each kind', () => {
  const faults = (...kinds: Fault['kind'][]) => ({ faults: kinds.map((kind) => ({ kind })) });
  const found = [faults('zero', 'increase'), faults('zero', 'clip'), faults('increase')];
  const open = (...passes: number[]) => questionOpen({ found } as never, passes);
  expect(open(0, 1)).toBe('had the gauge’s zero moved? and was a clip not entered?');
  expect(open(2)).toBeUndefined();
  expect(open(7)).toBeUndefined();
  expect(questionOpen({} as never, [0])).toBeUndefined();
});
