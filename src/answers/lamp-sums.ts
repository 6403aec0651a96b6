import { combine, estimate, pointFunctional } from '../figures/functional.ts';
import { normalQuantile } from '../numerics/normal-distribution.ts';
import type { Estimate } from '../surface/reed-model.ts';
import type { FittedReed } from './fitted-reed.ts';
import { standingReadings } from './standing-readings.ts';

/** All cane in the way of the light at a station: A at `across`, and B behind it at minus that. */
export interface LampSum {
  readonly fromTipMm: number;
  readonly across: number;
  readonly sum: Estimate;
  /** Less the sum at the mirror place; absent on the centre line and where that was not read. */
  readonly sides?: Estimate;
  /** It is the thinner of two sides that differ surely, for all pairs of the reed at once. */
  readonly isThinner: boolean;
}

/** Two readings are of one place within this: mm along, shares of the half-width across. */
const SAME = { alongMm: 0.3, across: 0.1 };
const LEVEL = 0.95;

/** Sums through both blades after a pass at the stations that were read on both. */
export function lampSums({ assembled, model }: FittedReed, pass: number): LampSum[] {
  if (!model?.blades.A || !model.blades.B) return [];
  const standing = standingReadings({ assembled }, pass);
  const isRead = (blade: 'A' | 'B', fromTipMm: number, across: number) =>
    standing.some(
      (reading) =>
        reading.blade === blade &&
        Math.abs(reading.fromTipMm - fromTipMm) < SAME.alongMm &&
        Math.abs(reading.across - across) < SAME.across,
    );
  const stations = standing.filter(
    ({ blade, fromTipMm, across }) => blade === 'A' && isRead('B', fromTipMm, -across),
  );
  const through = (fromTipMm: number, across: number) =>
    combine([
      [1, pointFunctional(model, { blade: 'A', pass, fromTipMm, across })],
      [1, pointFunctional(model, { blade: 'B', pass, fromTipMm, across: -across })],
    ]);
  const hasMirror = ({ fromTipMm, across }: (typeof stations)[number]) =>
    across !== 0 && isRead('A', fromTipMm, -across) && isRead('B', fromTipMm, across);
  // Source: Sidak 1967 for independent pairs.
  const pairs = Math.max(1, stations.filter(hasMirror).length / 2);
  const factor = normalQuantile((1 + LEVEL ** (1 / pairs)) / 2);
  return stations.map((station): LampSum => {
    const { fromTipMm, across } = station;
    const here = through(fromTipMm, across);
    const sum = estimate(model, here);
    if (!hasMirror(station)) return { fromTipMm, across, sum, isThinner: false };
    const sides = estimate(
      model,
      combine([
        [1, here],
        [-1, through(fromTipMm, -across)],
      ]),
    );
    return { fromTipMm, across, sum, sides, isThinner: -sides.valueMm > factor * sides.uMm };
  });
}
