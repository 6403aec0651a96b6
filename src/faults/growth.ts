import type { Change } from './explanation.ts';

/** Where rows of regions end, mm from the tip, and how far the middle reaches across. */
const ROWS_END_MM = [3.5, 7, 12];
const MIDDLE_END = 0.2;
/** A single reading counts for at most this many of its standard deviations. */
const HELD_SD = 4;
/** What readings of one region share, mm. */
const COMMON_U_MM = 0.002;

/** The mean change of a part of a blade. */
export interface Region {
  readonly changes: readonly Change[];
  readonly meanMm: number;
  readonly uMm: number;
}

/** Changes by region of the blade for which they are written: four rows, each left, middle and right. */
export function regionsOf(changes: readonly Change[]): Region[] {
  const groups = new Map<string, Change[]>();
  for (const change of changes) {
    const { blade, fromTipMm, across } = change.reading;
    const row = ROWS_END_MM.filter((end) => fromTipMm > end).length;
    const key = `${blade}${row}${Math.abs(across) < MIDDLE_END ? 0 : Math.sign(across)}`;
    groups.set(key, [...(groups.get(key) ?? []), change]);
  }
  return [...groups.values()].map(regionOf);
}

function regionOf(changes: readonly Change[]): Region {
  let [total, sum] = [0, 0];
  for (const { changeMm, uMm } of changes) {
    const weight = uMm ** -2;
    total += weight;
    sum += weight * Math.max(-HELD_SD * uMm, Math.min(HELD_SD * uMm, changeMm));
  }
  return { changes, meanMm: sum / total, uMm: Math.hypot(1 / Math.sqrt(total), COMMON_U_MM) };
}

/** How much likelier growth of the regions is than none, as a logarithm: scraping cannot make it. */
export function growthEvidence(changes: readonly Change[]): number {
  return regionsOf(changes).reduce((sum, { meanMm, uMm }) => sum + 0.5 * Math.max(meanMm / uMm, 0) ** 2, 0);
}
