import type { ReliefBlade } from '../relief/relief-data.ts';
import { ripplePlaces } from '../../src/figures/ripple.ts';
import { Arch } from './arch.ts';
import { BladeField } from './blade-field.ts';
import type { Vec3 } from './vec3.ts';

/** A ripple of this height has full shade, mm. */
const FULL_RIPPLE_MM = 0.006;
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
    return ripplePlaces(fromTipMm, across, this.blade.bladeLengthMm).reduce(
      (sum, place) => sum + place.factor * this.thickness.at(place.fromTipMm, place.across),
      0,
    );
  }

  /** -1 to 1: how strongly a ripple is shaded; 0 where it is inside its doubt. */
  shadeOfRipple(fromTipMm: number, across: number): number {
    return Math.min(Math.max(this.ripples.at(fromTipMm, across) / FULL_RIPPLE_MM, -1), 1);
  }
}
