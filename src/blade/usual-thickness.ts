import type { FloorTable } from '../../shared/style.ts';

/** Thickness that is usual for a style, and how far reeds lie from it. */
export interface UsualThickness {
  /** A table like that of the floors: rows by distance from the tip, columns by distance from the centre line. */
  readonly thickness: FloorTable;
  /** Half the usual range, by the same rows, mm. */
  readonly spreadMm: readonly number[];
}

/** Middles of the ranges that are usual for finished reeds, wet. Common practice, no source. */
export const USUAL_THICKNESS: Readonly<Record<string, UsualThickness>> = {
  'long-scrape': {
    thickness: {
      fromTipMm: [0, 0.5, 2, 3, 3.5, 5, 6, 7, 9, 10, 14, 18, 20, 20.1],
      across: [0, 0.4, 0.8],
      floorMm: [
        [0.09, 0.075, 0.05],
        [0.1, 0.085, 0.06],
        [0.155, 0.13, 0.095],
        [0.205, 0.17, 0.13],
        [0.22, 0.19, 0.145],
        [0.4, 0.33, 0.22],
        [0.455, 0.41, 0.31],
        [0.465, 0.42, 0.34],
        [0.48, 0.42, 0.38],
        [0.49, 0.41, 0.41],
        [0.52, 0.41, 0.435],
        [0.54, 0.43, 0.45],
        [0.55, 0.47, 0.47],
        [null, null, null],
      ],
    },
    spreadMm: [0.015, 0.015, 0.015, 0.015, 0.02, 0.03, 0.025, 0.025, 0.03, 0.035, 0.035, 0.035, 0.035, 0.035],
  },
  'short-scrape': {
    thickness: {
      fromTipMm: [0, 0.5, 1, 2, 3, 5, 6, 8, 10, 10.1],
      across: [0, 0.4, 0.8],
      floorMm: [
        [0.1, 0.08, 0.055],
        [0.105, 0.085, 0.06],
        [0.13, 0.11, 0.08],
        [0.175, 0.145, 0.105],
        [0.22, 0.19, 0.14],
        [0.32, 0.28, 0.22],
        [0.37, 0.32, 0.27],
        [0.46, 0.42, 0.4],
        [0.54, 0.53, 0.53],
        [null, null, null],
      ],
    },
    spreadMm: [0.015, 0.015, 0.015, 0.015, 0.02, 0.025, 0.025, 0.03, 0.03, 0.03],
  },
};
