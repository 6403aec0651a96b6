import { BLADES, type Blade } from '../../shared/blade.ts';
import { rectangleZone } from '../../src/blade/zones.ts';
import { knifeOf, type ScrapedBetween } from '../../src/family/knife.ts';
import { priorOf } from '../../src/family/predictive.ts';
import { estimate } from '../../src/figures/functional.ts';
import { meanRemovedOver, removedAt } from '../../src/figures/removed.ts';
import { shareOver, unreadBetween, withUnread } from '../../src/figures/unread.ts';
import { zoneArea } from '../../src/figures/zone-mean.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import type { FitPass, ReedModel } from '../../src/surface/reed-model.ts';
import { FAMILY_GAUGES, type FamilyReed, type Knife } from '../generator/family-reed.ts';
import { inventedMaker, type Maker } from '../generator/makers.ts';
import { seededRandom } from '../seeded-random.ts';
import { add, meanOf, regionOf, TOUCHED_MM, UNTOUCHED_MM, type Tallies } from './family-study.ts';
import { asRead, lessonOf } from './fewer-study.ts';

/** How makers use the knife: at the tip, behind the heart, deep or lightly anywhere, as most do. */
export const KNIVES = ['tip', 'back', 'light', 'deep', 'usual'] as const;
export type KnifeKind = (typeof KNIVES)[number];

const HABITS: Readonly<Record<Exclude<KnifeKind, 'usual'>, Knife>> = {
  tip: { fromMm: 1, toMm: 5, deepMm: [0.01, 0.04] },
  back: { fromMm: 9, toMm: 18, deepMm: [0.02, 0.05] },
  light: { fromMm: 1, toMm: 18, deepMm: [0.005, 0.015] },
  deep: { fromMm: 1, toMm: 18, deepMm: [0.04, 0.08] },
};
const REEDS_EACH = 4;
const PLACES = 60;
const ZONES_MM = { tip: [0.3, 3.6], blend: [3.7, 5.4], heart: [5.5, 8.5], back: [10.5, 17] } as const;

export interface KnifeResult {
  /** What was taken off between two passes read in few places, with the maker's knife known and without. */
  readonly known: Tallies;
  readonly unknown: Tallies;
  makers: number;
  taught: number;
}

export function studyKnife(kind: KnifeKind, firstSeed: number, makers: number, reeds: number): KnifeResult {
  const result: KnifeResult = { known: new Map(), unknown: new Map(), makers, taught: 0 };
  for (let seed = firstSeed; seed < firstSeed + makers; seed++) {
    const knife = kind === 'usual' ? undefined : HABITS[kind];
    const maker = inventedMaker(seed % 2 ? 'steady' : 'varied', seed, Infinity, undefined, {
      count: 3,
      ...(knife && { knife }),
    });
    const library = Array.from({ length: reeds }, (_, k) => maker.reed(k));
    const lesson = lessonOf(
      maker,
      library.map(({ passes }) => asRead(maker, passes[0]!.readings)),
    );
    if (!lesson) continue;
    const { predictive } = lesson.taught;
    const known = knifeOf(
      library.flatMap((reed) => scrapingsOf(maker, reed)),
      predictive,
    );
    result.taught += Number(known !== undefined);
    for (let k = 0; k < REEDS_EACH; k++) {
      const reed = maker.reed(reeds + k);
      const passes = reed.passes
        .slice(0, 2)
        .map((pass) => ({ ...pass, readings: pass.readings.filter((_, at) => lesson.places.has(at)) }));
      const { stepMm } = FAMILY_GAUGES[maker.gauge];
      compare(result.known, reed, passes, fitReed(passes, { stepMm, learned: priorOf(predictive, known) }));
      compare(result.unknown, reed, passes, fitReed(passes, { stepMm, learned: priorOf(predictive) }));
    }
  }
  return result;
}

function scrapingsOf(maker: Maker, { passes }: FamilyReed): ScrapedBetween[] {
  return passes
    .slice(1)
    .flatMap((after, k) =>
      after.overallLengthMm === passes[k]!.overallLengthMm
        ? { before: asRead(maker, passes[k]!.readings), after: asRead(maker, after.readings) }
        : [],
    );
}

/** What went at points and from zones between the first two passes, beside what did. */
function compare(tallies: Tallies, reed: FamilyReed, read: readonly FitPass[], model: ReedModel): void {
  const random = seededRandom(reed.seed + 1_000_000);
  const pair = { before: 0, after: 1 };
  const unread = { A: unreadBetween(read, pair, 'A'), B: unreadBetween(read, pair, 'B') };
  for (let k = 0; k < PLACES; k++) {
    const blade: Blade = random() < 0.5 ? 'A' : 'B';
    const [y, u] = [0.5 + 19.5 * random(), -0.8 + 1.6 * random()];
    const lostMm = reed.removedMm(blade, 1, y, u);
    const kind = lostMm > TOUCHED_MM ? 'touched' : lostMm < UNTOUCHED_MM ? 'untouched' : 'between';
    const taken = withUnread(estimate(model, removedAt(model, pair, blade, y, u)), unread[blade](y, u));
    add(tallies, kind, taken, lostMm);
    add(tallies, regionOf(y), taken, lostMm);
  }
  if (model.passes[0]!.overallLengthMm !== model.passes[1]!.overallLengthMm) return;
  for (const [name, [from, to]] of Object.entries(ZONES_MM))
    for (const side of ['left', 'right', 'both'] as const)
      for (const blade of BLADES) {
        const area = zoneArea(rectangleZone(name, from, to), model.passes[1]!, side);
        const mean = estimate(model, meanRemovedOver(model, pair, blade, area)!);
        add(
          tallies,
          `zone ${name}`,
          withUnread(mean, shareOver(area, unread[blade])),
          meanOf(area, (y, u) => reed.removedMm(blade, 1, y, u)),
        );
      }
}
