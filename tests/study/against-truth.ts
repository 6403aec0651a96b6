import { BLADES, type Blade } from '../../shared/blade.ts';
import { rectangleZone } from '../../src/blade/zones.ts';
import { estimate, pointFunctional } from '../../src/figures/functional.ts';
import { removedAt } from '../../src/figures/removed.ts';
import { meanOver, zoneArea } from '../../src/figures/zone-mean.ts';
import type { Estimate, ReedModel } from '../../src/surface/reed-model.ts';
import { seededRandom } from '../seeded-random.ts';
import type { GeneratedReed } from './generated-reed.ts';

/** A figure beside what was really there, mm. */
export interface Checked extends Estimate {
  readonly trueMm: number;
  readonly fromTipMm: number;
}

/** The figures of one reed that are checked. */
export interface CheckedReed {
  readonly points: readonly Checked[];
  readonly rectangles: readonly Checked[];
  readonly removed: readonly Checked[];
}

const PLACES_PER_PASS = 16;
const RECTANGLES_MM = [
  [0.3, 3.6],
  [5.5, 8.5],
  [10.5, 17],
] as const;

/** Thickness and removal at places drawn at random within the stations' outline, means over full-width rectangles. */
export function againstTruth(reed: GeneratedReed, model: ReedModel, seed: number): CheckedReed {
  const random = seededRandom(seed);
  const points: Checked[] = [];
  const removed: Checked[] = [];
  const rectangles: Checked[] = [];
  reed.passes.forEach((_, pass) => {
    for (let k = 0; k < PLACES_PER_PASS; k++) {
      const blade: Blade = random() < 0.5 ? 'A' : 'B';
      const place = { fromTipMm: 0.5 + 19.5 * random(), across: -0.8 + 1.6 * random() };
      points.push(pointAt(reed, model, blade, pass, place));
      if (pass > 0) removed.push(removedPoint(reed, model, blade, pass, place));
    }
    rectangles.push(...rectanglesAt(reed, model, pass));
  });
  return { points, rectangles, removed };
}

type Place = Readonly<Record<'fromTipMm' | 'across', number>>;

function pointAt(reed: GeneratedReed, model: ReedModel, blade: Blade, pass: number, place: Place): Checked {
  const figure = estimate(model, pointFunctional(model, { blade, pass, ...place }));
  return { ...figure, ...place, trueMm: reed.thicknessMm(blade, pass, place.fromTipMm, place.across) };
}

function removedPoint(
  reed: GeneratedReed,
  model: ReedModel,
  blade: Blade,
  after: number,
  place: Place,
): Checked {
  const { fromTipMm, across } = place;
  const figure = estimate(model, removedAt(model, { before: after - 1, after }, blade, fromTipMm, across));
  const clipped = reed.passes[after - 1]!.overallLengthMm - reed.passes[after]!.overallLengthMm;
  const trueMm =
    reed.thicknessMm(blade, after - 1, fromTipMm + clipped, across) -
    reed.thicknessMm(blade, after, fromTipMm, across);
  return { ...figure, trueMm, fromTipMm };
}

function rectanglesAt(reed: GeneratedReed, model: ReedModel, pass: number): Checked[] {
  return RECTANGLES_MM.flatMap(([fromTipMm, to]) =>
    BLADES.flatMap((blade) =>
      (['left', 'right', 'both'] as const).map((side) => {
        const area = zoneArea(rectangleZone('rectangle', fromTipMm, to), model.passes[pass]!, side);
        const trueMm = area.nodes.reduce(
          (sum, { x, y, area: share }) => sum + (share / area.areaMm2) * reed.thicknessMm(blade, pass, x, y),
          0,
        );
        return { ...estimate(model, meanOver(model, blade, pass, area)!), trueMm, fromTipMm };
      }),
    ),
  );
}
