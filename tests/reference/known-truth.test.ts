import { describe, expect, it } from 'vitest';
import { estimate, pointFunctional } from '../../src/figures/functional.ts';
import { removedAt } from '../../src/figures/removed.ts';
import { largestPlace } from '../../src/figures/measurable.ts';
import { mapGrid, removedMap } from '../../src/figures/surface-map.ts';
import { meanOver, zoneArea, type Side } from '../../src/figures/zone-mean.ts';
import { rectangleZone } from '../../src/blade/zones.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import type { Blade } from '../../shared/blade.ts';
import { readSample } from '../read-sample.ts';

// Invented reeds whose truth stands beside them (tests/samples/passes). The limits are what the bench promises.
const clean = ['plain', 'clip', 'partial', 'fine'];
const fitted = new Map(
  clean.map((name) => {
    const sample = readSample(name);
    return [name, { ...sample, model: fitReed(sample.passes) }];
  }),
);

const share = (hits: readonly boolean[]) => hits.filter(Boolean).length / hits.length;
const rms = (errors: readonly number[]) =>
  Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length);
const median = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;

const thickness = clean.flatMap((name) => {
  const { model, truth } = fitted.get(name)!;
  return truth.passes.flatMap(({ samples_mm }, pass) =>
    samples_mm.map(({ blade, y, u, t }) => {
      const { valueMm, uMm } = estimate(
        model,
        pointFunctional(model, { blade, pass, fromTipMm: y, across: u }),
      );
      return { name, y, error: valueMm - t, half: 1.96 * uMm };
    }),
  );
});
const covered = ({ error, half }: { error: number; half: number }) => Math.abs(error) < half;

describe('thickness between and at the stations', () => {
  it('is covered by its 95 % intervals, everywhere and in each part of the blade', () => {
    expect(share(thickness.map(covered))).toBeGreaterThan(0.9);
    expect(share(thickness.map(covered))).toBeLessThan(0.98);
    expect(share(thickness.filter(({ y }) => y < 3.6).map(covered))).toBeGreaterThan(0.8);
    expect(share(thickness.filter(({ y }) => y > 5.5 && y < 9.5).map(covered))).toBeGreaterThan(0.8);
    expect(share(thickness.filter(({ y }) => y > 9.5).map(covered))).toBeGreaterThan(0.8);
  });

  it.each(clean)('is right in %s, with intervals that are worth having', (name) => {
    const own = thickness.filter((point) => point.name === name);
    expect(rms(own.map(({ error }) => error))).toBeLessThan(0.02);
    expect(median(own.map(({ half }) => half))).toBeLessThan(0.035);
  });

  it.each([
    ['plain', 0.0075],
    ['clip', 0.0075],
    ['fine', 0.004],
  ])('is narrow at the stations of %s', (name, limit) => {
    const { model, passes } = fitted.get(name)!;
    const halves = passes.flatMap(({ readings }, pass) =>
      readings.map(({ blade, fromTipMm, across }) => {
        const point = pointFunctional(model, { blade, pass, fromTipMm, across });
        return 1.96 * estimate(model, point).uMm;
      }),
    );
    expect(median(halves)).toBeLessThan(limit);
  });
});

describe('means over rectangles as wide as the blade', () => {
  const sides: Record<string, Side> = { left: 'left', right: 'right' };
  const hits = (name: string) => {
    const { model, truth } = fitted.get(name)!;
    return truth.passes.flatMap(({ rectangle_means_mm }, pass) =>
      Object.entries(rectangle_means_mm).map(([key, expected]) => {
        const [blade, zone, side] = key.split('.') as [Blade, string, string?];
        const [from, to] = truth.rectangles_mm[zone]!;
        const area = zoneArea(
          rectangleZone(zone, from, to),
          model.passes[pass]!,
          sides[side ?? ''] ?? 'both',
        );
        const { valueMm, uMm } = estimate(model, meanOver(model, blade, pass, area)!);
        return Math.abs(valueMm - expected) < 1.96 * uMm;
      }),
    );
  };

  it.each(clean)('lie within their intervals for nine in ten of %s', (name) => {
    expect(share(hits(name))).toBeGreaterThanOrEqual(0.9);
  });

  it('are not covered by intervals so wide that none misses', () => {
    expect(share(clean.flatMap(hits))).toBeLessThanOrEqual(0.99);
  });
});

it.each(['plain', 'clip', 'fine'])('knows the noise of one reading in %s within 35 %%', (name) => {
  const { model, truth } = fitted.get(name)!;
  expect(Math.abs(model.noiseMm.A! / truth.reading_noise_mm - 1)).toBeLessThan(0.35);
  expect(model.noiseFrom).toBe('passes');
});

describe('what was taken off', () => {
  const removed = clean.flatMap((name) => {
    const { model, truth, passes } = fitted.get(name)!;
    return truth.passes.flatMap(({ samples_mm, scraped }, after) =>
      after === 0
        ? []
        : samples_mm.map(({ blade, y, u }) => {
            const pair = { before: after - 1, after };
            const { valueMm, uMm } = estimate(model, removedAt(model, pair, blade, y, u));
            const fromFirstTip = passes[0]!.overallLengthMm - (passes[after]!.overallLengthMm - y);
            const expected = scraped[blade].reduce(
              (sum, [cy, cu, ly, lu, deep]) =>
                sum + deep * Math.exp(-0.5 * (((fromFirstTip - cy) / ly) ** 2 + ((u - cu) / lu) ** 2)),
              0,
            );
            return { expected, valueMm, half: 1.96 * uMm, error: valueMm - expected };
          }),
    );
  });

  it('is not shrunk where the knife was, and covered by its interval', () => {
    const scraped = removed.filter(({ expected }) => expected > 0.005);
    const bias = mean(scraped.map(({ error }) => error)) / mean(scraped.map(({ expected }) => expected));
    expect(Math.abs(bias)).toBeLessThan(0.15);
    expect(share(scraped.map(covered))).toBeGreaterThanOrEqual(0.85);
  });

  it('shows nothing where no knife was', () => {
    const untouched = removed.filter(({ expected }) => expected < 0.0002);
    expect(share(untouched.map(({ valueMm, half }) => Math.abs(valueMm) > half))).toBeLessThan(0.05);
  });

  it.each(['A', 'B'] as const)('peaks where the knife was on blade %s', (blade) => {
    const { model } = fitted.get('plain')!;
    const peak = largestPlace(removedMap(model, blade, 0, 1, mapGrid(20, 81, 41)));
    // Truth: 2.0 mm from the tip, -0.6 across.
    expect(Math.abs(peak.fromTipMm - 2)).toBeLessThan(1);
    expect(Math.abs(peak.across + 0.6)).toBeLessThan(0.3);
  });

  it('is nothing, with little doubt, on cane that nobody read', () => {
    const { model, passes } = fitted.get('partial')!;
    for (const after of [1, 2]) {
      for (const blade of ['A', 'B'] as const) {
        const read = passes[after]!.readings.filter((reading) => reading.blade === blade);
        for (let y = 0; y <= 20; y += 1) {
          if (read.some(({ fromTipMm }) => Math.abs(fromTipMm - y) < 3)) continue;
          const { valueMm, uMm } = estimate(
            model,
            removedAt(model, { before: after - 1, after }, blade, y, 0.4),
          );
          expect(Math.abs(valueMm)).toBeLessThan(0.002);
          expect(uMm).toBeLessThan(0.02);
        }
      }
    }
  });
});
