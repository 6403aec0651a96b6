import type { Place } from '../../shared/blade.ts';
import type { ThicknessUnit } from '../../shared/units.ts';
import type { BladeMapData, OutlinePoint } from '../map/map-data.ts';

/** A reading as a pin: it stands on the surface, and its head as high as the gauge read. */
export interface ReliefPin extends OutlinePoint {
  readonly thicknessMm: number;
}

/** One blade as a relief. */
export interface ReliefBlade extends Pick<
  BladeMapData,
  'blade' | 'bladeLengthMm' | 'ysMm' | 'us' | 'halfWidthMm' | 'valuesMm' | 'zones'
> {
  readonly pins: readonly ReliefPin[];
  /** ny x nu: the cane as it was gouged, mm, drawn as a ghost above. */
  readonly originalMm?: ArrayLike<number>;
  /** ny x nu: the floor, mm, drawn as a sheet that shows through. */
  readonly floorMm?: ArrayLike<number>;
}

/** Side by side with the bark up, or as on the reed: A above, B under it with its bark down. */
export type Arrangement = 'beside' | 'facing';
/** Flat on the table, or bent as on the reed. */
export type Lay = 'flat' | 'arched';
/** Where the blades are seen from. */
export const VIEWS = ['map', 'tip', 'above', 'left', 'right'] as const;
export type ReliefView = (typeof VIEWS)[number];

/** Everything that the picture shows. */
export interface ReliefSettings {
  readonly blades: readonly ReliefBlade[];
  readonly arrangement: Arrangement;
  readonly lay: Lay;
  /** Thickness is drawn this many times larger than width and length. */
  readonly exaggeration: number;
  /** The maker's unit, whose whole numbers have a contour line. */
  readonly unit: ThicknessUnit;
  /** Cuts the blades across at this distance, the tip's side taken away. */
  readonly cutAtMm?: number;
  readonly probe?: Place;
}
