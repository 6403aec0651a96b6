// What zones mean beyond where they lie, by the names that the starting styles give them. A zone of another name is
// measured and scraped as any, and means nothing more.

/** Stands where the centre passes the blend's thickness. */
export const BLEND_ZONE = 'blend';
/** Lead from the tip to the heart. */
export const BLEND_ZONES: readonly string[] = [BLEND_ZONE, 'slope-upper', 'slope-lower'];
/** Is measured against the gouge. */
export const HEART_ZONE = 'heart';
/** Are heard where they are uneven. */
export const CORNERS_ZONE = 'corners';
/** Are worked last. */
export const TIP_ZONES: readonly string[] = ['tip', CORNERS_ZONE];
/** Zones whose ratios survive another gouge, wetness and gauge. Common practice, no source. */
export const RATIO_PAIRS = [
  [CORNERS_ZONE, 'tip'],
  ['tip', HEART_ZONE],
  ['heart-sides', HEART_ZONE],
  ['spine', HEART_ZONE],
  ['windows', 'spine'],
  ['tip', 'slope-lower'],
  ['flanks', 'slope-lower'],
  ['catch', 'slope-lower'],
] as const;
