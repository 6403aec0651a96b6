import { meanInterval, type MeanInterval } from '../learning/mean-interval.ts';
import type { KnownReed } from './columns.ts';
import { FEWEST_REEDS } from './ways.ts';

/** The portrait is drawn from so many of the last reeds. Common practice, no source. */
const LAST_REEDS = 20;
/** A lot with fewer reeds than this is not judged. Common practice, no source. */
const FEWEST_OF_LOT = 3;

/** A mean difference in mm that the bench tells from nothing, or does not. */
export interface MeanDifference extends MeanInterval {
  readonly told: boolean;
}

export interface ZoneHand extends MeanDifference {
  readonly name: string;
  readonly title: string;
}

/** What the knife hand does over the last reeds: right less left on both blades, zone by zone. */
export type HandPortrait = { readonly tooFew: number } | { readonly zones: readonly ZoneHand[] };

function difference(values: readonly number[], compared: number): MeanDifference {
  const found = meanInterval(values, 1 - 0.05 / compared);
  return { ...found, told: found.interval[0] > 0 || found.interval[1] < 0 };
}

/**
 * Hand difference by zone over the last reeds of one style. The interval holds for all zones together (Bonferroni).
 *
 * @param tiltMm What the gauge itself adds, found by reading with the reed turned; taken off.
 */
export function handPortrait(reeds: readonly KnownReed[], tiltMm = 0): HandPortrait {
  const last = [...reeds]
    .sort((a, b) => (a.summary.takenAt ?? '').localeCompare(b.summary.takenAt ?? ''))
    .slice(-LAST_REEDS);
  if (last.length < FEWEST_REEDS) return { tooFew: last.length };
  const zones = last[0]!.summary.zones;
  return {
    zones: zones.map(({ name, title }) => {
      const values = last.flatMap(
        ({ summary }) => summary.zones.find((zone) => zone.name === name)?.hand.valueMm ?? [],
      );
      return {
        name,
        title,
        ...difference(
          values.map((value) => value - tiltMm),
          zones.length,
        ),
      };
    }),
  };
}

export interface LotSides extends MeanDifference {
  readonly lotId: string;
}

/** Side 1 less side 2 over the back, by lot: uneven gouging shows so, and the knife does not. */
export function sidesByLot(reeds: readonly KnownReed[]): LotSides[] {
  const lots = new Map<string, number[]>();
  for (const { reed, summary } of reeds) {
    if (reed.lotId) lots.set(reed.lotId, [...(lots.get(reed.lotId) ?? []), summary.side.valueMm]);
  }
  const judged = [...lots].filter(([, values]) => values.length >= FEWEST_OF_LOT);
  return judged
    .map(([lotId, values]) => ({ lotId, ...difference(values, judged.length) }))
    .sort((a, b) => Math.abs(b.mean) - Math.abs(a.mean));
}
