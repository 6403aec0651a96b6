import { BLADES } from '../../shared/blade.ts';
import { InputError } from '../../shared/errors.ts';
import type { Station } from '../../shared/grid.ts';

/** A row of stations: positions across at one distance from the tip, the same on both blades. */
export interface StationRow {
  readonly fromTipMm: number;
  readonly across: readonly number[];
}

export type Scrape = 'long' | 'short';

/** A named list of stations, to be changed at will. */
export interface RoundPlan {
  readonly name: string;
  readonly stations: readonly Station[];
}

/** Untouched cane is read this far above the thread. Common practice, no source. */
const CONTROL_ABOVE_THREAD_MM = 3;
/** Thread to tip. Common practice, no source. */
export const USUAL_BLADE_MM: Readonly<Record<Scrape, number>> = { long: 23.5, short: 26 };

const FIVE = [-0.8, -0.4, 0, 0.4, 0.8];
const WIDE = [-0.8, 0, 0.8];
const INNER = [-0.4, 0, 0.4];
const EDGES = [-0.8, 0.8];

const rows = (distances: readonly number[], across: readonly number[]): StationRow[] =>
  distances.map((fromTipMm) => ({ fromTipMm, across }));

/**
 * Places worth reading for a scrape. Sizes and uses: common practice, no source. Spot looks at the corners; quick at
 * corners, centre line and windows (long) or flanks (short); survey at seven rows of three, nearer the middle towards
 * the back; full at fourteen rows of five.
 */
const ROWS: Readonly<
  Record<Scrape, Readonly<Record<'spot' | 'quick' | 'survey' | 'full', readonly StationRow[]>>>
> = {
  long: {
    spot: rows([1], EDGES),
    quick: [...rows([1], WIDE), ...rows([3, 7], [0]), ...rows([12], [-0.4, 0.4])],
    survey: [...rows([1, 2, 3, 4, 5], WIDE), ...rows([8, 12], INNER)],
    full: rows([0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20], FIVE),
  },
  short: {
    spot: rows([1], EDGES),
    quick: [...rows([1], WIDE), ...rows([3], [0]), ...rows([5], EDGES), ...rows([7], [0])],
    survey: [...rows([1, 2, 3, 5, 6], WIDE), ...rows([8, 10], INNER)],
    full: rows([0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20], FIVE),
  },
};

/** The same rows on both blades. */
export function stationsOf(stationRows: readonly StationRow[], role: Station['role'] = 'station'): Station[] {
  return BLADES.flatMap((blade) =>
    stationRows.flatMap(({ fromTipMm, across }) =>
      across.map((u) => ({ blade, fromTipMm, across: u, role })),
    ),
  );
}

/** Position across as a fraction of the half-width, from millimetres off the centre line. @throws InputError */
export function acrossFromMm(offsetMm: number, halfWidthMm: number): number {
  if (!(halfWidthMm > 0) || Math.abs(offsetMm) > halfWidthMm) {
    throw new InputError(
      `offsetMm: must lie on the blade, within ${halfWidthMm} mm of its middle, got ${offsetMm}`,
    );
  }
  return offsetMm / halfWidthMm;
}

/**
 * The four rounds to begin with, for a blade of a length: spot (4), quick (16), survey (44), full map (140). Quick and
 * survey include a control on untouched cane of each blade.
 *
 * @param bladeLengthMm Thread to tip.
 */
export function roundPlans(scrape: Scrape, bladeLengthMm = USUAL_BLADE_MM[scrape]): RoundPlan[] {
  const { spot, quick, survey, full } = ROWS[scrape];
  const controlMm = Math.round((bladeLengthMm - CONTROL_ABOVE_THREAD_MM) * 10) / 10;
  const controls = stationsOf([{ fromTipMm: controlMm, across: [0] }], 'control');
  return [
    { name: 'Spot', stations: stationsOf(spot) },
    { name: 'Quick', stations: [...stationsOf(quick), ...controls] },
    { name: 'Survey', stations: [...stationsOf(survey), ...controls] },
    { name: 'Full map', stations: stationsOf(full) },
  ];
}
