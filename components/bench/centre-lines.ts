import { BLADES } from '../../shared/blade.ts';
import type { BenchedReed, ReedAtPass } from '../../src/answers/benched-reed.ts';
import { floorAt } from '../../src/blade/floors.ts';
import { mapOf, type MapGrid } from '../../src/figures/surface-map.ts';
import { standingReadings } from '../../src/answers/there-now.ts';
import type { ChartLine } from '../charts/chart-data.ts';

const POINTS = 93;

/** A line down the blades at one place across, from the tip to the last reading. */
export function downLines(
  { benched, pass }: ReedAtPass,
  across: number,
  favourite: ReedAtPass | undefined,
): ChartLine[] {
  const own = BLADES.flatMap((blade) => lineOf(benched, pass, across, blade, blade, blade));
  const other = favourite
    ? BLADES.slice(0, 1).flatMap((blade) =>
        lineOf(favourite.benched, favourite.pass, across, blade, favourite.benched.reed.label, 'favourite'),
      )
    : [];
  return [...own, ...other, ...floorLine(benched, lastRead(benched, pass), across)];
}

function lastRead(benched: BenchedReed, pass: number): number {
  return Math.max(0.5, ...standingReadings(benched, pass).map(({ fromTipMm }) => fromTipMm));
}

function lineGrid(lengthMm: number, across: number): MapGrid {
  return { ysMm: Array.from({ length: POINTS }, (_, i) => (lengthMm * i) / (POINTS - 1)), us: [across] };
}

/** One blade's line with its doubt and its readings. */
export function lineOf(
  benched: BenchedReed,
  pass: number,
  across: number,
  blade: 'A' | 'B',
  name: string,
  look: ChartLine['look'],
): ChartLine[] {
  const { model } = benched;
  if (!model?.blades[blade]) return [];
  const grid = lineGrid(lastRead(benched, pass), across);
  const { valuesMm, uMm } = mapOf(model, blade, grid, (target, fromTipMm, u) =>
    model.addWeights(target, { blade, pass, fromTipMm, across: u }, 1),
  );
  const isOwn = look !== 'favourite';
  const readings = standingReadings(benched, pass)
    .filter((reading) => reading.blade === blade && Math.abs(reading.across - across) < 0.05)
    .map(({ fromTipMm, thicknessMm }) => ({ at: fromTipMm, thicknessMm }));
  return [{ name, look, at: grid.ysMm, thicknessMm: valuesMm, ...(isOwn && { uMm, readings }) }];
}

function floorLine({ assembled }: BenchedReed, lengthMm: number, across: number): ChartLine[] {
  const { ysMm } = lineGrid(lengthMm, across);
  const thicknessMm = ysMm.map((y) => floorAt(assembled.style.floors, y, across) ?? NaN);
  return thicknessMm.some(Number.isFinite) ? [{ name: 'floor', look: 'floor', at: ysMm, thicknessMm }] : [];
}
