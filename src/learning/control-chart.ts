import { InputError } from '../../shared/errors.ts';

/** Mean of the range of two normal values, in standard deviations. Source: 2 / sqrt(pi), tabulated as d2 in ISO 7870-2. */
const D2_OF_TWO = 2 / Math.sqrt(Math.PI);
const LONG_RUN = 9;
const LONG_TREND = 6;

/** Why a point of a control chart deserves a look. */
export type ChartSignal = 'outside the limits' | 'nine on one side' | 'six rising or falling';

export interface ControlChart {
  readonly centre: number;
  readonly lower: number;
  readonly upper: number;
  /** Scatter from one piece to the next, one standard deviation. */
  readonly sd: number;
  /** Signals by point, in the order of the values. */
  readonly signals: readonly (readonly ChartSignal[])[];
}

/**
 * Control chart of single values with limits from their moving ranges: three standard deviations either side.
 *
 * Source: ISO 7870-2 (charts for individuals); runs of nine and trends of six by Nelson 1984.
 *
 * @param values At least 8, in the order in which the pieces were made.
 * @throws InputError with fewer than 8 values or one that is not finite.
 */
export function controlChart(values: readonly number[]): ControlChart {
  if (values.length < 8) throw new InputError(`values: must be at least 8, got ${values.length}`);
  values.forEach((value, i) => {
    if (!Number.isFinite(value)) throw new InputError(`values[${i}]: must be finite, got ${value}`);
  });
  const centre = mean(values);
  const sd = mean(values.slice(1).map((value, i) => Math.abs(value - values[i]!))) / D2_OF_TWO;
  const [lower, upper] = [centre - 3 * sd, centre + 3 * sd];
  const signals = values.map((value, i) => {
    const found: ChartSignal[] = [];
    if (value < lower || value > upper) found.push('outside the limits');
    if (sameSide(values.slice(0, i + 1).slice(-LONG_RUN), centre)) found.push('nine on one side');
    if (isTrend(values.slice(0, i + 1).slice(-LONG_TREND))) found.push('six rising or falling');
    return found;
  });
  return { centre, lower, upper, sd, signals };
}

function mean(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0) / values.length;
}

function sameSide(values: readonly number[], centre: number): boolean {
  return (
    values.length === LONG_RUN &&
    (values.every((value) => value > centre) || values.every((value) => value < centre))
  );
}

function isTrend(values: readonly number[]): boolean {
  if (values.length < LONG_TREND) return false;
  const steps = values.slice(1).map((value, i) => value - values[i]!);
  return steps.every((step) => step > 0) || steps.every((step) => step < 0);
}
