import { group } from 'd3-array';
import { BLADES } from '../../shared/blade.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { belongingOf } from '../family/belongs.ts';
import { knifeOf, type ScrapedBetween } from '../family/knife.ts';
import { taughtBy, type Taught } from '../family/of-library.ts';
import { priorOf } from '../family/predictive.ts';
import type { ReadReed } from '../family/read-reed.ts';
import { usualZeroUMm } from '../gauge/correct-readings.ts';
import { usualSeatingMm } from '../gauge/reading-noise.ts';
import { resolutionU } from '../gauge/resolution.ts';
import { assembleReed, type AssembledReed } from '../reed/assemble.ts';
import type { ReadGauge } from '../reed/pass-gauge.ts';
import { stepOf } from '../surface/fit-reed.ts';
import { FULL_ENOUGH, type FromLibrary } from './library-words.ts';

/** The maker's other reeds of the same style, oldest first; those that a reed is compared with are not among them. */
export interface OtherReeds {
  /** Two lists with the same key hold the same. */
  readonly key: string;
  readonly reeds: readonly Reed[];
  readonly passes: readonly Pass[];
  readonly gauges: readonly ReadGauge[];
}

/** The most readings that any pass has of one blade, where it is so few that other reeds are asked. */
export function isReadInFew({ passes }: Pick<AssembledReed, 'passes'>): boolean {
  const most = Math.max(
    0,
    ...passes.flatMap(({ readings }) =>
      BLADES.map((blade) => readings.filter((reading) => reading.blade === blade).length),
    ),
  );
  return most > 0 && most < FULL_ENOUGH;
}

/** What some reeds teach, of their first passes and of their last, and where their maker's knife usually goes. */
export type Lessons = readonly (Taught & { readonly knife?: Float64Array })[];

/** Takes some seconds of work for hundreds of reeds: keep the result. */
export function lessonsOf({ reeds, passes, gauges }: OtherReeds): Lessons {
  const byReed = group(passes, ({ reedId }) => reedId);
  return lessonsOfAssembled(
    reeds.flatMap((reed) => {
      const own = byReed.get(reed.id);
      return own ? [assembleReed({ reed, passes: own, gauges })] : [];
    }),
  );
}

/** @param assembled Other reeds with a pass each, oldest first. */
export function lessonsOfAssembled(assembled: readonly AssembledReed[]): Lessons {
  const stages = [
    assembled.map((one) => readReed(one, 0)),
    assembled.filter((one) => one.passes.length > 1).map((one) => readReed(one, one.passes.length - 1)),
  ];
  const scrapings = assembled.flatMap(scrapingsOf);
  return stages.flatMap((stage) => {
    const taught = taughtBy(stage);
    if (!taught) return [];
    const knife = knifeOf(scrapings, taught.predictive);
    return { ...taught, ...(knife && { knife }) };
  });
}

/** Passes that follow on each other without a clip between them. */
function scrapingsOf(reed: AssembledReed): ScrapedBetween[] {
  return reed.passes
    .slice(1)
    .flatMap((pass, at) =>
      pass.overallLengthMm === reed.passes[at]!.overallLengthMm
        ? { before: readReed(reed, at), after: readReed(reed, at + 1) }
        : [],
    );
}

function readReed({ passes, options }: AssembledReed, at: number): ReadReed {
  const stepMm = options.stepMm ?? stepOf(passes);
  return {
    readings: passes[at]!.readings,
    seatingMm: options.seating?.sdMm ?? Math.hypot(usualSeatingMm(stepMm), resolutionU(stepMm)),
    zeroMm: options.zerosMm?.[at] ?? usualZeroUMm(stepMm),
  };
}

/**
 * The reed as other reeds lead to expect it, where it was read in few places: by what they were at the stage that its first
 * readings are likest. The reed as it is where nothing was taught, where it is unlike all, or where the last ones are of another
 * kind than those before.
 */
export function expectedFrom(
  assembled: AssembledReed,
  lessons: Lessons,
): { readonly assembled: AssembledReed; readonly fromLibrary?: FromLibrary } {
  if (lessons.length === 0 || !isReadInFew(assembled)) return { assembled };
  const first = assembled.passes.findIndex(({ readings }) => readings.length > 0);
  const own = readReed(assembled, first);
  const nearest = lessons
    .map((taught) => ({ taught, belonging: belongingOf(own, taught.predictive) }))
    .reduce((best, one) => (one.belonging.sds < best.belonging.sds ? one : best));
  const { taught, belonging } = nearest;
  const fromLibrary = {
    reeds: taught.predictive.reeds,
    readings: own.readings.length,
    isOutside: belonging.isOutside,
    isChanging: taught.isChanging,
  };
  if (belonging.isOutside || taught.isChanging) return { assembled, fromLibrary };
  const options = { ...assembled.options, learned: priorOf(taught.predictive, taught.knife) };
  return { assembled: { ...assembled, options }, fromLibrary };
}
