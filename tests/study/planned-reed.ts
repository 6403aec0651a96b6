import type { Blade } from '../../shared/blade.ts';
import { LONG_SCRAPE, SHORT_SCRAPE, type StyleTemplate } from '../../src/blade/starting-styles.ts';
import { placeZones, type PlacedZone } from '../../src/blade/zones.ts';
import { mapGrid } from '../../src/figures/surface-map.ts';
import { excessOver } from '../../src/plan/excess.ts';
import { nextStrokes, type PlanHabits, type PlanInput } from '../../src/plan/next-strokes.ts';
import { targetMean } from '../../src/plan/place-means.ts';
import { spokenFor } from '../../src/plan/was-read.ts';
import { estimate, sumOfPlaces } from '../../src/figures/functional.ts';
import { targetFromReed, type Target } from '../../src/plan/target.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import type { FitPass } from '../../src/surface/reed-model.ts';
import { scenarioReed } from '../scenario-reed.ts';
import { seededRandom } from '../seeded-random.ts';

export const grid = mapGrid(20, 41, 21);
const US = [-0.8, -0.4, 0, 0.4, 0.8];
const YS = [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20];

/** A style with an invented reed of it, whose surface stands for the truth. */
export interface PlannedStyle {
  readonly style: StyleTemplate;
  readonly reed: { readonly benched: ReturnType<typeof scenarioReed>; readonly pass: number };
  readonly target: Target;
  readonly zones: readonly PlacedZone[];
}

function plannedStyle(style: StyleTemplate, label: string): PlannedStyle {
  const reed = { benched: scenarioReed(label, style.key), pass: 0 };
  const zones = placeZones(style, { lengths: style.lengths, overallLengthMm: 70 }, 70);
  return { style, reed, target: targetFromReed(reed, grid), zones };
}

export const LONG = plannedStyle(LONG_SCRAPE, 'K-117');
export const SHORT = plannedStyle(SHORT_SCRAPE, 'S-026');
export const { reed: favourite, target: favouriteTarget, zones } = LONG;

/** Value of a target at any place, straight between the places of its grid. */
export function truthAt(blade: Blade, y: number, u: number, { blades }: Target = favouriteTarget): number {
  const { ysMm, us } = grid;
  const [i, j] = [
    Math.min(39, Math.max(0, Math.floor(y / 0.5))),
    Math.min(19, Math.max(0, Math.floor((u + 1) / 0.1))),
  ];
  const [s, t] = [(y - ysMm[i]!) / 0.5, (u - us[j]!) / 0.1];
  const at = (row: number, column: number) => blades[blade]!.meanMm[row * us.length + column]!;
  return (
    (1 - s) * ((1 - t) * at(i, j) + t * at(i, j + 1)) + s * ((1 - t) * at(i + 1, j) + t * at(i + 1, j + 1))
  );
}

/** A rounded hill at a place: centre along and across, half lengths, height in mm. */
export const bump = (y: number, u: number, [cy, cu, ly, lu, deep]: readonly number[]) =>
  deep! * Math.exp(-0.5 * (((y - cy!) / ly!) ** 2 + ((u - cu!) / lu!) ** 2));

/** Which stations of the usual grid a maker read. */
export type Stations = (blade: Blade, y: number, u: number) => boolean;
const everywhere: Stations = () => true;

/** A reed read once, true to a thickness by place, with the noise of a careful maker. */
export function readReed(
  thickness: (blade: Blade, y: number, u: number) => number,
  seed: number,
  noiseMm = 0.004,
  isRead = everywhere,
): FitPass {
  const random = seededRandom(seed);
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const readings = (['A', 'B'] as const).flatMap((blade) =>
    YS.flatMap((y) =>
      US.map((u) => ({
        blade,
        fromTipMm: y,
        across: u,
        thicknessMm: Math.max(0.02, Math.round((thickness(blade, y, u) + noiseMm * normal()) * 100) / 100),
        repeats: 1,
        noiseFactor: 1,
      })),
    ),
  );
  return {
    index: 0,
    overallLengthMm: 70,
    bladeLengthMm: 23,
    halfWidthMm: (y) => 3.5 - 0.05 * y,
    readings: readings.filter(({ blade, fromTipMm, across }) => isRead(blade, fromTipMm, across)),
  };
}

/** The strokes towards a target, the reed known by its readings alone. */
export const planFor = (
  pass: FitPass,
  aim = favouriteTarget,
  laid: Pick<PlannedStyle, 'zones'> & Pick<PlanInput, 'floors'> & Partial<Pick<PlanInput, 'closed'>> = {
    zones,
    floors: LONG_SCRAPE.floors,
  },
  habits: PlanHabits = {},
) => {
  const model = fitReed([pass]);
  const excess = excessOver(model, 0, aim);
  const plan = nextStrokes({
    ...{ closed: [], ...laid, excess, geometry: pass, ...habits },
    read: (blade, map) => spokenFor(pass.readings, blade, map),
    meanExcess: (places) => {
      const own = estimate(
        model,
        sumOfPlaces(
          model,
          places.map(({ weight, ...place }) => ({ ...place, pass: 0, factor: weight })),
        ),
      );
      const theirs = targetMean(aim, places);
      return { valueMm: own.valueMm - theirs.valueMm, uMm: Math.hypot(own.uMm, theirs.uMm) };
    },
  });
  return { model, excess, plan };
};
