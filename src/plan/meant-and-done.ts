import { BLADES, type Blade } from '../../shared/blade.ts';
import type { ScrapePlan } from '../../shared/scrape-plan.ts';
import type { FittedReed } from '../answers/fitted-reed.ts';
import { isMeasurable } from '../words/figure-words.ts';
import { combine, estimate, pointFunctional } from '../figures/functional.ts';
import { measurable } from '../figures/measurable.ts';
import type { PassPair } from '../figures/pass-pair.ts';
import { removedMap, type MapGrid } from '../figures/surface-map.ts';
import type { Estimate, Functional, ReedModel } from '../surface/reed-model.ts';
import { meantSteps, passAfter, type MeantStep } from './kept-plan.ts';

/** What a step was meant to take and what went. */
export interface Done {
  readonly zone: string;
  readonly title: string;
  readonly side: MeantStep['side'];
  readonly blade: Blade;
  readonly meantMm: number;
  readonly done: Estimate;
  /** What was over the target before, less what went. */
  readonly stillOver: Estimate;
  readonly verdict: 'as meant' | 'less' | 'more' | 'not measurable';
}

/** The place outside what was meant that lost most. */
export interface Outside {
  readonly blade: Blade;
  readonly fromTipMm: number;
  readonly across: number;
  readonly lost: Estimate;
}

export interface MeantAndDone {
  readonly rows: readonly Done[];
  /** Measurable losses outside the planned places: absent without one. Distances are from the earlier tip. */
  readonly outside?: Outside;
}

/** What is joined of a reed's plan and the pass after it; undefined while that is not read. */
export function planAndDone(benched: FittedReed, plan: ScrapePlan): MeantAndDone | undefined {
  const after = passAfter(plan, benched.passes);
  const before = benched.passes.findIndex(({ index }) => index === plan.afterPass);
  if (after === undefined || before < 0 || !benched.model) return undefined;
  const { ysMm, us } = plan;
  return meantAndDone(benched.model, { before, after }, { ysMm, us }, meantSteps(plan));
}

/** Sets each step of a plan beside what the pass after it took from the same places. */
export function meantAndDone(
  model: ReedModel,
  pair: PassPair,
  grid: MapGrid,
  steps: readonly MeantStep[],
): MeantAndDone {
  const rows = steps.flatMap(({ zone, title, side, takeMm, excessMm, uMm, blades, places }) =>
    blades
      .filter((blade) => model.blades[blade])
      .map((blade): Done => {
        const done = estimate(model, removedOver(model, pair, grid, blade, places[blade]!));
        return {
          ...{ zone, title, side, blade, done },
          meantMm: takeMm,
          stillOver: { valueMm: excessMm - done.valueMm, uMm: Math.hypot(uMm, done.uMm) },
          verdict: verdictOf(takeMm, done),
        };
      }),
  );
  const outside = lostOutside(model, pair, grid, steps);
  return { rows, ...(outside && { outside }) };
}

function clippedBetween({ passes }: ReedModel, { before, after }: PassPair): number {
  return passes[before]!.overallLengthMm - passes[after]!.overallLengthMm;
}

function removedOver(
  model: ReedModel,
  pair: PassPair,
  { ysMm, us }: MapGrid,
  blade: Blade,
  places: Uint8Array,
): Functional {
  const { before, after } = pair;
  const clippedMm = clippedBetween(model, pair);
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

/** The knife's patch has soft borders: places this near to a planned one are not outside. Common practice, no source. */
const BORDER_MM = 1.5;
const BORDER_ACROSS = 0.3;

function lostOutside(
  model: ReedModel,
  pair: PassPair,
  grid: MapGrid,
  steps: readonly MeantStep[],
): Outside | undefined {
  const clippedMm = clippedBetween(model, pair);
  const later = { ysMm: grid.ysMm.map((y) => y - clippedMm), us: grid.us };
  const columns = grid.us.length;
  let worst: Outside | undefined;
  for (const blade of BLADES.filter((name) => model.blades[name])) {
    const map = removedMap(model, blade, pair.before, pair.after, later);
    const sure = measurable(map);
    const meant = steps.flatMap(({ places }) => placesOf(places[blade], grid));
    map.valuesMm.forEach((valueMm, i) => {
      const [row, column] = [Math.floor(i / columns), i % columns];
      const [fromTipMm, across] = [grid.ysMm[row]!, grid.us[column]!];
      const isLoss = sure[i] === 1 && valueMm > (worst?.lost.valueMm ?? 0) && fromTipMm >= clippedMm;
      if (!isLoss || Math.abs(across) > 0.9 || meant.some((near) => isNear(near, fromTipMm, across))) return;
      worst = { blade, fromTipMm, across, lost: { valueMm, uMm: map.uMm[i]! } };
    });
  }
  return worst;
}

type At = readonly [fromTipMm: number, across: number];

function placesOf(places: Uint8Array | undefined, { ysMm, us }: MapGrid): At[] {
  if (!places) return [];
  return [...places.keys()]
    .filter((i) => places[i] === 1)
    .map((i) => [ysMm[Math.floor(i / us.length)]!, us[i % us.length]!] as const);
}

const isNear = ([y, u]: At, fromTipMm: number, across: number) =>
  Math.abs(y - fromTipMm) <= BORDER_MM && Math.abs(u - across) <= BORDER_ACROSS;
