import type { Predictive } from '../../../src/family/predictive.ts';

/** A family with given covariances at a few stations on the heart, the same at each. */
export function knownFamily(
  places: Predictive['stations'],
  { meanMm, commonMm2, ownMm2 }: { meanMm: number; commonMm2: number; ownMm2: number },
): Predictive {
  const m = places.length;
  const all = (value: number) => new Float64Array(m * m).fill(value);
  return {
    stations: places,
    meanMm: new Float64Array(m).fill(meanMm),
    common: all(commonMm2),
    own: Float64Array.from({ length: m * m }, (_, k) => (k % (m + 1) === 0 ? ownMm2 : 0)),
    meanCovariance: all(0),
    leans: places.map(() => ({ along: 0, across: 0 })),
    ...{ placementMm: 0, reeds: 30, dof: 33 },
    frame: { ridgeFromTipMm: 4.5, rise: 0.12, logPrecisions: [6, 1.6], lengthMm: 23 },
  };
}
