import { describe, expect, it } from 'vitest';
import { BLADES } from '../../../shared/blade.ts';
import { benchReed, zonesAt } from '../../../src/answers/fitted-reed.ts';
import { originalCane, USUAL_CANE } from '../../../src/cane/original-cane.ts';
import { combine, estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { mapGrid } from '../../../src/figures/surface-map.ts';
import { zoneFigures } from '../../../src/figures/zone-figures.ts';
import { previewClip } from '../../../src/plan/clip-preview.ts';
import { compareInWay, sayWay } from '../../../src/plan/compare-in-way.ts';
import { compare } from '../../../src/plan/compare.ts';
import { handTarget, usualTarget } from '../../../src/plan/hand-target.ts';
import { makeTarget } from '../../../src/plan/make-target.ts';
import { nearestPlace, targetMean, zonePlaces } from '../../../src/plan/place-means.ts';
import { sayCompared, sayDistance } from '../../../src/plan/say-compared.ts';
import {
  hybridTarget,
  offsetTarget,
  scaledTarget,
  targetFromReed,
  targetFromSeveral,
} from '../../../src/plan/target.ts';
import { targetCrossing } from '../../../src/plan/target-crossing.ts';
import { commonFactor, inOwnCane, inOwnScale } from '../../../src/plan/ways.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const writing = { unit: 'hundredths', decimal: 'point' } as const;
const grid = mapGrid(23, 51, 31);
const k117 = { benched: scenarioReed('K-117'), pass: 0 };
const m142 = { benched: scenarioReed('M-142'), pass: 3 };
const favourite = targetFromReed(k117, grid);
const zoneOf = (compared: ReturnType<typeof compare>, name: string) =>
  compared.zones.find((zone) => zone.name === name)!;

describe('M-142 beside K-117', () => {
  const compared = compare(m142, favourite);

  // Means over stations of the rounded readings, from the invented scenario: a surface's mean over the zone's area
  // lies near them, but stations are no area: the spine of the zone goes on to 20 mm, where cane is thicker, and that of the
  // clipped M-142 to 19.6; the windows have round ends.
  it.each<[string, number, number?]>([
    ['corners', 0.005],
    ['tip', 0.012],
    ['blend', 0.035],
    ['heart', 0.019],
    ['spine', 0.042, 0.014],
    ['windows', 0.005],
    ['rails', 0.037],
  ])('differs at the %s by about %f mm', (name, expectedMm, withinMm = 0.012) => {
    expect(Math.abs(zoneOf(compared, name).difference.valueMm - expectedMm)).toBeLessThan(withinMm);
  });

  it('shows the same zone means as each reed shows alone', () => {
    for (const zone of zonesAt(m142.benched, 3).slice(0, 6)) {
      const row = zoneOf(compared, zone.name);
      const own = zoneFigures(m142.benched.model!, 3, zone).mean!;
      expect(row.own).toEqual(own);
      expect(row.share).toBeCloseTo(1, 6);
    }
  });

  it('puts the blend half a millimetre nearer the tip and says what is over', () => {
    const blend = compared.crossings.find(({ thicknessMm }) => thicknessMm === 0.3)!;
    // 3.70 against 4.23 by straight interpolation between the readings.
    expect(Math.abs(blend.own!.valueMm - blend.other!.valueMm + 0.53)).toBeLessThan(0.1);
    expect(sayCompared(compared, writing).say).toMatch(
      /nearer the tip than on K-117\. Thicker than K-117: .*\shundredths/,
    );
  });

  it('gives a distance near that of the readings, and says that it is no quality', () => {
    // 0.029 over 130 stations, which crowd at the tip where the two are most alike.
    expect(Math.abs(compared.distance!.rmsMm - 0.029)).toBeLessThan(0.006);
    expect(sayDistance(compared.distance!, writing)).toMatch(/not which is the better/);
  });

  it('notes another lot where it differs', () => {
    const other = { ...k117, benched: { ...k117.benched, reed: { ...k117.benched.reed, lotId: 'other' } } };
    expect(compare(m142, targetFromReed(other, grid)).notes).toEqual(['Another lot of cane.']);
    const readings = [-4.3, 0, 4.3].map((arcMm) => ({
      ...{ alongMm: 37, arcMm, thicknessMm: arcMm === 0 ? 0.57 : 0.45 },
    }));
    const thin = originalCane({ readings });
    const gouges = compare(m142, targetFromReed(other, grid), {
      caneOf: ({ lotId }) => (lotId ? thin : USUAL_CANE),
    });
    expect(gouges.notes).toContain('Another gouge.');
  });

  it.each([
    ['shape', { shapeId: 'other' }, 'Another shape.'],
    ['length of staple', { staple: { lengthMm: 46 } }, 'Another staple.'],
    ['bore of staple', { staple: { ...m142.benched.reed.staple, boreClass: 'wide' } }, 'Another staple.'],
  ])('notes another %s where it differs', (_, own, note) => {
    const alike = { ...k117.benched.reed, lotId: undefined, ...m142.benched.reed };
    const reed = { ...alike, ...own } as typeof alike;
    expect(
      compare(m142, targetFromReed({ ...k117, benched: { ...k117.benched, reed } }, grid)).notes,
    ).toEqual([note]);
  });
});

describe('a favourite of which only the upper half was read', () => {
  const { reed, passes } = k117.benched;
  const upper = passes.map((pass) => ({
    ...pass,
    readings: pass.readings.filter(({ fromTipMm }) => fromTipMm <= 8),
  }));
  const half = targetFromReed({ benched: benchReed(reed, upper), pass: 0 }, grid);
  const compared = compare(m142, half);

  it('says nothing below what was read', () => {
    expect(compared.zones.map(({ name }) => name)).not.toContain('spine');
    const { valuesMm, sure } = compared.excess.B!;
    grid.ysMm.forEach((y, row) => {
      if (y < 10.2) return;
      for (let column = 0; column < grid.us.length; column++) {
        expect(valuesMm[row * grid.us.length + column]).toBeNaN();
        expect(sure[row * grid.us.length + column]).toBe(0);
      }
    });
  });

  it('is enough for the tip of a hybrid', () => {
    const mixed = compare(m142, hybridTarget(half, favourite, 6, 2));
    const spine = zoneOf(mixed, 'spine');
    // Both over the places of M-142's spine, which was clipped and ends before that of K-117.
    const whole = compare(m142, hybridTarget(favourite, favourite, 6, 2));
    expect(spine.other.valueMm).toBeCloseTo(zoneOf(whole, 'spine').other.valueMm, 9);
  });
});

describe('targets of several', () => {
  const thicker = scaledTarget(offsetTarget(favourite, 0.02), () => 1);
  const several = targetFromSeveral('three', [favourite, favourite, thicker]);

  it('have the mean of their parts, in zones and in crossings', () => {
    // Of reeds that are mixed the places of this reed's zone are taken, of one alone its own zone.
    const alone = compare(m142, targetFromSeveral('twice', [favourite, favourite]));
    const compared = compare(m142, several);
    expect(zoneOf(compared, 'heart').other.valueMm).toBeCloseTo(
      zoneOf(alone, 'heart').other.valueMm + 0.02 / 3,
      9,
    );
    expect(targetCrossing(several, 0.3)!.valueMm).toBeLessThan(targetCrossing(favourite, 0.3)!.valueMm);
  });

  it('mark as within the own variety what their spread covers', () => {
    const spine = zoneOf(compare(m142, several), 'spine');
    expect(spine.spreadMm).toBeGreaterThan(0.005);
    const inside = targetFromSeveral('wide', [favourite, offsetTarget(favourite, 0.09)]);
    const { sure, withinVariety } = compare(m142, inside).excess.A!;
    expect(withinVariety.some((yes) => yes === 1)).toBe(true);
    sure.forEach((yes, i) => expect(yes === 1 && withinVariety[i] === 1).toBe(false));
  });
});

it('finds where a target reaches a thickness in the last tenth of its length, too', () => {
  const { model } = k117.benched;
  const [fromTipMm, lengthMm] = [21.02, 21.05];
  const target = targetFromReed(k117, mapGrid(lengthMm, 51, 31));
  const centre = (derivative?: 'along') =>
    estimate(
      model!,
      combine(
        BLADES.map((blade) => [
          0.5,
          pointFunctional(model!, {
            blade,
            pass: 0,
            fromTipMm,
            across: 0,
            ...(derivative && { derivative }),
          }),
        ]),
      ),
    );
  const found = targetCrossing(target, centre().valueMm)!;
  expect(found.valueMm).toBeCloseTo(fromTipMm, 6);
  // By the delta method: the doubt of the thickness by its slope.
  expect(found.uMm / (centre().uMm / centre('along').valueMm)).toBeCloseTo(1, 1);
});

describe('targets without an example', () => {
  const { assembled } = m142.benched;
  const blade = { style: assembled.style, frame: assembled.frame, grid };
  const zones = zonesAt(m142.benched, 3);
  const geometry = assembled.passes[3]!;

  it('hold each zone mean exactly as it was set, also where zones overlap', () => {
    const aims = [
      { name: 'corners', meanMm: 0.07 },
      { name: 'tip', meanMm: 0.115 },
      { name: 'heart', meanMm: 0.44 },
    ];
    const target = handTarget('mine', blade, geometry, zones, aims);
    for (const { name, meanMm } of aims) {
      const { places } = zonePlaces(
        target,
        zones.find((zone) => zone.name === name)!,
        geometry,
      );
      expect(targetMean(target, places).valueMm).toBeCloseTo(meanMm, 9);
    }
    expect(compare(m142, target).zones.map(({ name }) => name)).not.toContain('spine');
    expect(() => handTarget('mine', blade, geometry, zones, [{ name: 'collar', meanMm: 0.5 }])).toThrow(
      'there is no collar',
    );
  });

  it('stand for common practice by name, and end where nothing usual is known', () => {
    const usual = usualTarget(blade);
    expect(usual).toMatchObject({ from: 'common practice', name: 'what is usual for a long scrape' });
    const heart = zoneOf(compare(k117, usual), 'heart');
    expect(Math.abs(heart.difference.valueMm)).toBeLessThan(0.03);
    expect(usual.blades.A!.meanMm.at(-1)).toBeNaN();
  });

  it('are made from their recipes', () => {
    const make = (recipe: Parameters<typeof makeTarget>[0]['recipe'], placing: 'tip' | 'lengths' = 'tip') =>
      makeTarget({ recipe, placing, reeds: [k117.benched] }, m142, grid);
    const example = { reedId: k117.benched.reed.id, passIndex: 0 };
    expect(make({ from: 'style' }).from).toBe('common practice');
    expect(make({ from: 'zones', zones: [{ name: 'heart', meanMm: 0.45 }] }).from).toBe('by hand');
    expect(make({ from: 'reeds', examples: [example] }).name).toBe('K-117');
    expect(make({ from: 'reeds', examples: [example, example] }).from).toBe('several reeds');
    const hybrid = make({ from: 'tip-and-back', tip: example, back: example, atMm: 5, overMm: 2 });
    expect(hybrid.blades.A!.meanMm[40]).toBeCloseTo(favourite.blades.A!.meanMm[40]!, 12);
    // Both reeds have the style's own lengths, so that zones lie on each other already.
    const laid = make({ from: 'reeds', examples: [example] }, 'lengths');
    expect(laid.blades.A!.meanMm[300]).toBeCloseTo(favourite.blades.A!.meanMm[300]!, 12);
  });
});

describe('ways to compare', () => {
  it('find the factor by which one reed is another', () => {
    const factor = commonFactor(
      k117,
      scaledTarget(favourite, () => 1.04),
    );
    expect(factor.value).toBeCloseTo(1 / 1.04, 9);
    expect(factor.u).toBeLessThan(0.02);
    const shape = compare(
      k117,
      inOwnScale(
        scaledTarget(favourite, () => 1.04),
        factor,
      ),
    );
    for (const zone of shape.zones) expect(Math.abs(zone.difference.valueMm)).toBeLessThan(1e-9);
  });

  it('say at what share of a favourite a reed stands', () => {
    const thin = scaledTarget(favourite, () => 1 / 1.04);
    expect(
      sayWay(
        compareInWay(k117, thin, 'shape', () => undefined),
        writing,
      ),
    ).toMatch(/^This is K-117 at 104\s% \(±\d\.\d\); what is shown is what differs in shape\.$/);
  });

  it('call a reed of thicker cane the same when the same share is left everywhere', () => {
    const share = inOwnCane(
      scaledTarget(favourite, (_, u) => 1 / (1.1 - 0.05 * Math.abs(u))),
      (_, u) => 0.59 * (1.1 - 0.05 * Math.abs(u)),
      () => 0.59,
    );
    for (const zone of compare(k117, share).zones)
      expect(Math.abs(zone.difference.valueMm)).toBeLessThan(1e-9);
  });
});

describe('the cane before scraping', () => {
  it('falls to the sides as two circles do', () => {
    // 0.58, 0.54 and 0.46 at 1.4, 2.8 and 4.5 mm along the arc: plane geometry, rounded to a hundredth.
    const at = (halfWidthMm: number) =>
      USUAL_CANE.thicknessAt({ blade: 'A', across: 1, halfWidthMm }).valueMm;
    expect([1.4, 2.8, 4.5].map((arc) => Math.round(at(arc) * 100))).toEqual([58, 54, 46]);
  });

  it('counts where it was gouged uneven: equal shares of unequal sides are no equal thicknesses', () => {
    // Side 1, left on A and right on B, was gouged 0.05 mm thicker 4.3 mm from the middle.
    const uneven = originalCane({
      readings: [
        { alongMm: 37, arcMm: -4.3, thicknessMm: 0.495 },
        { alongMm: 37, arcMm: 0, thicknessMm: 0.59 },
        { alongMm: 37, arcMm: 4.3, thicknessMm: 0.445 },
      ],
    });
    const favourite = targetFromReed(k117, grid);
    const { target } = compareInWay(k117, favourite, 'share', (reed) =>
      reed === k117.benched.reed ? uneven : undefined,
    );
    // The favourite is the same reed: its own cane stands for both.
    const at = nearestPlace(grid, 10, 0.8);
    expect(target.blades.A!.meanMm[at]).toBeCloseTo(favourite.blades.A!.meanMm[at]!, 12);
    const other = { ...k117, benched: { ...k117.benched, reed: { ...k117.benched.reed } } };
    const scaled = compareInWay(other, favourite, 'share', (reed) =>
      reed === other.benched.reed ? uneven : undefined,
    ).target;
    const factor = (blade: 'A' | 'B', across: number) => {
      const i = nearestPlace(grid, 18, across);
      return scaled.blades[blade]!.meanMm[i]! / favourite.blades[blade]!.meanMm[i]!;
    };
    expect(factor('A', -0.8)).toBeGreaterThan(1.02);
    expect(factor('A', 0.8)).toBeLessThan(0.98);
    expect(factor('B', -0.8)).toBeCloseTo(factor('A', 0.8), 12);
    expect(factor('B', 0.8)).toBeCloseTo(factor('A', -0.8), 12);
  });
});

describe('a clip before it is cut', () => {
  const now = previewClip(m142, favourite, 0);
  const later = previewClip(m142, favourite, 0.3);

  it('of nothing is the comparison itself', () => {
    const compared = compare(m142, favourite);
    for (const { name, difference } of now.zones) {
      expect(difference.valueMm).toBeCloseTo(zoneOf(compared, name).difference.valueMm, 9);
      expect(difference.uMm).toBeCloseTo(zoneOf(compared, name).difference.uMm, 9);
    }
  });

  it('brings every crossing nearer by its length, and the tip zone thicker cane', () => {
    now.crossings.forEach(({ at }, i) =>
      expect(at!.valueMm - later.crossings[i]!.at!.valueMm).toBeCloseTo(0.3, 9),
    );
    const tip = (preview: typeof now) => preview.zones.find(({ name }) => name === 'tip')!.own.valueMm;
    expect(tip(later)).toBeGreaterThan(tip(now));
  });

  it('splits the mean difference into what is over and what is under, each with its doubt', () => {
    for (const { excess, lack, maps } of [now, later]) {
      const all = Object.values(maps).flatMap(({ valuesMm }) => [...valuesMm].filter(Number.isFinite));
      const mean = all.reduce((sum, value) => sum + value, 0) / all.length;
      expect(excess.valueMm - lack.valueMm).toBeCloseTo(mean, 9);
      expect(excess.uMm).toBeGreaterThan(0);
      expect(excess.valueMm).toBeGreaterThan(0);
      expect(lack.valueMm).toBeGreaterThan(0);
    }
  });

  it('names the worst lack with the doubt of its place', () => {
    for (const { worstLack, maps } of [now, later]) {
      const places = Object.values(maps).flatMap(({ valuesMm, uMm, sure }) =>
        [...valuesMm.keys()]
          .filter((i) => sure[i] === 1)
          .map((i) => ({ valueMm: -valuesMm[i]!, uMm: uMm[i]! })),
      );
      const worst = places.reduce((most, one) => (one.valueMm > most.valueMm ? one : most));
      expect(worstLack).toEqual(worst);
      expect(worst.valueMm).toBeGreaterThan(1.96 * worst.uMm);
    }
    const beside = previewClip(k117, offsetTarget(favourite, -0.05), 0);
    expect(beside.worstLack).toBeUndefined();
  });
});
