import type { Station } from '../surface/learned-prior.ts';
import type { Lean } from './interpolation.ts';

/** One way in which a maker's reeds stray: how far, and how far along (mm) and across (u) it hangs together. */
interface Part {
  /** Share of the thickness, or mm along the blade where the ridge moves; one standard deviation. */
  readonly sd: number;
  readonly alongMm: number;
  readonly across: number;
  readonly of: 'thickness' | 'ridge';
}

/** Before any reed tells. Common practice, no source; evidence scales the whole. */
export const COMMON_PARTS: readonly Part[] = [
  { sd: 0.05, alongMm: 6, across: 2.5, of: 'thickness' },
  { sd: 0.008, alongMm: 1.8, across: 0.6, of: 'thickness' },
  { sd: 0.3, alongMm: 4, across: 1.5, of: 'ridge' },
];
export const OWN_PARTS: readonly Part[] = [
  { sd: 0.02, alongMm: 8, across: 1.5, of: 'thickness' },
  { sd: 0.008, alongMm: 1.6, across: 0.5, of: 'thickness' },
  { sd: 0.06, alongMm: 4, across: 1, of: 'ridge' },
];

/**
 * Covariance of the parts at the stations, m x m.
 *
 * @param leans By the distance from the tip, at each; none where no ridge is known.
 */
export function baseCovariance(
  parts: readonly Part[],
  stations: readonly Station[],
  meanMm: Float64Array,
  leans: readonly Pick<Lean, 'along'>[],
): Float64Array {
  const m = stations.length;
  const covariance = new Float64Array(m * m);
  stations.forEach((a, i) =>
    stations.forEach((b, j) => {
      const [along, across] = [Math.abs(a.fromTipMm - b.fromTipMm), Math.abs(a.across - b.across)];
      for (const { sd, of, ...range } of parts) {
        const size =
          of === 'thickness' ? meanMm[i]! * meanMm[j]! : (leans[i]?.along ?? 0) * (leans[j]?.along ?? 0);
        covariance[i * m + j]! +=
          sd * sd * size * matern(along / range.alongMm) * matern(across / range.across);
      }
    }),
  );
  return covariance;
}

/** Matérn correlation of smoothness 5/2. Source: Rasmussen & Williams 2006, eq. 4.17, from memory. */
function matern(distance: number): number {
  const a = Math.sqrt(5) * distance;
  return (1 + a + (a * a) / 3) * Math.exp(-a);
}
