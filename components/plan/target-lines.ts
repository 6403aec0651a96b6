import { BLADES } from '../../shared/blade.ts';
import type { Target } from '../../src/plan/target.ts';
import type { ChartBand, ChartLine } from '../charts/chart-data.ts';

/** The target down the middle, the mean of its blades, with the spread of the favourites where there is one. */
export function targetCentre({ name, grid, blades, from }: Target): {
  readonly line: ChartLine;
  readonly band?: ChartBand;
} {
  const column = Math.floor(grid.us.length / 2);
  const read = BLADES.flatMap((blade) => blades[blade] ?? []);
  const down = (values: (blade: (typeof read)[number]) => Float64Array) =>
    grid.ysMm.map((_, row) => {
      const own = read.map((blade) => values(blade)[row * grid.us.length + column]!);
      return own.reduce((sum, value) => sum + value, 0) / own.length;
    });
  const thicknessMm = down(({ meanMm }) => meanMm);
  const line: ChartLine = { name, look: 'favourite', at: grid.ysMm, thicknessMm };
  if (from === 'a reed') return { line };
  const spread = down(({ spreadMm }) => spreadMm);
  if (!spread.some((value) => value > 0)) return { line };
  const bandName = from === 'common practice' ? 'usual range' : 'your own variety';
  return {
    line,
    band: {
      name: bandName,
      at: grid.ysMm,
      lowMm: thicknessMm.map((value, i) => value - spread[i]!),
      highMm: thicknessMm.map((value, i) => value + spread[i]!),
    },
  };
}
