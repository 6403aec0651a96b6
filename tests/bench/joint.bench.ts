import { BLADES } from '../../shared/blade.ts';
import { meanOver, zoneArea } from '../../src/figures/zone-mean.ts';
import { rectangleZone } from '../../src/blade/zones.ts';
import { estimate } from '../../src/figures/functional.ts';
import { addReading } from '../../src/surface/add-reading.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import type { ReedPosterior } from '../../src/surface/reed-posterior.ts';
import { seededRandom } from '../seeded-random.ts';
import { pacedMs } from './clock.ts';

const RUNS = 30;
const ZONES = [
  ['tip', 0.3, 3.6],
  ['heart', 5.5, 8.5],
  ['back', 10.5, 17],
] as const;

const ROWS_MM = [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20];
const ACROSS = [-0.8, -0.4, 0, 0.4, 0.8];

/** Invented full passes: a ramp with a ridge, a little taken off the left of the heart each time, noise of 0.004 mm. */
function inventedPasses(count: number) {
  const random = seededRandom(1);
  return Array.from({ length: count }, (_, index) => ({
    index,
    overallLengthMm: 70,
    bladeLengthMm: 23,
    halfWidthMm: (fromTipMm: number) => (7 - 0.09 * fromTipMm) / 2,
    readings: BLADES.flatMap((blade) =>
      ROWS_MM.flatMap((fromTipMm) =>
        ACROSS.map((across) => {
          const x = fromTipMm - 4.7;
          const taken = fromTipMm > 5 && fromTipMm < 9 && across < 0 ? 0.02 * index : 0;
          const cane = 0.28 + (0.17 * x) / Math.sqrt(1 + x * x) - 0.05 * across * across - taken;
          const thicknessMm = Math.round(100 * (cane + 0.014 * (random() - 0.5))) / 100;
          return { blade, fromTipMm, across, thicknessMm, repeats: 1, noiseFactor: 1 };
        }),
      ),
    ),
  }));
}

/** Both blades and four passes of an invented reed, jointly; and one more reading with the smoothing held. */
export default async function run() {
  const passes = inventedPasses(4);
  const model = fitReed(passes);
  const last = passes.length - 1;
  const areas = ZONES.flatMap(([name, from, to]) =>
    (['left', 'right', 'both'] as const).map((side) =>
      zoneArea(rectangleZone(name, from, to), passes[last]!, side),
    ),
  );
  const figures = areas.flatMap((area) => BLADES.map((blade) => meanOver(model, blade, last, area)!));
  const allFigures = (of: ReedPosterior) => figures.forEach((figure) => estimate(of, figure));
  const readings = passes[last]!.readings;
  return [
    {
      name: 'both blades, four passes, jointly',
      value: pacedMs(() => fitReed(passes), RUNS),
      unit: 'ms',
      limit: 150,
    },
    {
      name: 'one more reading to all zone figures, smoothing held',
      value: pacedMs(
        (at) => allFigures(addReading(model, last, readings[(7 * at) % readings.length]!)!),
        RUNS,
      ),
      unit: 'ms',
      limit: 4,
    },
  ];
}
