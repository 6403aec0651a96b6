import type { Blade } from '../../shared/blade.ts';

/** What a line stands for: each has its own dash, so that colour is never alone. */
export type LineLook = 'A' | 'B' | 'before' | 'after' | 'favourite' | 'floor';

/** A point read with the gauge, set as a mark. */
export interface ChartReading {
  readonly at: number;
  readonly thicknessMm: number;
}

/** A curve: thickness along a line on a blade. */
export interface ChartLine {
  readonly name: string;
  readonly look: LineLook;
  /** Rising: mm from the tip, or the position across. */
  readonly at: ArrayLike<number>;
  /** NaN where nothing was read: the line stops there. */
  readonly thicknessMm: ArrayLike<number>;
  /** Standard uncertainty at each point, drawn as a band of 95 %. */
  readonly uMm?: ArrayLike<number>;
  readonly readings?: readonly ChartReading[];
  /** Of a line before: 1 for the last one before, 2 for the one before that, and so on. Older lines have sparser dots. */
  readonly age?: number;
}

/** What several favourites span. */
export interface ChartBand {
  readonly name: string;
  readonly at: ArrayLike<number>;
  readonly lowMm: ArrayLike<number>;
  readonly highMm: ArrayLike<number>;
}

/** Where a line passes a thickness. */
export interface ChartCrossing {
  readonly at: number;
  readonly thicknessMm: number;
  readonly look: LineLook;
}

/** A corner of the tip: the blade and its own left or right, seen from its bark side. */
export type Corner = 'AL' | 'AR' | 'BL' | 'BR';

/** Thickness over a section of a blade, from its own left edge to its right, mm. */
export interface Edge {
  readonly across: ArrayLike<number>;
  readonly thicknessMm: ArrayLike<number>;
}

/** The opening of a reed at the tip. */
export interface OpeningData {
  /** Thickness of each corner, mm. */
  readonly cornersMm: Readonly<Record<Corner, number>>;
  /** A less B where two corners face each other, mm: A's left less B's right, A's right less B's left. */
  readonly facingMm: Readonly<Record<'side1' | 'side2', number>>;
  /** Thickness over the tip edge of each blade, from its own left edge to its right, mm. */
  readonly edges: Readonly<Record<Blade, Edge>>;
  /** Width of the tip, mm. */
  readonly widthMm: number;
  /** Height of the opening in the middle, mm. */
  readonly openingMm: number;
}
