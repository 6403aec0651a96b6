/** One of a reed's two blades; the maker marks A. */
export const BLADES = ['A', 'B'] as const;
export type Blade = (typeof BLADES)[number];

/** A place on a blade, seen from its bark side with the tip up. */
export interface Place {
  readonly blade: Blade;
  /** Distance from the present tip at the centre line, mm. */
  readonly fromTipMm: number;
  /** Fraction of the half-width, -1 at the left edge, +1 at the right. */
  readonly across: number;
}

/** The place that lies opposite on the other blade: A at u faces B at -u. */
export function facing({ blade, fromTipMm, across }: Place): Place {
  return { blade: blade === 'A' ? 'B' : 'A', fromTipMm, across: across === 0 ? 0 : -across };
}
