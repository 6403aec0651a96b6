import type { Blade } from '../../shared/blade.ts';
import { combine, estimate, pointFunctional } from '../figures/functional.ts';
import type { PassPair } from '../figures/removed.ts';
import type { MapGrid } from '../figures/surface-map.ts';
import { isMeasurable } from '../answers/figure-words.ts';
import type { Estimate, Functional, ReedModel } from '../surface/reed-model.ts';
import type { Step } from './next-strokes.ts';

/** What a step was meant to take and what went. */
export interface Done {
  readonly title: string;
  readonly blade: Blade;
  readonly meantMm: number;
  readonly done: Estimate;
  readonly verdict: 'as meant' | 'less' | 'more' | 'not measurable';
}

/** Sets each step of a plan beside what the pass after it took from the same places. */
export function meantAndDone(
  model: ReedModel,
  pair: PassPair,
  grid: MapGrid,
  steps: readonly Step[],
): Done[] {
  return steps.flatMap(({ title, takeMm, blades, places }) =>
    blades.map((blade) => {
      const done = estimate(model, removedOver(model, pair, grid, blade, places[blade]!));
      return { title, blade, meantMm: takeMm, done, verdict: verdictOf(takeMm, done) };
    }),
  );
}

function removedOver(
  model: ReedModel,
  { before, after }: PassPair,
  { ysMm, us }: MapGrid,
  blade: Blade,
  places: Uint8Array,
): Functional {
  const clippedMm = model.passes[before]!.overallLengthMm - model.passes[after]!.overallLengthMm;
  const chosen = [...places.keys()].filter((i) => places[i] === 1);
  const share = 1 / chosen.length;
  return combine(
    chosen.flatMap((i) => {
      const fromTipMm = ysMm[Math.floor(i / us.length)]!;
      const across = us[i % us.length]!;
      return [
        [share, pointFunctional(model, { blade, pass: before, fromTipMm, across })],
        [-share, pointFunctional(model, { blade, pass: after, fromTipMm: fromTipMm - clippedMm, across })],
      ] as const;
    }),
  );
}

function verdictOf(meantMm: number, done: Estimate): Done['verdict'] {
  const apart = { valueMm: done.valueMm - meantMm, uMm: done.uMm };
  if (isMeasurable(apart)) return apart.valueMm > 0 ? 'more' : 'less';
  return isMeasurable(done) ? 'as meant' : 'not measurable';
}
