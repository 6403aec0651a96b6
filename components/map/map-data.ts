import type { Blade, Place } from '../../shared/blade.ts';

/** A number printed at its place on the wood. */
export interface MapMark {
  readonly fromTipMm: number;
  readonly across: number;
  /** A reading, or a difference at that place, mm. */
  readonly valueMm: number;
  /** The pass or day an older value comes from: it is set in italics. */
  readonly older?: string;
  /** Why the reading is odd, in a sentence: it gets the lozenge. */
  readonly odd?: string;
  /** It is near its floor: the same lozenge with a halo. */
  readonly nearFloor?: boolean;
  /** A difference smaller than its doubt: pale and small. */
  readonly inDoubt?: boolean;
  /** A difference no larger than the favourites' own spread: pale and small. */
  readonly ownVariety?: boolean;
}

/** A point of an outline on the blade. */
export interface OutlinePoint {
  readonly fromTipMm: number;
  readonly across: number;
}

/** A stretch of a zone's outline, drawn solid when it keeps its distance from the tip, dotted when from the thread. */
export interface ZoneSegment {
  readonly hangsFrom: 'tip' | 'cane';
  readonly points: readonly OutlinePoint[];
}

export interface MapZone {
  readonly name: string;
  readonly title: string;
  readonly segments: readonly ZoneSegment[];
  /** Closed, whole: where its name finds room. */
  readonly outlines?: readonly (readonly OutlinePoint[])[];
  /** It surely lost cane as a whole. */
  readonly isLost?: boolean;
}

/** Values at the crossings of lines along and across one blade; what is drawn between them is linear. */
export interface BladeGrid {
  /** Distances from the tip, mm, rising; length ny. */
  readonly ysMm: ArrayLike<number>;
  /** Fractions of the half-width, -1 to 1, rising; length nu. */
  readonly us: ArrayLike<number>;
  /** Half the blade's width at each of `ysMm`, mm. */
  readonly halfWidthMm: ArrayLike<number>;
  /** ny x nu, row by row from the tip, mm; NaN where nothing was read. */
  readonly valuesMm: ArrayLike<number>;
  /** ny x nu: 1 where a difference is measurable, 0 where it is inside its doubt; the border is drawn at 0.5. */
  readonly measurable?: ArrayLike<number>;
  /** ny x nu: 1 in a patch that lost cane where the place is not told by itself; drawn at 0.5. */
  readonly between?: ArrayLike<number>;
  /** ny x nu: 1 where a difference is measurable and yet no larger than the favourites' own spread; drawn at 0.5. */
  readonly ownVariety?: ArrayLike<number>;
}

/** Everything one blade's map shows. */
export interface BladeMapData extends BladeGrid {
  readonly blade: Blade;
  /** From the tip to where the thread begins, mm. */
  readonly bladeLengthMm: number;
  readonly marks: readonly MapMark[];
  readonly zones: readonly MapZone[];
  /** Corners of the outline around the readings: what is drawn beyond it is textured. Absent where nothing is said of it. */
  readonly reach?: readonly OutlinePoint[];
  /** Closed outlines where the next strokes go. */
  readonly nextStrokes?: readonly (readonly OutlinePoint[])[];
  /** Cane clipped since the pass that is compared, mm: a dotted rim above the tip. */
  readonly clippedMm?: number;
}

/** The way of a round over a blade. */
export interface MapRoute {
  readonly done: readonly OutlinePoint[];
  readonly next?: OutlinePoint;
  readonly toGo: readonly OutlinePoint[];
}

/** A line that a profile is drawn along. */
export type ProfileLine =
  | { readonly kind: 'down'; readonly across: number }
  | { readonly kind: 'across'; readonly fromTipMm: number };

export function placeOf(blade: Blade, { fromTipMm, across }: OutlinePoint): Place {
  return { blade, fromTipMm, across };
}
