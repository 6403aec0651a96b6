import { BLADES, type Blade } from '../../shared/blade.ts';
import { InputError } from '../../shared/errors.ts';
import type { ReedAtPass } from '../answers/fitted-reed.ts';
import { thicknessMap, type MapGrid } from '../figures/surface-map.ts';
import { wasRead } from './was-read.ts';

/** What one blade is being brought to, at every place of a grid; NaN where the examples were not read. */
export interface BladeTarget {
  readonly meanMm: Float64Array;
  /** Doubt of the mean itself, one standard uncertainty. */
  readonly uMm: Float64Array;
  /** How much the maker's own favourites differ from each other there, one standard deviation; 0 for a single reed. */
  readonly spreadMm: Float64Array;
}

/** Something that varies over the blades. */
export type OverBlade = (fromTipMm: number, across: number, blade: Blade) => number;

/** A reed's share in a target. */
export interface TargetPart {
  readonly reed: ReedAtPass;
  readonly share: OverBlade;
  /** Where on the example lies what is compared with a place of the reed, both in mm from the tip. */
  readonly placeOn: (fromTipMm: number) => number;
}

const samePlace = (fromTipMm: number) => fromTipMm;

/**
 * What a reed is being brought to: places are distances from the tip. Everywhere it is the sum of its parts, each times its
 * share, and of `addedMm`; `blades` holds the same on a grid, with the doubts.
 */
export interface Target {
  readonly name: string;
  readonly from: 'a reed' | 'several reeds' | 'tip and back' | 'by hand' | 'common practice';
  readonly grid: MapGrid;
  readonly blades: Readonly<Partial<Record<Blade, BladeTarget>>>;
  readonly parts: readonly TargetPart[];
  readonly addedMm: OverBlade;
}

const bladesOf = (target: Target) => BLADES.filter((blade) => target.blades[blade]);
export const none = () => 0;
const whole: OverBlade = () => 1;

/** One favourite as it was at a pass, where it was read; at equal distance from the tip unless `placeOn` says otherwise. */
export function targetFromReed(reed: ReedAtPass, grid: MapGrid, placeOn = samePlace): Target {
  const { benched, pass } = reed;
  const { model } = benched;
  if (!model) throw new InputError(`reed: ${benched.reed.label} has no readings`);
  const there = { ysMm: grid.ysMm.map(placeOn), us: grid.us };
  const blades: Partial<Record<Blade, BladeTarget>> = {};
  for (const blade of BLADES.filter((name) => model.blades[name])) {
    const { valuesMm, uMm } = thicknessMap(model, blade, pass, there);
    const read = wasRead(reed, blade, there);
    blades[blade] = {
      meanMm: valuesMm.map((value, i) => (read[i] === 1 ? value : NaN)),
      uMm,
      spreadMm: new Float64Array(valuesMm.length),
    };
  }
  return {
    name: benched.reed.label,
    from: 'a reed',
    grid,
    blades,
    parts: [{ reed, share: whole, placeOn }],
    addedMm: none,
  };
}

/** The reed that a target is, at equal distances from the tip, neither scaled nor mixed; undefined for any other target. */
export function plainReed({ parts, addedMm }: Target): ReedAtPass | undefined {
  const [part] = parts;
  const isPlain = parts.length === 1 && part?.share === whole && addedMm === none;
  return isPlain && part.placeOn === samePlace ? part.reed : undefined;
}

/** What reeds of one maker usually differ by, mm, and how many reeds that guess is worth. Common practice, no source. */
export const USUAL_SPREAD_MM = 0.015;
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
  const n = targets.length;
  const blades: Partial<Record<Blade, BladeTarget>> = {};
  for (const blade of BLADES) {
    const read = targets.flatMap((target) => target.blades[blade] ?? []);
    if (read.length === n) blades[blade] = pooled(read);
  }
  const parts = targets.flatMap((target) =>
    target.parts.map((part): TargetPart => ({ ...part, share: (...at) => part.share(...at) / n })),
  );
  const addedMm: OverBlade = (...at) => targets.reduce((sum, target) => sum + target.addedMm(...at), 0) / n;
  return { name, from: 'several reeds', grid, blades, parts, addedMm };
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
  const shareOfBack = (y: number) => {
    const s = Math.min(1, Math.max(0, (y - atMm) / overMm + 0.5));
    return s * s * (3 - 2 * s);
  };
  const columns = tip.grid.us.length;
  const shares = Float64Array.from({ length: columns * tip.grid.ysMm.length }, (_, i) =>
    shareOfBack(tip.grid.ysMm[Math.floor(i / columns)]!),
  );
  // Where one has no share at all, it need not have been read.
  const mixed = (a: Float64Array, b: Float64Array) =>
    a.map((value, i) => {
      if (shares[i] === 0) return value;
      return shares[i] === 1 ? b[i]! : value + shares[i]! * (b[i]! - value);
    });
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
  const part =
    (weight: (y: number) => number) =>
    (own: TargetPart): TargetPart => ({ ...own, share: (y, ...at) => weight(y) * own.share(y, ...at) });
  return {
    name: `tip of ${tip.name}, back of ${back.name}`,
    from: 'tip and back',
    grid: tip.grid,
    blades,
    parts: [...tip.parts.map(part((y) => 1 - shareOfBack(y))), ...back.parts.map(part(shareOfBack))],
    addedMm: (y, ...at) =>
      (1 - shareOfBack(y)) * tip.addedMm(y, ...at) + shareOfBack(y) * back.addedMm(y, ...at),
  };
}

/** The same target, thicker or thinner by an amount everywhere. */
export function offsetTarget(target: Target, offsetMm: number): Target {
  const blades = Object.fromEntries(
    bladesOf(target).map((blade) => {
      const own = target.blades[blade]!;
      return [blade, { ...own, meanMm: own.meanMm.map((value) => value + offsetMm) }];
    }),
  );
  return { ...target, blades, addedMm: (...at) => target.addedMm(...at) + offsetMm };
}

/** The same target with every thickness times a factor that may vary over the blade. */
export function scaledTarget(target: Target, factor: OverBlade): Target {
  const { ysMm, us } = target.grid;
  const blades = Object.fromEntries(
    bladesOf(target).map((blade) => {
      const factors = ysMm.flatMap((y) => us.map((u) => factor(y, u, blade)));
      const times = (values: Float64Array) => values.map((value, i) => value * factors[i]!);
      const { meanMm, uMm, spreadMm } = target.blades[blade]!;
      return [blade, { meanMm: times(meanMm), uMm: times(uMm), spreadMm: times(spreadMm) }];
    }),
  );
  return {
    ...target,
    blades,
    parts: target.parts.map((part) => ({ ...part, share: (...at) => part.share(...at) * factor(...at) })),
    addedMm: (...at) => target.addedMm(...at) * factor(...at),
  };
}
