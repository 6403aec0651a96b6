import type { Place } from '../../shared/blade.ts';
import type { ThicknessUnit } from '../../shared/units.ts';
import type { Estimate } from '../../shared/estimate.ts';
import type { BladeGrid, BladeMapData, MapMark, OutlinePoint } from '../map/map-data.ts';
import type { Print } from '../map/prints.ts';
import type { ArchFacts } from '../scene/arch.ts';

/** A difference as the flat map has it: its grid, and the figures that are written on it. */
export interface ReliefDifference extends BladeGrid {
  readonly marks?: readonly MapMark[];
}

/** What a question prints on a blade besides its thickness. */
export type ReliefPrint =
  /** What was taken off, lifted off over the place that it left, where it is measurable. */
  | { readonly is: 'lifted'; readonly difference: ReliefDifference }
  /** Bridges to the facing blade, where the difference is measurable. */
  | { readonly is: 'bridges'; readonly difference: ReliefDifference }
  /** The favourite as glass; excess stands out of it, lack is a hollow. `targetMm` is on the grid of `difference`. */
  | { readonly is: 'ghost'; readonly targetMm: ArrayLike<number>; readonly difference: ReliefDifference }
  /** Against a lamp: all cane in the way of the light, mm, on the blade's own grid. */
  | { readonly is: 'light'; readonly caneMm: ArrayLike<number>; readonly attenuationPerMm: number }
  /** Where to scrape, and only there. */
  | { readonly is: 'strokes'; readonly outlines: readonly (readonly OutlinePoint[])[] };

/** One blade as a body. */
export interface ReliefBlade extends Pick<
  BladeMapData,
  'blade' | 'bladeLengthMm' | 'ysMm' | 'us' | 'halfWidthMm' | 'valuesMm' | 'zones' | 'marks'
> {
  /** ny x nu: the cane as it was gouged, mm, drawn as glass above. */
  readonly originalMm?: ArrayLike<number>;
  /** ny x nu: the floor, mm; NaN where there is none. */
  readonly floorMm?: ArrayLike<number>;
  /** ny x nu: ripples smaller than this, mm, are not shaded. Absent for a grid whose values are exact. */
  readonly rippleDoubtMm?: ArrayLike<number>;
  /** Thickness at the left and the right corner of the tip, written at the opening that stands ahead of it on the staple. */
  readonly corners?: readonly [left: Estimate, right: Estimate];
  readonly arch?: ArchFacts;
  readonly print?: ReliefPrint;
}

/** How many times larger than width and length thickness and differences are drawn, in every question. */
export const ENLARGED = { thickness: 4.5, difference: 18 } as const;

/** On the staple the opening is carried so far ahead of the tip, mm. */
export const LENS_AHEAD_MM = 5;

/** The raking light's first place: from the upper left, rad. */
export const FIRST_LIGHT = 2.45;

/** Where the reed is seen from. */
export type ReliefView = 'cork' | 'above' | 'side 1' | 'side 2' | 'below' | 'tip';

/** Everything that the picture shows. */
export interface ReliefSettings {
  readonly blades: readonly ReliefBlade[];
  readonly stance: Print;
  /** Thickness is drawn this many times larger than width and length. */
  readonly factor: number;
  /** Differences are drawn this many times larger. */
  readonly differenceFactor: number;
  /** The maker's unit, whose round numbers have a contour line. */
  readonly unit: ThicknessUnit;
  /** Cuts the blades across at this distance, the tip's side taken away. */
  readonly cutAtMm?: number;
  /** How much a clip would take off the tip, mm. */
  readonly clipMm?: number;
  /** 1: what was taken off stands off in full; 0: it lies on the place that it left. */
  readonly lift: number;
  /** An even light changes no colour; the raking one comes from this angle, rad, 0 from the right, counter-clockwise. */
  readonly light: { readonly isEven: boolean; readonly angle: number };
  readonly probe?: Place;
}
