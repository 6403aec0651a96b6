import {
  controlChanges,
  explain,
  type Cane,
  type Explanation,
  type JudgedPass,
  type Noise,
} from './explanation.ts';
import type { OffsetSuspicion } from './suspicion.ts';

/** Swelling between two passes of a careful maker, one standard deviation. Common practice, no source. */
const USUAL_SWELLING = 0.005;
/** Untouched cane moved: by this many standard deviations, fewer when soaking explains it. */
const MOVED_SD = 2.3;
const MOVED_AND_SOAKED_SD = 1.8;
/** Soaked this many times as long as before, or as short. */
const SOAKED_LONGER = 1.5;
/** How much better a moved zero must explain the pass than swelling, as log-likelihood. */
const ZERO_MUST_GAIN = 1.5;
const ZERO_MUST_GAIN_SOAKED = 4;

/** A moved zero or swelling that untouched cane shows; undefined where it held, or where one of the two is found already. */
export function untouchedMoved(
  pass: JudgedPass,
  cane: Cane,
  noise: Noise,
  before: Explanation,
): { suspicion: OffsetSuspicion; explanation: Explanation; evidence: number } | undefined {
  if (before.suspicions.some(({ kind }) => kind === 'swelling' || kind === 'zero')) return undefined;
  const changes = controlChanges(pass, cane, noise, before.labelling);
  const n = changes.length;
  if (n === 0) return undefined;
  const mean = changes.reduce((sum, { changeMm, expectedMm }) => sum + changeMm / expectedMm, 0) / n;
  const variance = changes.reduce((sum, { uMm, expectedMm }) => sum + (uMm / expectedMm) ** 2, 0) / n ** 2;
  const sds = mean / Math.hypot(Math.sqrt(variance), USUAL_SWELLING);
  const soaked = soakedOtherwise(pass.soakMin, cane.soakMin) === Math.sign(mean);
  if (Math.abs(sds) < (soaked ? MOVED_AND_SOAKED_SD : MOVED_SD)) return undefined;
  const given = (kind: 'swelling' | 'zero') => {
    const suspicion = { kind, blade: 'both' } as const;
    return { suspicion, explanation: explain(pass, cane, noise, [...before.suspicions, suspicion]) };
  };
  const [swelling, zero] = [given('swelling'), given('zero')];
  const gain = zero.explanation.logLikelihood - swelling.explanation.logLikelihood;
  const likelier = gain > (soaked ? ZERO_MUST_GAIN_SOAKED : ZERO_MUST_GAIN) ? zero : swelling;
  return { ...likelier, evidence: 0.5 * sds ** 2 };
}

/** 1 for soaked longer than before, -1 for shorter, 0 for alike or not known. */
function soakedOtherwise(nowMin: number | undefined, beforeMin: number | undefined): number {
  if (nowMin === undefined || beforeMin === undefined) return 0;
  if (nowMin > SOAKED_LONGER * beforeMin) return 1;
  return nowMin * SOAKED_LONGER < beforeMin ? -1 : 0;
}
