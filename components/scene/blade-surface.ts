import type { ReliefBlade } from '../relief/relief-data.ts';
import { Arch } from './arch.ts';
import { BladeField } from './blade-field.ts';
import type { Vec3 } from './vec3.ts';

/** Surroundings that a ripple is held against: mm along, fractions of the half-width across. */
const AROUND = { alongMm: 0.7, across: 0.13 };
/** A ripple of this height has full shade, mm. */
const FULL_RIPPLE_MM = 0.006;
/** Pairs about a place, so that an even slope is no ripple. */
const PAIRS = [
  [1, 0],
  [0, 1],
  [0.7, 0.7],
  [0.7, -0.7],
] as const;

/** A blade's thickness as a body in space: where a place stands, and how it stands out of its surroundings. */
export class BladeSurface {
  readonly blade: ReliefBlade;
  readonly thickness: BladeField;
  readonly arch: Arch;
  private readonly ripples: BladeField;

  constructor(blade: ReliefBlade, factor: number) {
    this.blade = blade;
    this.thickness = new BladeField(blade);
    this.arch = new Arch((y) => this.thickness.halfWidthMm(y), factor, blade.arch);
    const { us, ysMm, rippleDoubtMm } = blade;
    const ripples = Array.from(ysMm).flatMap((y, j) =>
      Array.from(us, (u, i) => {
        const ripple = this.rippleMm(y, u);
        return Math.abs(ripple) <= (rippleDoubtMm?.[j * us.length + i] ?? 0) ? 0 : ripple;
      }),
    );
    this.ripples = new BladeField(blade, ripples);
  }

  /** A point of the bark, lifted off it by some mm of the scene. */
  on(fromTipMm: number, across: number, liftMm = 0): Vec3 {
    const height = this.thickness.at(fromTipMm, across) + liftMm / this.arch.factor;
    return this.arch.point(fromTipMm, across, height);
  }

  /** How far a place stands out of its surroundings, mm. */
  rippleMm(fromTipMm: number, across: number): number {
    const own = this.thickness.at(fromTipMm, across);
    let [sum, count] = [0, 0];
    for (const [along, aside] of PAIRS) {
      const places = [1, -1].map(
        (way) => [fromTipMm + way * along * AROUND.alongMm, across + way * aside * AROUND.across] as const,
      );
      if (places.some(([y, u]) => y < 0 || Math.abs(u) > 1)) continue;
      for (const [y, u] of places) sum += this.thickness.at(y, u);
      count += 2;
    }
    return count === 0 ? 0 : own - sum / count;
  }

  /** -1 to 1: how strongly a ripple is shaded; 0 where it is inside its doubt. */
  shadeOfRipple(fromTipMm: number, across: number): number {
    return Math.min(Math.max(this.ripples.at(fromTipMm, across) / FULL_RIPPLE_MM, -1), 1);
  }
}
