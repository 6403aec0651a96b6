import * as z from 'zod';
import type { Pass, PassFacts, PassHead } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { BLADES } from '../../shared/blade.ts';
import { BLEND_MM } from '../figures/crossing.ts';
import type { StyleTemplate } from '../blade/starting-styles.ts';
import { placeZones, rectangleZone, type PlacedZone } from '../blade/zones.ts';
import { centreLine, crossing } from '../figures/crossing.ts';
import { thicknessMap, type MapGrid } from '../figures/surface-map.ts';
import { zoneFigures, zoneHalves, type ZoneHalves } from '../figures/zone-figures.ts';
import { assembleReed, type AssembledReed } from '../reed/assemble.ts';
import { fitPlainly } from '../surface/plain-model.ts';
import type { FitPass } from '../surface/reed-model.ts';

/** Places at which the surfaces of reeds are set beside each other: from the tip, and across. */
export const PROFILE_GRID: MapGrid = {
  ysMm: [0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18],
  us: [-0.8, -0.4, 0, 0.4, 0.8],
};
/** A pass speaks for its reed when both blades have at least this many readings, reaching at least so far down. */
const FEWEST_READINGS = 20;
const LEAST_REACH_MM = 14;
/** The stretch of the back over which the two sides of the cane are compared, mm from the tip. */
export const BACK_MM = [6, 18] as const;

const estimateSchema = z.strictObject({ valueMm: z.number(), uMm: z.number().min(0) });
const zoneSummarySchema = z.strictObject({
  name: z.string(),
  title: z.string(),
  mean: estimateSchema,
  hand: estimateSchema,
});

/** The figures of one reed that comparisons over a whole library need, worked out once and kept. */
export const reedSummarySchema = z.strictObject({
  /** What it was worked out from. */
  key: z.string(),
  passIndex: z.int(),
  takenAt: z.string().optional(),
  /** Mean of both blades at the places of `PROFILE_GRID`, row by row, mm. */
  profileMm: z.array(z.number()),
  zones: z.array(zoneSummarySchema),
  /** Where the centre passes the blend's thickness, mm from the tip. */
  blend: estimateSchema.optional(),
  /** Side 1 less side 2 over the back, on both blades. */
  side: estimateSchema,
});
export type ReedSummary = z.infer<typeof reedSummarySchema>;

/** Passes that may speak for a reed, by what is known of them without their readings; the likeliest first. */
export function mayTell(reed: Reed, passes: readonly PassHead[]): readonly PassHead[] {
  const isKept = ({ index }: PassHead) => Number(index === reed.favourite?.passIndex);
  return passes
    .filter(({ readingCount }) => readingCount >= BLADES.length * FEWEST_READINGS)
    .sort((a, b) => isKept(b) - isKept(a) || b.index - a.index);
}

/** The pass that speaks for a reed: the one kept as an example, or the last that was read widely enough. */
export function tellingPass(reed: Reed, passes: readonly Pass[]): Pass | undefined {
  const wide = passes.filter(({ readings }) =>
    BLADES.every((blade) => {
      const own = readings.filter((one) => one.blade === blade && one.thicknessMm !== undefined);
      return own.length >= FEWEST_READINGS && own.some(({ fromTipMm }) => fromTipMm >= LEAST_REACH_MM);
    }),
  );
  const kept = wide.find(({ index }) => index === reed.favourite?.passIndex);
  return (
    kept ??
    wide.reduce<Pass | undefined>((last, pass) => (last && last.index > pass.index ? last : pass), undefined)
  );
}

/** Raised when the working-out changes, so that what was kept is worked out anew. */
const MAKING = 1;

/**
 * Tells whether a kept summary still stands: all that it is worked out from, without what merely changes beside it.
 *
 * @param styleKey Of a style that is not as it starts.
 */
export function summaryKey(reed: Reed, { id, versions }: PassFacts, styleKey?: string): string {
  const { styleId, planform, lengths, forOverallLengthMm, tie } = reed;
  return JSON.stringify([
    MAKING,
    id,
    versions,
    styleId,
    planform,
    lengths,
    forOverallLengthMm,
    tie?.threadMm,
    ...(styleKey === undefined ? [] : [styleKey]),
  ]);
}

interface MeasuredZone {
  readonly zone: PlacedZone;
  readonly halves: ZoneHalves;
}

/** Zones of blades with the same outline, so that a maker's many reeds of one shape are measured out once. */
const measured = new Map<string, readonly MeasuredZone[]>();
const MOST_MEASURED = 40;

/** The style's zones, and the back, on a reed's blade. */
function zonesOf({ reed, assembled, fitted }: Fitting): readonly MeasuredZone[] {
  const { styleId, planform, lengths, forOverallLengthMm } = reed;
  const { overallLengthMm, bladeLengthMm } = fitted;
  const key = JSON.stringify([
    styleId,
    assembled.style.zones,
    planform,
    lengths,
    forOverallLengthMm,
    overallLengthMm,
    bladeLengthMm,
  ]);
  const known = measured.get(key);
  if (known) return known;
  const placed = placeZones(assembled.style, assembled.frame, overallLengthMm);
  const zones = [...placed, rectangleZone('back', ...BACK_MM)].map((zone) => ({
    zone,
    halves: zoneHalves(zone, fitted),
  }));
  if (measured.size >= MOST_MEASURED) measured.clear();
  measured.set(key, zones);
  return zones;
}

interface Fitting {
  readonly reed: Reed;
  readonly assembled: AssembledReed;
  readonly fitted: FitPass;
}

/** A style that is not as it starts, and what tells its state from others. */
interface OwnStyleKey {
  readonly key: string;
  readonly style: StyleTemplate;
}

/** Works a reed's summary out from one pass by the plain fit: some milliseconds. */
export function summarise(reed: Reed, pass: Pass, own?: OwnStyleKey): ReedSummary {
  const assembled = assembleReed({ reed, passes: [pass], ...(own && { style: own.style }) });
  const [fitted] = assembled.passes as readonly [FitPass];
  const model = fitPlainly(fitted);
  const figures = zonesOf({ reed, assembled, fitted }).map(({ zone, halves }) =>
    zoneFigures(model, 0, zone, halves),
  );
  const back = figures.at(-1)!;
  const maps = BLADES.map((blade) => thicknessMap(model, blade, 0, PROFILE_GRID).valuesMm);
  const blend = crossing(model, 0, centreLine(model), BLEND_MM);
  return {
    key: summaryKey(reed, pass, own?.key),
    passIndex: pass.index,
    ...(pass.takenAt !== undefined && { takenAt: pass.takenAt }),
    profileMm: Array.from(maps[0]!, (value, i) => (value + maps[1]![i]!) / 2),
    zones: figures
      .slice(0, -1)
      .flatMap(({ name, title, mean, balance }) =>
        mean && balance ? [{ name, title, mean, hand: balance.hand }] : [],
      ),
    ...(blend && { blend }),
    side: back.balance!.side,
  };
}
