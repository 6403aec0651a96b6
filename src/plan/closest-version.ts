import type { ReedModel } from '../surface/reed-model.ts';
import { differencesFrom, type TargetDifference } from './excess.ts';
import type { Target } from './target.ts';

/** A clip and a common thickness offset, and what they leave to wish for. */
export interface Version {
  readonly clipMm: number;
  /** Added to the target everywhere: negative when the reed can only become a thinner version of it. */
  readonly offsetMm: number;
  /** Mean lack over both blades, mm. */
  readonly lackMm: number;
  /** Mean excess over both blades, mm: what there is to scrape. */
  readonly excessMm: number;
  /** A robust misfit by which versions are compared; smaller is closer. */
  readonly misfit: number;
}

const CLIP_STEP_MM = 0.025;
const OFFSET_BOUND_MM = 0.06;
/** Beyond this many standard uncertainties a place counts as something to scrape and no longer pulls. */
const EXCESS_REACH = 0.6;

/**
 * Misfit of one place: grows with lack without end (linearly when it is large), and with excess only a little way,
 * because excess is what the knife is for.
 */
function misfitOf(deviation: number): number {
  if (deviation > 0) return 0.5 * EXCESS_REACH ** 2 * (1 - Math.exp(-((deviation / EXCESS_REACH) ** 2)));
  return deviation < -EXCESS_REACH
    ? EXCESS_REACH * (-deviation - EXCESS_REACH / 2)
    : 0.5 * deviation * deviation;
}

/** Beyond the outermost stations the surface is drawn out, not read: the rim has no say. */
const INNER = 0.8;
const TIP_EDGE_MM = 0.5;

function evaluate(maps: readonly TargetDifference[], offsetMm: number): Omit<Version, 'clipMm' | 'offsetMm'> {
  let [lack, excess, misfit, count] = [0, 0, 0, 0];
  for (const { valuesMm, uMm, us, ysMm } of maps) {
    valuesMm.forEach((value, i) => {
      const isRim = Math.abs(us[i % us.length]!) > INNER || ysMm[Math.floor(i / us.length)]! < TIP_EDGE_MM;
      if (isRim || !Number.isFinite(value)) return;
      const deviation = value - offsetMm;
      lack += Math.max(0, -deviation);
      excess += Math.max(0, deviation);
      misfit += misfitOf(deviation / uMm[i]!);
      count += 1;
    });
  }
  return { lackMm: lack / count, excessMm: excess / count, misfit: misfit / count };
}

/** The offset with the least misfit: a scan, then thirds. */
function bestOffset(maps: readonly TargetDifference[]): number {
  const at = (offsetMm: number) => evaluate(maps, offsetMm).misfit;
  let best = 0;
  for (let offset = -OFFSET_BOUND_MM; offset <= OFFSET_BOUND_MM; offset += 0.004)
    if (at(offset) < at(best)) best = offset;
  let [low, high] = [best - 0.004, best + 0.004];
  for (let k = 0; k < 25; k++) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (at(a) < at(b)) high = b;
    else low = a;
  }
  return (low + high) / 2;
}

/** What a clip would make of the reed against a target, with or without a common offset. */
export function versionAt(
  model: ReedModel,
  pass: number,
  target: Target,
  clipMm: number,
  offset: 'none' | 'best' = 'none',
): Version {
  const maps = differencesFrom(model, pass, target, clipMm);
  const offsetMm = offset === 'best' ? bestOffset(maps) : 0;
  return { clipMm, offsetMm, ...evaluate(maps, offsetMm) };
}

/**
 * The clip, up to a bound, and the common offset for which the target can be reached best.
 *
 * @param longestClipMm 0 or more.
 */
export function closestVersion(
  model: ReedModel,
  pass: number,
  target: Target,
  longestClipMm: number,
): Version {
  let best = versionAt(model, pass, target, 0, 'best');
  for (let clip = CLIP_STEP_MM; clip <= longestClipMm + 1e-9; clip += CLIP_STEP_MM) {
    const version = versionAt(model, pass, target, clip, 'best');
    if (version.misfit < best.misfit) best = version;
  }
  return best;
}
