import { BLADES, type Blade } from '../../shared/blade.ts';
import { InputError } from '../../shared/errors.ts';
import type { ReedAtPass } from '../answers/benched-reed.ts';
import { thicknessMap, type MapGrid } from '../figures/surface-map.ts';

/** What one blade is being brought to, at every place of a grid. */
export interface BladeTarget {
  readonly meanMm: Float64Array;
  /** Doubt of the mean itself, one standard uncertainty. */
  readonly uMm: Float64Array;
  /** How much the maker's own favourites differ from each other there, one standard deviation; 0 for a single reed. */
  readonly spreadMm: Float64Array;
}

/** What a reed is being brought to: places are distances from the tip. */
export interface Target {
  readonly name: string;
  readonly from: 'a reed' | 'several reeds' | 'tip and back' | 'by hand' | 'common practice';
  readonly grid: MapGrid;
  readonly blades: Readonly<Partial<Record<Blade, BladeTarget>>>;
}

const bladesOf = (target: Target) => BLADES.filter((blade) => target.blades[blade]);

/** One favourite as it was at a pass. */
export function targetFromReed({ benched, pass }: ReedAtPass, grid: MapGrid): Target {
  const model = benched.model;
  if (!model) throw new InputError(`reed: ${benched.reed.label} has no readings`);
  const blades: Partial<Record<Blade, BladeTarget>> = {};
  for (const blade of BLADES.filter((name) => model.blades[name])) {
    const { valuesMm, uMm } = thicknessMap(model, blade, pass, grid);
    blades[blade] = { meanMm: valuesMm, uMm, spreadMm: new Float64Array(valuesMm.length) };
  }
  return { name: benched.reed.label, from: 'a reed', grid, blades };
}

/** What reeds of one maker usually differ by, mm, and how many reeds that guess is worth. Common practice, no source. */
const USUAL_SPREAD_MM = 0.015;
const USUAL_SPREAD_WEIGHT = 4;

/**
 * Mean of several favourites with their spread, drawn towards a usual spread while they are few.
 *
 * Source: scaled inverse chi-square prior for a variance; Gelman et al., Bayesian Data Analysis, section 2.6, from memory.
 *
 * @param targets Two or more on the same grid.
 * @throws InputError for fewer than two.
 */
export function targetFromSeveral(name: string, targets: readonly Target[]): Target {
  if (targets.length < 2) throw new InputError(`targets: must be at least 2, got ${targets.length}`);
  const [{ grid }] = targets as [Target, ...Target[]];
  const blades: Partial<Record<Blade, BladeTarget>> = {};
  for (const blade of BLADES) {
    const read = targets.flatMap((target) => target.blades[blade] ?? []);
    if (read.length === targets.length) blades[blade] = pooled(read);
  }
  return { name, from: 'several reeds', grid, blades };
}

function pooled(read: readonly BladeTarget[]): BladeTarget {
  const n = read.length;
  const meanMm = read[0]!.meanMm.map((_, i) => read.reduce((sum, { meanMm: own }) => sum + own[i]!, 0) / n);
  const spreadMm = meanMm.map((mean, i) => {
    const squares = read.reduce(
      (sum, { meanMm: own, uMm }) => sum + Math.max(0, (own[i]! - mean) ** 2 - uMm[i]! ** 2 * (1 - 1 / n)),
      0,
    );
    return Math.sqrt((USUAL_SPREAD_WEIGHT * USUAL_SPREAD_MM ** 2 + squares) / (USUAL_SPREAD_WEIGHT + n - 1));
  });
  const uMm = meanMm.map((_, i) => Math.sqrt(read.reduce((sum, { uMm: own }) => sum + own[i]! ** 2, 0)) / n);
  return { meanMm, uMm, spreadMm };
}

/**
 * The tip of one target and the back of another, going over smoothly.
 *
 * @param atMm Middle of the change, mm from the tip.
 * @param overMm Length of the change, above 0.
 */
export function hybridTarget(tip: Target, back: Target, atMm: number, overMm: number): Target {
  const columns = tip.grid.us.length;
  const shareOfBack = (i: number) => {
    const s = Math.min(1, Math.max(0, (tip.grid.ysMm[Math.floor(i / columns)]! - atMm) / overMm + 0.5));
    return s * s * (3 - 2 * s);
  };
  const mixed = (a: Float64Array, b: Float64Array) =>
    a.map((value, i) => value + shareOfBack(i) * (b[i]! - value));
  const blades: Partial<Record<Blade, BladeTarget>> = {};
  for (const blade of bladesOf(tip)) {
    const [a, b] = [tip.blades[blade]!, back.blades[blade]];
    if (!b) continue;
    blades[blade] = {
      meanMm: mixed(a.meanMm, b.meanMm),
      uMm: mixed(a.uMm, b.uMm),
      spreadMm: mixed(a.spreadMm, b.spreadMm),
    };
  }
  return { name: `tip of ${tip.name}, back of ${back.name}`, from: 'tip and back', grid: tip.grid, blades };
}

/** The same target, thicker or thinner by an amount everywhere. */
export function offsetTarget(target: Target, offsetMm: number): Target {
  const blades = Object.fromEntries(
    bladesOf(target).map((blade) => {
      const own = target.blades[blade]!;
      return [blade, { ...own, meanMm: own.meanMm.map((value) => value + offsetMm) }];
    }),
  );
  return { ...target, blades };
}
