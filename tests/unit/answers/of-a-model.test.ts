import { describe, expect, it } from 'vitest';
import type { Strokes } from '../../../shared/pass.ts';
import { expectationAt } from '../../../src/answers/expectation.ts';
import { isInZone } from '../../../src/blade/zones.ts';
import { benchReed, zonesAt } from '../../../src/answers/fitted-reed.ts';
import { outsideMeant } from '../../../src/answers/outside-meant.ts';
import { probeWords } from '../../../src/answers/probe-words.ts';
import { readNext } from '../../../src/answers/read-next.ts';
import { takenOff } from '../../../src/answers/taken-off.ts';
import { combine, estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { meanRemovedOver } from '../../../src/figures/removed.ts';
import { slopeAt } from '../../../src/figures/slopes.ts';
import { meanOver, zoneArea } from '../../../src/figures/zone-mean.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const writing = { unit: 'hundredths', decimal: 'point' } as const;
const k117 = scenarioReed('K-117');
const m142 = scenarioReed('M-142');
type Read = (typeof k117.passes)[number]['readings'][number];

/** K-117 after one pass more, which read what the first did but for so much. */
function after(lostMm: (at: Read) => number | undefined, places: readonly Strokes[] = []) {
  const [first] = k117.passes;
  const readings = first!.readings.flatMap((at) => {
    const lost = lostMm(at);
    return lost === undefined ? [] : [{ ...at, thicknessMm: at.thicknessMm! - lost }];
  });
  const next = { ...first!, index: 1, readings, ...(places.length > 0 && { scrape: { places } }) };
  return benchReed(k117.reed, [first!, next as typeof first & object]);
}
const patch = (blade: string, sign: 1 | -1, mm: number) => (at: Read) =>
  at.blade === blade && sign * at.across > 0 && at.fromTipMm >= 8 && at.fromTipMm <= 12 ? mm : 0;

describe('what a pass took', () => {
  const benched = after((at) => patch('A', -1, 0.06)(at) - patch('B', 1, 0.07)(at));
  const taken = takenOff(benched, { before: 0, after: 1 });

  it('is most where it was planted, and growth on the other blade', () => {
    expect(Object.keys(taken.most)).toEqual(['A']);
    expect(Object.keys(taken.growth)).toEqual(['B']);
    for (const [{ fromTipMm, across }, sign] of [
      [taken.most.A!, -1],
      [taken.growth.B!, 1],
    ] as const) {
      expect(fromTipMm).toBeGreaterThanOrEqual(8);
      expect(fromTipMm).toBeLessThanOrEqual(12);
      expect(sign * across).toBeGreaterThan(0.2);
    }
  });

  it('is most of each zone that surely lost, on the blade that lost', () => {
    const windows = taken.mostOf.get('windows')!;
    expect(windows).toMatchObject({ blade: 'A', valueMm: expect.any(Number) as number });
    const zone = zonesAt(benched, 1).find(({ name }) => name === 'windows')!;
    expect(zone.name).toBe('windows');
    expect(windows.valueMm).toBeLessThanOrEqual(taken.most.A!.valueMm);
    expect(taken.mostOf.get('tip')).toBeUndefined();
    expect(taken.patches.map(({ blade }) => blade)).toEqual(['A']);
    expect(taken.lostZones.B).toEqual([]);
  });

  it('has no map of a blade that the pass did not read, nor its zones', () => {
    const only = after((at) => (at.blade === 'A' ? patch('A', -1, 0.06)(at) : undefined));
    const one = takenOff(only, { before: 0, after: 1 });
    expect([Object.keys(one.maps), Object.keys(one.most)]).toEqual([['A'], ['A']]);
    for (const { blades } of one.rows) expect(Object.keys(blades)).not.toContain('B');
  });
});

describe('what went outside what was meant', () => {
  const lost = (at: Read) => patch('A', -1, 0.06)(at) + patch('B', 1, 0.05)(at);
  const strokes = (zone: string, blade: Strokes['blade'], side: Strokes['side']): Strokes => ({
    zone,
    blade,
    side,
  });
  const outside = (...places: Strokes[]) => {
    const benched = after(lost, places);
    const found = outsideMeant(benched, takenOff(benched, { before: 0, after: 1 }));
    if (typeof found === 'string') throw new Error(found);
    return { found, benched };
  };
  const volumeOf = (
    benched: ReturnType<typeof after>,
    isIn: (zone: string, blade: string, side: string) => boolean,
  ) =>
    zonesAt(benched, 1).reduce((sum, zone) => {
      const halves = (['left', 'right'] as const).flatMap((side) =>
        (['A', 'B'] as const).map((blade) => {
          const area = zoneArea(zone, benched.model!.passes[1]!, side);
          const mean = meanRemovedOver(benched.model!, { before: 0, after: 1 }, blade, area);
          return mean && isIn(zone.name, blade, side)
            ? area.areaMm2 * estimate(benched.model!, mean).valueMm
            : 0;
        }),
      );
      return sum + halves.reduce((a, b) => a + b, 0);
    }, 0);

  it('is the volume of the halves that were not written down, and the place that lost most of them', () => {
    const zones = zonesAt(k117, 0).map(({ title }) => strokes(title, 'A', 'left'));
    const { found, benched } = outside(...zones, strokes('rails', 'both', 'both'));
    const isMeant = (zone: string, blade: string, side: string) =>
      zone === 'rails' || (blade === 'A' && side === 'left');
    expect(found.allMm3).toBeCloseTo(
      volumeOf(benched, () => true),
      9,
    );
    expect(found.volumeMm3).toBeCloseTo(
      volumeOf(benched, (...half) => !isMeant(...half)),
      9,
    );
    expect(found.uMm3).toBeGreaterThan(0);
    const { blade, fromTipMm, across } = found.most!;
    const inside = zonesAt(benched, 1).filter((zone) => isInZone(zone, fromTipMm, across));
    const side = across < 0 ? 'left' : 'right';
    expect(inside.filter(({ name }) => isMeant(name, blade, side))).toEqual([]);
  });

  it('is the meant blade where its other side was meant', () => {
    const { most } = outside(
      strokes('windows', 'A', 'right'),
      strokes('windows', 'B', 'right'),
      strokes('rails', 'B', 'both'),
    ).found;
    expect(most!.blade).toBe('A');
    expect(most!.across).toBeLessThan(0);
  });

  it('cannot be told of two passes at once, without strokes, or of a place that the style does not know', () => {
    const benched = after(lost, [strokes('the top', 'A', 'left')]);
    expect(outsideMeant(benched, takenOff(benched, { before: 0, after: 1 }))).toMatch(/“the top”/);
    const plain = after(lost);
    expect(outsideMeant(plain, takenOff(plain, { before: 0, after: 1 }))).toMatch(/^No strokes/);
    expect(outsideMeant(m142, takenOff(m142, { before: 1, after: 3 }))).toMatch(
      /^Strokes are written down for one/,
    );
  });
});

describe('what a new pass may be expected to read', () => {
  const { overallLengthMm, bladeLengthMm } = m142.model!.passes.at(-1)!;
  const place = { blade: 'A', fromTipMm: 8, across: 0.4 } as const;
  const surface = (fromTipMm: number) =>
    estimate(m142.model!, pointFunctional(m142.model!, { ...place, pass: 3, fromTipMm }));

  it('is the surface less a hundredth, with the scatter of a knife and of a reading', () => {
    const { valueMm, sdMm } = expectationAt(m142, place, undefined)!;
    expect(valueMm).toBeCloseTo(surface(8).valueMm - 0.01, 9);
    expect(sdMm).toBeCloseTo(Math.hypot(surface(8).uMm, 0.02, 0.008), 9);
  });

  it('is that of the same cane after a clip, and what it read there, within 0.15 mm', () => {
    const clipped = expectationAt(m142, place, overallLengthMm - 0.4)!;
    expect(clipped.valueMm).toBeCloseTo(surface(8.4).valueMm - 0.01, 9);
    expect(clipped.lastTimeMm).toBeUndefined();
    const read = m142.passes[3]!.readings.find(
      ({ blade, fromTipMm, across }) => blade === 'A' && fromTipMm === 8 && across === 0.4,
    )!;
    for (const mm of [0.14, -0.14]) {
      const near = expectationAt(m142, { ...place, fromTipMm: 8 + mm }, undefined)!;
      expect(near.lastTimeMm).toBe(read.thicknessMm);
    }
    expect(expectationAt(m142, { ...place, fromTipMm: 8.16 }, undefined)!.lastTimeMm).toBeUndefined();
    expect(expectationAt(m142, { ...place, across: 0.3 }, undefined)!.lastTimeMm).toBeUndefined();
  });

  it('is nothing beyond the blade', () => {
    const at = (fromTipMm: number, length?: number) => expectationAt(m142, { ...place, fromTipMm }, length);
    expect(at(0, overallLengthMm + 0.1)).toBeUndefined();
    expect(at(0, overallLengthMm)).toBeDefined();
    expect(at(bladeLengthMm + 0.01)).toBeUndefined();
    expect(at(bladeLengthMm - 0.01)).toBeDefined();
    expect(expectationAt(benchReed(m142.reed, []), place, undefined)).toBeUndefined();
  });
});

it('where to read next sharpens the mean of a zone, worth it from a tenth on', () => {
  const next = readNext(k117, 0, 'heart')!;
  const model = k117.model!;
  const area = zoneArea(
    zonesAt(k117, 0).find(({ name }) => name === 'heart')!,
    model.passes[0]!,
  );
  const both = (['A', 'B'] as const).map((blade) => [0.5, meanOver(model, blade, 0, area)!] as const);
  const { uMm } = estimate(model, combine(both));
  expect(next.uMm).toBeCloseTo(uMm, 12);
  expect(next.places).toHaveLength(4);
  next.places.forEach((place, i) => expect(place.uMm).toBeLessThanOrEqual(next.places[i - 1]?.uMm ?? uMm));
  const deepest = Math.max(...k117.passes[0]!.readings.map(({ fromTipMm }) => fromTipMm));
  for (const { fromTipMm, where } of next.places) {
    expect(fromTipMm).toBeLessThanOrEqual(deepest);
    expect(where).toMatch(/^[AB]’s .*[a-z]$/);
  }
  for (const zone of ['tip', 'heart']) {
    const { places, uMm: now, isWorthIt } = readNext(k117, 0, zone)!;
    expect(isWorthIt).toBe(places[3]!.uMm <= 0.9 * now);
  }
  expect(readNext(k117, 0, 'nowhere')).toBeUndefined();
});

it('a probe says how steep a place is, and whether that can be told', () => {
  const slope = (fromTipMm: number, across: number) => {
    const said = probeWords(k117, 0, { blade: 'A', fromTipMm, across }, 'slope', writing);
    const { valueMm, uMm } = estimate(
      k117.model!,
      slopeAt(k117.model!, { blade: 'A', pass: 0, fromTipMm, across }, 'along'),
    );
    return { words: said.split('; facing it')[0]!.replaceAll('\u00a0', ' '), valueMm, uMm };
  };
  const steep = slope(5, 0);
  expect(steep.valueMm).toBeGreaterThan(1.96 * steep.uMm);
  expect(steep.words).toContain(
    `, rising ${(100 * steep.valueMm).toFixed(1)} ±${(196 * steep.uMm).toFixed(1)} a mm`,
  );
  const places = Array.from({ length: 60 }, (_, k) => slope(6 + k / 5, 0.4));
  const level = places.find(({ valueMm, uMm }) => Math.abs(valueMm) < 1.9 * uMm)!;
  expect(level.words).toContain(`, level within ±${(196 * level.uMm).toFixed(1)} a mm`);
  const falling = places.find(({ valueMm, uMm }) => valueMm < -2 * uMm);
  if (falling) expect(falling.words).toContain(`, falling ${(-100 * falling.valueMm).toFixed(1)} ±`);
});
