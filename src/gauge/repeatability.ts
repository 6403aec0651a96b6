import { InputError } from '../../shared/errors.ts';
import { gaussLegendre } from '../numerics/gauss-legendre.ts';
import { logNormalInterval } from '../numerics/normal-distribution.ts';
import { resolutionU } from './resolution.ts';

/** What repeats of the same stations say of the gauge. */
export interface Repeatability {
  /** Scatter of one reading without its rounding, one standard deviation. */
  readonly seatingMm: number;
  /** Scatter of one reading with its rounding, one standard deviation. */
  readonly sdMm: number;
  /** Degrees of freedom behind it: readings less stations. */
  readonly dof: number;
}

const RULE = gaussLegendre(10);
/** Scatter from this fraction of the step, below which rounding hides it, to this many steps. */
const LEAST_STEPS = 0.05;
const GRID = 40;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * The gauge's own scatter from repeats at the same stations, by a likelihood that knows that readings are rounded: each
 * reading says only that the value lay within half a step of it. Each station's own thickness is integrated out, so that
 * few repeats do not make the scatter look smaller than it is.
 *
 * Where all repeats agree the rounding hides the scatter, and `seatingMm` is 0.
 *
 * @param stationsMm Repeats by station, each rounded to the step; stations read once say nothing and are passed over.
 * @param stepMm Smallest step of the display, positive.
 * @throws InputError where no station was read twice.
 */
export function repeatability(stationsMm: readonly (readonly number[])[], stepMm: number): Repeatability {
  if (!(stepMm > 0)) throw new InputError(`stepMm: must be positive, got ${stepMm}`);
  const repeated = stationsMm.filter((readings) => readings.length > 1);
  if (repeated.length === 0) throw new InputError('stationsMm: must hold a station that was read twice');
  const stations = patterns(repeated, stepMm);
  const spread = Math.max(...stations.map((station) => station.highest));
  const score = (logSd: number) => logLikelihood(stations, Math.exp(logSd));
  const [low, high] = [Math.log(LEAST_STEPS), Math.log(4 * (spread + 1))];
  const best = highest(score, low, high);
  const seatingMm = best - low < (high - low) / GRID ? 0 : stepMm * Math.exp(best);
  const dof = repeated.reduce((sum, readings) => sum + readings.length - 1, 0);
  return { seatingMm, sdMm: Math.hypot(seatingMm, resolutionU(stepMm)), dof };
}

/** Readings of one station in steps above its lowest, and how many stations read just so. */
interface Pattern {
  readonly steps: readonly number[];
  readonly highest: number;
  readonly stations: number;
}

function patterns(stationsMm: readonly (readonly number[])[], stepMm: number): readonly Pattern[] {
  const counts = new Map<string, number>();
  for (const readings of stationsMm) {
    const lowest = Math.min(...readings);
    const steps = readings.map((reading) => Math.round((reading - lowest) / stepMm)).sort((a, b) => a - b);
    const key = steps.join();
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  return [...counts].map(([key, stations]) => {
    const steps = key.split(',').map(Number);
    return { steps, highest: steps.at(-1)!, stations };
  });
}

function logLikelihood(stations: readonly Pattern[], sd: number): number {
  return stations.reduce((sum, pattern) => sum + pattern.stations * stationLogLikelihood(pattern, sd), 0);
}

/** Logarithm of the integral over the station's thickness, in steps. */
function stationLogLikelihood({ steps, highest: top }: Pattern, sd: number): number {
  const reach = 0.5 + 5 * sd;
  const panels = Math.ceil((top + 2 * reach) / (2 * sd));
  const width = (top + 2 * reach) / panels;
  const logs: number[] = [];
  for (let panel = 0; panel < panels; panel++)
    RULE.nodes.forEach((node, i) => {
      const centre = -reach + (panel + node) * width;
      let log = Math.log(width * RULE.weights[i]!);
      for (const step of steps) {
        const from = (step - 0.5 - centre) / sd;
        log += logNormalInterval(from, from + 1 / sd);
      }
      logs.push(log);
    });
  const most = Math.max(...logs);
  return most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
}

/** Place of the highest value: the best of a grid, then golden sections about it. */
function highest(f: (x: number) => number, low: number, high: number): number {
  const step = (high - low) / GRID;
  const values = Array.from({ length: GRID + 1 }, (_, i) => f(low + i * step));
  const top = values.indexOf(Math.max(...values));
  let [a, b] = [low + Math.max(top - 1, 0) * step, low + Math.min(top + 1, GRID) * step];
  while (b - a > 1e-9) {
    const [c, d] = [b - GOLDEN * (b - a), a + GOLDEN * (b - a)];
    if (f(c) > f(d)) b = d;
    else a = c;
  }
  return (a + b) / 2;
}
