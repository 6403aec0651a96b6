/**
 * A coordinate along the blade that runs faster where tip turns into heart, so that one smoothness serves both the
 * steep ridge there and the calm rest. Only + - x / and sqrt.
 */
export interface Warp {
  /** Place of the ridge, mm from the cork end. */
  readonly ridgeMm: number;
  /** Half-width of the stretched part, mm. */
  readonly widthMm: number;
  /** How much faster it runs there: 1 + strength at the ridge, 1 far away. */
  readonly strength: number;
}

export function warped({ ridgeMm, widthMm, strength }: Warp, zMm: number): number {
  const x = (zMm - ridgeMm) / widthMm;
  return zMm + (strength * widthMm * x) / Math.sqrt(1 + x * x);
}

/** Derivative of the warped coordinate by z. */
export function warpRate({ ridgeMm, widthMm, strength }: Warp, zMm: number): number {
  const x = (zMm - ridgeMm) / widthMm;
  const root = Math.sqrt(1 + x * x);
  return 1 + strength / (root * root * root);
}

/** Second derivative of the warped coordinate by z. */
export function warpBend({ ridgeMm, widthMm, strength }: Warp, zMm: number): number {
  const x = (zMm - ridgeMm) / widthMm;
  const square = 1 + x * x;
  return (-3 * strength * x) / (widthMm * square * square * Math.sqrt(square));
}
