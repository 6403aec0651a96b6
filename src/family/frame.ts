import { mean, median } from 'd3-array';
import { BLADES } from '../../shared/blade.ts';
import { readingVariance, USUAL_PLACEMENT_MM } from '../gauge/reading-noise.ts';
import { baseRow } from '../surface/base-surface.ts';
import { steepestPlace } from '../surface/blade-data.ts';
import { chooseRoughness, USUAL_LOGS } from '../surface/roughness-evidence.ts';
import { familySpace, type FamilyFrame } from './interpolation.ts';
import type { ReadReed } from './read-reed.ts';

/** So many of the fullest reeds tell the roughness of all. */
const ASKED = 6;
const USUAL = { ridgeFromTipMm: 4.5, rise: 0.12 } as const;
/** So far the roughness found goes back to the usual: shape between the stations was never read. */
const TOWARDS_USUAL = [0, 0.5] as const;
/** Room behind the last station, mm. */
const ROOM_MM = 3;

/** Where the ridge of a maker's reeds is, how steep and how rough they are. */
export function frameOf(reeds: readonly ReadReed[]): FamilyFrame {
  const fullest = reeds.toSorted((a, b) => b.readings.length - a.readings.length).slice(0, ASKED);
  const lengthMm = Math.max(...reeds.flatMap(({ readings }) => readings.map(({ fromTipMm }) => fromTipMm)));
  const places = reeds.flatMap(({ readings }) =>
    BLADES.flatMap((blade) => {
      const own = readings.filter((reading) => reading.blade === blade);
      return steepestPlace(own.map(({ fromTipMm, thicknessMm }) => ({ zMm: -fromTipMm, thicknessMm }))) ?? [];
    }),
  );
  const frame = {
    ridgeFromTipMm: -(mean(places, ({ zMm }) => zMm) ?? -USUAL.ridgeFromTipMm),
    rise: mean(places, ({ rise }) => rise) ?? USUAL.rise,
    lengthMm: lengthMm + ROOM_MM,
  };
  const logs = fullest.flatMap((reed) => BLADES.map((blade) => roughnessOf(reed, blade, frame)));
  const towardsUsual = (k: 0 | 1) => {
    const found = median(logs, (one) => one[k]) ?? USUAL_LOGS[k];
    return found + TOWARDS_USUAL[k] * (USUAL_LOGS[k] - found);
  };
  return { ...frame, logPrecisions: [towardsUsual(0), towardsUsual(1)] };
}

function roughnessOf(
  { readings, seatingMm }: ReadReed,
  blade: 'A' | 'B',
  frame: Omit<FamilyFrame, 'logPrecisions'>,
) {
  const space = familySpace(frame);
  const own = readings.filter((reading) => reading.blade === blade);
  const slope = (fromTipMm: number) => (Math.abs(fromTipMm - frame.ridgeFromTipMm) < 1.5 ? frame.rise : 0.02);
  return chooseRoughness(
    space,
    own.map(({ fromTipMm, across, thicknessMm, noiseFactor, repeats }) => ({
      row: baseRow(space, -fromTipMm, across),
      valueMm: thicknessMm,
      variance:
        (readingVariance(
          { seatingMm, alongMm: USUAL_PLACEMENT_MM, acrossMm: USUAL_PLACEMENT_MM / 3 },
          slope(fromTipMm),
          0,
        ) *
          noiseFactor ** 2) /
        repeats,
    })),
  ).logPrecisions;
}
