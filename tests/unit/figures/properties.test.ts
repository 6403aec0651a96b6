import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rectangleZone } from '../../../src/blade/zones.ts';
import { combine, estimate } from '../../../src/figures/functional.ts';
import { meanRemovedOver } from '../../../src/figures/removed.ts';
import { zoneFigures } from '../../../src/figures/zone-figures.ts';
import { meanOver, zoneArea } from '../../../src/figures/zone-mean.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import { fitPlainly } from '../../../src/surface/plain-model.ts';
import type { FitPass, FitReading } from '../../../src/surface/reed-model.ts';
import { readSample } from '../../read-sample.ts';
import { seededRandom } from '../../seeded-random.ts';

const { passes } = readSample('clip');
const model = fitReed(passes);
const distance = fc.double({ min: 0.3, max: 19, noNaN: true });
/** A zone across the whole blade, at least half a millimetre long. */
const zone = fc
  .tuple(distance, distance)
  .filter(([a, b]) => Math.abs(a - b) > 0.5)
  .map(([a, b]) => rectangleZone('any', Math.min(a, b), Math.max(a, b)));
/** The first pass with a fifth of its readings gone and all of them moved by up to 0.02 mm. */
const reread = fc.integer({ min: 1, max: 1e6 }).map((seed): FitPass => {
  const random = seededRandom(seed);
  const readings = passes[0]!.readings.flatMap((r) => {
    const moved = 0.04 * (random() - 0.5);
    return random() < 0.2 ? [] : { ...r, thicknessMm: r.thicknessMm + moved };
  });
  return { ...passes[0]!, readings };
});
const changed = (pass: FitPass, change: (reading: FitReading) => FitReading) =>
  fitPlainly({ ...pass, readings: pass.readings.map(change) });

describe('figures of any readings and zones', () => {
  it('turn round when the readings are mirrored', () => {
    fc.assert(
      fc.property(reread, zone, (pass, where) => {
        const [one, two] = [(r: FitReading) => r, (r: FitReading) => ({ ...r, across: 0 - r.across })].map(
          (change) => zoneFigures(changed(pass, change), 0, where),
        );
        // The search for the smoothing ends within 1e-8 of its gradient, which leaves less than this in a mean.
        expect(Math.abs(two!.balance!.hand.valueMm + one!.balance!.hand.valueMm)).toBeLessThan(1e-7);
        expect(Math.abs(two!.balance!.side.valueMm + one!.balance!.side.valueMm)).toBeLessThan(1e-7);
        expect(Math.abs(two!.balance!.blade.valueMm - one!.balance!.blade.valueMm)).toBeLessThan(1e-7);
      }),
      { numRuns: 15 },
    );
  });

  it('flip the contrasts of the blades when these are swapped', () => {
    fc.assert(
      fc.property(reread, zone, (pass, where) => {
        const swapped = (r: FitReading) => ({ ...r, blade: r.blade === 'A' ? 'B' : 'A' }) as const;
        const [one, two] = [(r: FitReading) => r, swapped].map(
          (change) => zoneFigures(changed(pass, change), 0, where).balance!,
        );
        expect(two!.blade.valueMm).toBeCloseTo(-one!.blade.valueMm, 12);
        expect(two!.side.valueMm).toBeCloseTo(-one!.side.valueMm, 12);
        expect(two!.hand.valueMm).toBeCloseTo(one!.hand.valueMm, 12);
      }),
      { numRuns: 15 },
    );
  });

  it('add up where a zone is split in two', () => {
    fc.assert(
      fc.property(zone, fc.double({ min: 0.1, max: 0.9, noNaN: true }), ({ outlines }, share) => {
        const [from, to] = [outlines[0]![0]![0], outlines[0]![2]![0]];
        const middle = from + share * (to - from);
        const [whole, ...parts] = [
          [from, to],
          [from, middle],
          [middle, to],
        ].map(([a, b]) => zoneArea(rectangleZone('part', a!, b!), model.passes[1]!));
        const joined = combine(
          parts.map((part) => [part.areaMm2 / whole!.areaMm2, meanOver(model, 'A', 1, part)!]),
        );
        // Both by quadrature, each good to 3e-6 mm.
        const apart =
          estimate(model, joined).valueMm - estimate(model, meanOver(model, 'A', 1, whole!)!).valueMm;
        expect(Math.abs(apart)).toBeLessThan(1e-5);
      }),
      { numRuns: 30 },
    );
  });

  it('add up over the passes, through clips', () => {
    fc.assert(
      fc.property(zone, fc.constantFrom('A' as const, 'B' as const), (where, blade) => {
        const last = passes.length - 1;
        const area = zoneArea(where, model.passes[last]!);
        const off = (before: number, after: number) => {
          const moved = passes[after]!.overallLengthMm - passes[last]!.overallLengthMm;
          const nodes = area.nodes.map((node) => ({ ...node, x: node.x + moved }));
          return estimate(model, meanRemovedOver(model, { before, after }, blade, { ...area, nodes })!)
            .valueMm;
        };
        expect(off(0, 1) + off(1, 2) + off(2, 3)).toBeCloseTo(off(0, last), 10);
      }),
      { numRuns: 8 },
    );
  });
});
