import type { Blade } from '../../shared/blade.ts';
import type { SparseWeights } from '../numerics/sparse-row.ts';
import type { UniformBSpline } from '../numerics/uniform-b-spline.ts';

/** One reading after correction, ready to be fitted. */
export interface FitReading {
  readonly blade: Blade;
  /** Distance from the pass's own tip, mm. */
  readonly fromTipMm: number;
  readonly across: number;
  readonly thicknessMm: number;
  /** Number of repeats averaged into it, 1 or more. */
  readonly repeats: number;
  /** Known factor on the noise of this reading: 1 for a sound one, more for one marked weak or doubtful. */
  readonly noiseFactor: number;
  /** When it was taken: 0 for the first reading of its pass, 1 for the last; absent where that is not known. */
  readonly time?: number;
  /** How much thicker it reads than its place would, if labels of its pass were taken for each other, mm; absent where that is not asked. */
  readonly mislabelledMm?: number | undefined;
}

/** Where a pass stands on the cane, and the outline of the blade then. */
export interface PassGeometry {
  readonly index: number;
  /** Tip to cork end, mm: z = overallLengthMm - fromTipMm is the registration coordinate. */
  readonly overallLengthMm: number;
  /** Distance from the tip at which the blade ends, mm. */
  readonly bladeLengthMm: number;
  /** Half the blade's width at a distance from this pass's tip, mm. */
  readonly halfWidthMm: (fromTipMm: number) => number;
}

export interface FitPass extends PassGeometry {
  readonly readings: readonly FitReading[];
}

/**
 * The surface of one blade after a pass, or what went between two: its coefficients are normal with this mean and
 * covariance, given the errors that readings share (zero, span, wetness, length). By all readings of all passes.
 */
export interface BladePosterior {
  /** n coefficients; the shared errors as likely as they are. */
  readonly mean: Float64Array;
  /** n x n, row by row; written out when it is first asked for where readings were added since the fit. */
  readonly covariance: Float64Array;
  /** The same as a sum, where readings were added since the fit. */
  readonly narrowed?: Narrowed;
  /** n x k, row by row: how the coefficients move with each shared error. */
  readonly loadings: Float64Array;
}

/** A covariance that readings have narrowed: `from`, n x n, less r r' for each r in `by`. */
export interface Narrowed {
  readonly from: Float64Array;
  readonly by: readonly Float64Array[];
}

/** Where `noiseMm` comes from, best first. */
export type NoiseSource = 'repeats' | 'study' | 'passes' | 'declared' | 'residuals';

/**
 * A derivative of a surface: along by the distance from the tip in mm, on a line of one place across; across by u. Twice for
 * how it bends.
 */
export type Derivative = 'along' | 'across' | 'along-twice' | 'across-twice';

/** How often a derivative differentiates along and across; none for the value itself. */
export function ordersOf(derivative: Derivative | undefined): {
  readonly along: number;
  readonly across: number;
} {
  const order = derivative === undefined ? 0 : derivative.endsWith('twice') ? 2 : 1;
  return derivative?.startsWith('along') ? { along: order, across: 0 } : { along: 0, across: order };
}

/** A place on the surface of one blade after one pass. */
export interface SurfacePlace {
  readonly blade: Blade;
  /** Place of the pass in the model's list. */
  readonly pass: number;
  readonly fromTipMm: number;
  readonly across: number;
  /** Absent for the value itself. */
  readonly derivative?: Derivative;
}

/** Everything the readings say of a reed's surfaces, after every pass. */
export interface ReedModel {
  readonly passes: readonly PassGeometry[];
  /** Blades that were read, after the last pass. */
  readonly blades: Readonly<Partial<Record<Blade, BladePosterior>>>;
  /** A blade's surface after a pass; where a pass did not read it, as the pass before left it. */
  readonly after: (blade: Blade, pass: number) => BladePosterior;
  /** The mean of the same, which is sooner found. */
  readonly meanAfter: (blade: Blade, pass: number) => Float64Array;
  /** A blade's surface after a pass less that after a later one: its weights at a place give what went there. */
  readonly taken: (blade: Blade, before: number, after: number) => BladePosterior;
  /** Figures of one blade, of any passes, with all that they have in common. */
  readonly together: (blade: Blade, figures: readonly (readonly PassWeights[])[]) => Together;
  /** k x k, row by row: covariance of the shared errors. */
  readonly sharedCovariance: Float64Array;
  /** Seating noise of one reading, resolution included, placement excluded; one standard deviation, mm. */
  readonly noiseMm: Readonly<Partial<Record<Blade, number>>>;
  readonly noiseFrom: NoiseSource;
  /**
   * Adds `factor` times the weights that give a place of a surface: the value, or a derivative of it. They are those of the
   * cane, the same after every pass; `pass` (its place in `passes`) says from which tip the place is counted.
   *
   * @param target n coefficients of the blade.
   * @throws InputError for a blade that was never read.
   */
  readonly addWeights: (target: Float64Array, at: SurfacePlace, factor: number) => void;
  /** The splines across: at one distance every surface is a cubic spline in u on this basis. */
  readonly across: UniformBSpline;
  /**
   * Weights that give each coefficient of that spline, or of its derivative along: what all places of a line across share.
   *
   * @returns across.count rows.
   */
  readonly lineWeights: (line: SurfaceLine) => readonly SparseWeights[];
}

/** A line across the surface of one blade after one pass. */
export interface SurfaceLine extends Pick<SurfacePlace, 'blade' | 'pass' | 'fromTipMm'> {
  readonly derivative?: 'along';
}

/** Weights of a blade's surface after one pass. */
export interface PassWeights {
  readonly pass: number;
  /** n coefficients. Not changed afterwards. */
  readonly weights: Float64Array;
}

/** A figure that is linear in the surfaces: a sum over blades and passes of weights times the surface's coefficients. */
export type Functional = Readonly<Partial<Record<Blade, readonly PassWeights[]>>>;

/** Figures of one blade. */
export interface Together {
  readonly valuesMm: Float64Array;
  /** Covariance, the shared errors given: n x n, row by row, mm2. */
  readonly own: Float64Array;
  /** How each moves with the shared errors. */
  readonly loads: readonly Float64Array[];
}

export type { Estimate } from '../../shared/estimate.ts';
