import type { Blade } from '../../../shared/blade.ts';
import type { PlacedZone } from '../../blade/zones.ts';
import type { FigureTable } from '../../figures/figure.ts';
import type { ZoneRatio } from '../../figures/zone-ratios.ts';
import type { Estimate } from '../../surface/reed-model.ts';
import type { FiguredReed } from '../fitted-reed.ts';
import type { NearFloor, SeenZone } from '../standing-readings.ts';
import type { RemovedByZone, TakenOff } from '../taken-off.ts';

/** Tables of a record, in the order in which they are looked at. */
export const TABLE_NAMES = ['zones', 'balance', 'crossings', 'ratios', 'extent', 'believable'] as const;
export type TableName = (typeof TABLE_NAMES)[number];

/** A reed at a pass, as far as its figures ask. */
export interface FiguredAtPass {
  readonly benched: FiguredReed;
  readonly pass: number;
}

/** Where the centre passes a thickness; `at` is absent where it does not. */
export interface Crossing {
  readonly thicknessMm: number;
  readonly at?: Estimate;
}

/**
 * Every figure of a reed after a pass: what does not stand here stands nowhere. Each is worked out when it is first asked
 * for, once; screens, sheet, card, history and report lay it out.
 */
export interface ReedFigures {
  readonly own: FiguredAtPass;
  /** `M-142, pass 3`. */
  readonly of: string;
  readonly placed: readonly PlacedZone[];
  readonly zones: readonly SeenZone[];
  readonly near: readonly NearFloor[];
  readonly crossings: readonly Crossing[];
  readonly blend: Estimate | undefined;
  readonly ratios: readonly ZoneRatio[];
  /** The smallest change to believe between two single readings at a usual place of each zone, 95 %, mm. */
  readonly believable: Readonly<Partial<Record<Blade, ReadonlyMap<string, number>>>>;
  /** What came off since an earlier pass, by its place among the passes: by zone, and with its maps. */
  readonly removed: (before: number) => RemovedByZone;
  readonly taken: (before: number) => TakenOff;
  readonly table: (name: TableName) => FigureTable;
}
