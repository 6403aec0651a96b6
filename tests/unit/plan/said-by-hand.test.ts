import { describe, expect, it } from 'vitest';
import { USUAL_CANE } from '../../../src/cane/original-cane.ts';
import type { ClipPreview } from '../../../src/plan/clip-preview.ts';
import { sayWay, type InWay } from '../../../src/plan/compare-in-way.ts';
import type { Done } from '../../../src/plan/meant-and-done.ts';
import { pastPlans, sayPastPlans } from '../../../src/plan/past-plans.ts';
import { sayClosest } from '../../../src/plan/say-closest.ts';
import { sayDone } from '../../../src/plan/say-done.ts';
import { habitsFor, sayOrder, type ZoneSeen } from '../../../src/plan/signs.ts';
import type { Sign } from '../../../shared/habit.ts';

const writing = { unit: 'hundredths', decimal: 'point' } as const;
const plain = (words: string) => words.replaceAll('\u00a0', ' ');

describe('how well plans told what would go', () => {
  const row = (meantMm: number, doneMm: number, uMm: number) =>
    ({ meantMm, done: { valueMm: doneMm, uMm } }) as Done;
  // Apart by 0.01, -0.005, 0.004: mean 0.003, squares about it 49, 64 and 1 millionths: their half is 57.
  const rows = [row(0.02, 0.03, 0.005), row(0.03, 0.025, 0.0026), row(0.01, 0.014, 0.003)];
  const past = pastPlans(rows)!;

  it('is their mean, their scatter and their share', () => {
    expect(past.count).toBe(3);
    expect(past.biasMm).toBeCloseTo(0.003, 12);
    expect(past.scatterMm).toBeCloseTo(Math.sqrt(57e-6), 12);
    expect(past.share).toBeCloseTo(0.069 / 0.06, 12);
  });

  it('counts what lies within 1.96 of its own standard uncertainties', () => {
    // 0.01 of 0.0098, 0.005 of 0.0051, 0.004 of 0.0059.
    expect(past.within).toBe(2);
    expect(pastPlans([row(0.02, 0.03, 0.0052), ...rows.slice(1)])!.within).toBe(3);
  });

  it('is told from three on, in a sentence', () => {
    expect(pastPlans(rows.slice(1))).toBeUndefined();
    expect(sayPastPlans(undefined, writing)).toMatch(/^Too few plans/);
    expect(plain(sayPastPlans(past, writing))).toBe(
      'Over 3 pieces of work 115 % of what was meant went; one alone strays by about 1 hundredth, and 2 of 3 lay within their doubt of what was meant.',
    );
  });
});

describe('what was done of a plan', () => {
  const row = (title: string, verdict: Done['verdict'], side: Done['side'] = 'both') =>
    ({ title, verdict, side, blade: 'A' }) as Done;

  it('is said by what became of it', () => {
    expect(sayDone([])).toBe('Nothing was meant.');
    const rows = [
      row('Tip', 'less'),
      row('Heart', 'as meant', 'left'),
      row('Blend', 'more'),
      row('Rails', 'as meant'),
    ];
    expect(sayDone([...rows, row('Spine', 'not measurable')])).toBe(
      'As meant at A’s left heart and A’s rails; more than meant at A’s blend; less than meant at A’s tip; too little to tell at A’s spine.',
    );
  });
});

describe('the closest version of a favourite', () => {
  const after = (lackMm: number, excessMm: number) =>
    ({ lack: { valueMm: lackMm, uMm: 0.001 }, excess: { valueMm: excessMm, uMm: 0.0026 } }) as ClipPreview;
  const said = (clipMm: number, offsetMm: number) =>
    plain(
      sayClosest(
        { clipMm, offsetMm, lackMm: 0, excessMm: 0, misfit: 0 },
        ...([after(0.02, 0.03), after(0.005, 0.04)] as const),
        'K-117',
        writing,
      ),
    );

  it('is itself within 0.003 mm, or thinner or thicker, with what a clip costs', () => {
    const lack =
      'What is under it falls from 2 hundredths (±0.2) on average to 0.5 hundredths (±0.2), and 4 hundredths (±0.5) on average is to be scraped.';
    expect(said(0, 0.0029)).toBe(
      `The closest that can be reached: K-117 itself, with no clip. ${lack} A clip would bring it no nearer.`,
    );
    expect(said(0.3, -0.0031)).toBe(
      `The closest that can be reached: K-117 0.5 hundredths thinner everywhere, with a clip of 0.30 mm. ${lack} The price: a shorter tip, and a clip is the one act that nothing undoes.`,
    );
    expect(said(0, 0.0031)).toMatch(/hundredths thicker everywhere/);
  });
});

describe('a way of comparing', () => {
  const said = (more: Partial<InWay>) =>
    plain(sayWay({ target: { name: 'K-117' }, ...more } as InWay, writing));
  const read = { ...USUAL_CANE, from: 'readings' as const };

  it('says at what share, to its 95 %', () => {
    expect(said({ way: 'shape', factor: { value: 1.042, u: 0.0102 } })).toBe(
      'This is K-117 at 104 % (±2.0); what is shown is what differs in shape.',
    );
    expect(said({ way: 'plain' })).toBe('Thickness against thickness.');
  });

  it('says where a gouge is a usual one, of either', () => {
    const share = 'The same share of the cane before scraping is sought at every place.';
    expect(said({ way: 'share', canes: [read, read] })).toBe(share);
    for (const canes of [
      [USUAL_CANE, read],
      [read, USUAL_CANE],
    ] as const)
      expect(said({ way: 'share', canes })).toBe(
        `${share} Where no gouge is written down, a usual one is assumed: common practice.`,
      );
  });
});

describe('what the figures of a reed show where a row says to look', () => {
  const mean = { valueMm: 0.46, uMm: 0.0025 };
  const beside = (valueMm: number, spreadMm = 0) =>
    ({
      own: { valueMm: 0.47, uMm: 0.0025 },
      difference: { valueMm, uMm: 0.005 },
      spreadMm,
    }) as NonNullable<ZoneSeen['beside']>;
  const shown = (is: Sign['is'], zone: Partial<ZoneSeen>) => {
    const zones = [{ name: 'heart', title: 'Heart', mean, ...zone } as ZoneSeen];
    const habit = { key: 'one', symptom: '', lookAt: '', action: '', signs: [{ zone: 'heart', is }] };
    const [row] = habitsFor([habit as never], { towards: 'K-117', zones }, writing);
    return row!.shown.map(({ words, speaks }) => [plain(words), speaks])[0]!;
  };

  it('is its mean, and how far that is from what it is brought to', () => {
    expect(shown('over', {})).toEqual(['Heart: mean 46.0 ±0.5 hundredths', false]);
    // 1.96 times 0.005 is 0.0098.
    expect(shown('over', { beside: beside(0.0099) })).toEqual([
      'Heart: mean 47.0 ±0.5 hundredths, 1.0 ±1.0 over K-117',
      true,
    ]);
    expect(shown('over', { beside: beside(0.0097) })).toEqual([
      'Heart: mean 47.0 ±0.5 hundredths, no sure difference from K-117',
      false,
    ]);
    expect(shown('over', { beside: beside(0.02, 0.021) })[1]).toBe(false);
    expect(shown('under', { beside: beside(0.02) })[1]).toBe(false);
    expect(shown('under', { beside: beside(-0.02) })).toEqual([
      'Heart: mean 47.0 ±0.5 hundredths, 2.0 ±1.0 under K-117',
      true,
    ]);
    expect(shown('over', { beside: beside(-0.02) })[1]).toBe(false);
  });

  it('is a reading at its floor, or under it, by half a step of a usual dial', () => {
    const at = (toFloorMm: number) => shown('under', { toFloorMm });
    expect(at(0.0026)).toEqual(['Heart: mean 46.0 ±0.5 hundredths', false]);
    expect(at(0.0024)).toEqual(['Heart: mean 46.0 ±0.5 hundredths, a reading at its floor', true]);
    expect(at(-0.0024)[0]).toMatch(/a reading at its floor$/);
    expect(at(-0.0026)[0]).toMatch(/a reading under its floor$/);
    expect(shown('over', { toFloorMm: -0.01 })).toEqual(['Heart: mean 46.0 ±0.5 hundredths', false]);
  });

  it('is the contrast that stands out most, told apart where it does among three', () => {
    const balance = (hand: number, side: number, blade: number) => ({
      balance: Object.fromEntries(
        Object.entries({ hand, side, blade }).map(([name, valueMm]) => [name, { valueMm, uMm: 0.004 }]),
      ) as unknown as ZoneSeen['balance'],
    });
    expect(shown('uneven', balance(0.002, -0.02, 0.005) as Partial<ZoneSeen>)).toEqual([
      'Heart: side 1 less side 2 -2.0 ±0.8 hundredths, can be told apart'.replace('-', '\u2212'),
      true,
    ]);
    const [words, speaks] = shown('uneven', balance(0.001, 0.002, 0.004) as Partial<ZoneSeen>);
    expect(words).toMatch(/^Heart: A less B .*, cannot be told apart for sure$/);
    expect(speaks).toBe(false);
    expect(shown('uneven', {})).toEqual(['Heart: only one blade is read', false]);
  });

  it('is nothing of a zone that was not read, or that the style does not have', () => {
    const { mean: _, ...unread } = { name: 'heart', title: 'Heart', mean };
    const habit = {
      key: 'one',
      signs: [
        { zone: 'heart', is: 'over' },
        { zone: 'nowhere', is: 'over' },
      ],
    };
    const [row] = habitsFor([habit as never], { zones: [unread as ZoneSeen] }, writing);
    expect(row!.shown).toEqual([{ words: 'Heart: not read', speaks: false }]);
  });

  it('counts rows that speak', () => {
    const rows = (speaks: number, silent: number) =>
      [...Array(speaks).fill({ speaks: true }), ...Array(silent).fill({ speaks: false })] as Parameters<
        typeof sayOrder
      >[0];
    expect(sayOrder(rows(0, 2))).toMatch(/^The figures of this reed speak for no row/);
    expect(sayOrder(rows(1, 2))).toMatch(/^One row comes first/);
    expect(sayOrder(rows(2, 0))).toMatch(/^2 rows come first/);
  });
});
