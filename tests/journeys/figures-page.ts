import type { Blade } from '../../shared/blade.ts';
import { LONG_SCRAPE } from '../../src/blade/starting-styles.ts';
import { placeZones } from '../../src/blade/zones.ts';
import { centreLine, crossing } from '../../src/figures/crossing.ts';
import { mapGrid, removedMap, thicknessMap } from '../../src/figures/surface-map.ts';
import { zoneFigures } from '../../src/figures/zone-figures.ts';
import { distanceFigure, joined, thicknessFigure } from '../../src/words/format.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import { fitSurface } from '../../src/surface/penalised-surface.ts';
import { fitPlainly } from '../../src/surface/plain-model.ts';
import type { Estimate, FitPass, ReedModel } from '../../src/surface/reed-model.ts';

/** What one engine computes from the same readings. */
export interface EngineFigures {
  /** Bits of the coefficients and their covariance at given smoothing, hexadecimal. */
  readonly fixedBits: string;
  /** Every figure with its uncertainty, smoothing by evidence, mm. */
  readonly figuresMm: readonly number[];
  /** The same as they are printed. */
  readonly printed: readonly string[];
}

const WRITING = { unit: 'hundredths', decimal: 'point' } as const;
const ROWS_MM = [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20];
const ACROSS = [-0.8, -0.4, 0, 0.4, 0.8];

/** Invented readings from + - x / and sqrt alone, so that every engine starts from the same bits. */
function inventedPass(index: number): FitPass {
  const readings = (['A', 'B'] as const).flatMap((blade: Blade) =>
    ROWS_MM.flatMap((fromTipMm, i) =>
      ACROSS.map((across, j) => {
        const x = fromTipMm - 4.6;
        const scatter = ((i * 7 + j * 3 + index * 5) % 11) - 5;
        const taken = index === 1 && across < 0 && fromTipMm < 5 ? 0.02 : 0;
        const thickness = 0.28 + (0.17 * x) / Math.sqrt(1 + x * x) - 0.05 * across * across - taken;
        const thicknessMm = Math.round(100 * thickness + 0.1 * scatter) / 100;
        return { blade, fromTipMm, across, thicknessMm, repeats: 1, noiseFactor: 1 };
      }),
    ),
  );
  const halfWidthMm = (fromTipMm: number) => 3.5 - 0.045 * fromTipMm;
  return { index, overallLengthMm: 70 - 0.3 * index, bladeLengthMm: 23, halfWidthMm, readings };
}

const passes = [inventedPass(0), inventedPass(1)];

export function engineFigures(): EngineFigures {
  const models = [fitPlainly(passes[0]!), fitReed(passes)];
  const estimates = models.flatMap((model) => estimatesOf(model));
  const maps = [
    thicknessMap(models[0]!, 'A', 0, mapGrid(20, 21, 11)),
    removedMap(models[1]!, 'B', 0, 1, mapGrid(20, 21, 11)),
  ];
  return {
    fixedBits: fixedBits(),
    figuresMm: [
      ...estimates.flatMap(({ figure }) => [figure.valueMm, figure.uMm]),
      ...maps.flatMap(({ valuesMm, uMm }) => [...valuesMm, ...uMm]),
    ],
    printed: estimates.map(({ printed }) => printed),
  };
}

function fixedBits(): string {
  const readings = passes[0]!.readings.filter(({ blade }) => blade === 'A');
  const data = {
    y: readings.map(({ fromTipMm }) => fromTipMm),
    u: readings.map(({ across }) => across),
    t: readings.map(({ thicknessMm }) => thicknessMm),
  };
  const basis = {
    along: { from: 0, to: 23, count: 12 },
    across: { from: -1, to: 1, count: 5 },
  };
  const { theta, unscaledCovariance, edf } = fitSurface(data, basis, { along: 0.37, across: 0.052 }, 2.5e-5);
  return hex([...theta, ...unscaledCovariance.map(Math.sqrt), edf]);
}

function hex(values: readonly number[]): string {
  const bytes = new Uint8Array(Float64Array.from(values).buffer);
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

function estimatesOf(model: ReedModel): { figure: Estimate; printed: string }[] {
  const pass = model.passes.length - 1;
  const { overallLengthMm } = model.passes[pass]!;
  const frame = { lengths: LONG_SCRAPE.lengths, overallLengthMm };
  const zones = placeZones(LONG_SCRAPE, frame, overallLengthMm).map((zone) => zoneFigures(model, pass, zone));
  const thicknesses = zones.flatMap(({ mean, blades, balance }) =>
    [mean, ...Object.values(blades), ...Object.values(balance ?? {})].flatMap((figure) => figure ?? []),
  );
  const crossings = [0.2, 0.3, 0.4].flatMap((mm) => crossing(model, pass, centreLine(model), mm) ?? []);
  return [
    ...thicknesses.map((figure) => ({ figure, printed: joined(thicknessFigure(figure, WRITING)) })),
    ...crossings.map((figure) => ({ figure, printed: joined(distanceFigure(figure, WRITING)) })),
  ];
}

Object.assign(globalThis, { engineFigures });
