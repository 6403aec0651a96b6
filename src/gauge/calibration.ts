import type { Gauge } from '../../shared/gauge.ts';
import { fitStraightLine, type StraightLine } from './straight-line.ts';
import { resolutionU } from './resolution.ts';

export type GaugeCheck = Gauge['checks'][number];

/** One check of a gauge, as the history shows it. */
export interface CheckResult {
  readonly takenAt: string;
  readonly zeroMm?: number;
  /** Shown thickness against true thickness, where two or more known thicknesses were read. */
  readonly line?: StraightLine;
  /** The slope differs from that of the check before by more than 1.96 standard uncertainties. */
  readonly spanMoved: boolean;
}

/** One known thickness of a check: what it is, and the mean that was shown for it, counted from the check's own zero, mm. */
export interface KnownMean {
  readonly nominalMm: number;
  readonly shownMm: number;
  /** Standard uncertainty of the mean beside the true thickness. */
  readonly uMm: number;
}

/**
 * Means of what was shown for known thicknesses. Their uncertainty: resolution, scatter of repeats, and that of the known
 * thickness, as the gauge's slope is near enough 1 to pass it on whole.
 *
 * @param stepMm Smallest step of the display.
 * @param sdMm Scatter of one reading, one standard deviation, resolution included.
 */
export function knownMeans({ known, zeroMm = 0 }: GaugeCheck, stepMm: number, sdMm: number): KnownMean[] {
  return known.map(({ nominalMm, nominalUMm, shownMm }) => ({
    nominalMm,
    shownMm: shownMm.reduce((sum, value) => sum + value, 0) / shownMm.length - zeroMm,
    uMm: Math.hypot(nominalUMm, resolutionU(stepMm), sdMm / Math.sqrt(shownMm.length)),
  }));
}

/**
 * The gauge's line, shown thickness against known thickness, from one check; undefined with fewer than two different
 * known thicknesses. Parameters as for `knownMeans`.
 */
export function calibrationLine(check: GaugeCheck, stepMm: number, sdMm: number): StraightLine | undefined {
  if (new Set(check.known.map(({ nominalMm }) => nominalMm)).size < 2) return undefined;
  const means = knownMeans(check, stepMm, sdMm);
  return fitStraightLine(
    means.map(({ nominalMm }) => nominalMm),
    means.map(({ shownMm }) => shownMm),
    means.map(({ uMm }) => uMm),
  );
}

/** All checks of a gauge in the order of their times, each compared with the span check before it. */
export function checkHistory(
  checks: readonly GaugeCheck[],
  stepMm: number,
  sdMm: number,
): readonly CheckResult[] {
  let before: StraightLine | undefined;
  return inOrderOfTime(checks).map((check) => {
    const line = calibrationLine(check, stepMm, sdMm);
    const spanMoved =
      line !== undefined &&
      before !== undefined &&
      Math.abs(line.slope - before.slope) > 1.96 * Math.hypot(line.uSlope, before.uSlope);
    before = line ?? before;
    return {
      takenAt: check.takenAt,
      ...(check.zeroMm !== undefined && { zeroMm: check.zeroMm }),
      ...(line && { line }),
      spanMoved,
    };
  });
}

/** The line that holds at a moment: that of the last span check up to then, or of the first where all came later. */
export function lineAt(history: readonly CheckResult[], moment: string): StraightLine | undefined {
  const spans = history.filter(({ line }) => line !== undefined);
  const upTo = spans.filter(({ takenAt }) => Date.parse(takenAt) <= Date.parse(moment));
  return (upTo.at(-1) ?? spans[0])?.line;
}

function inOrderOfTime(checks: readonly GaugeCheck[]): readonly GaugeCheck[] {
  return [...checks].sort((a, b) => Date.parse(a.takenAt) - Date.parse(b.takenAt));
}
