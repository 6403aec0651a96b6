import { describe, expect, it } from 'vitest';
import { dot, quadratic } from '../../src/numerics/quadratic-form.ts';
import { fitSurface, fitSurfaceByReml, type SurfaceFit } from '../../src/surface/penalised-surface.ts';
import type { SurfaceData } from '../../src/surface/surface-problem.ts';
import { addSparse } from '../../src/numerics/sparse-row.ts';
import { coefficientCount, designRow, type TensorBasis } from '../../src/surface/tensor-basis.ts';
import blade from './data/surface-blade.json' with { type: 'json' };
import bladeWeighted from './data/surface-blade-weighted.json' with { type: 'json' };
import franke from './data/surface-franke.json' with { type: 'json' };
import topo from './data/surface-topo-scattered.json' with { type: 'json' };
import volcano from './data/surface-volcano.json' with { type: 'json' };

// Made with R mgcv 1.8.41 (Wood 2011) and an independent numpy implementation; see each file's `software` and `source`.
// The volcano and topo data sets are those published with R (datasets, MASS); the rest are invented.
interface ReferenceFit {
  label: string;
  method: string;
  noise: unknown;
  lambda_y: number;
  lambda_u: number;
  edf: number;
  sigma2: number;
  reml: number;
  globalMinimum?: boolean;
  theta: number[];
  fit: number[][];
  se: number[][];
  hat: number[];
}
interface Reference {
  inputs: {
    n: number;
    y: number[];
    u: number[];
    t: number[];
    w?: number[];
    domain: { y: number[]; u: number[] };
    Ky: number;
    Ku: number;
    evalY: number[];
    evalU: number[];
  };
  outputs: { fits: ReferenceFit[] };
}

const files = { volcano, topo, franke, blade, 'blade with weights': bladeWeighted } as unknown as Record<
  string,
  Reference
>;

function posed({ inputs }: Reference): { data: SurfaceData; basis: TensorBasis } {
  const { domain } = inputs;
  return {
    data: { y: inputs.y, u: inputs.u, t: inputs.t, ...(inputs.w && { w: inputs.w }) },
    basis: {
      along: { from: domain.y[0]!, to: domain.y[1]!, count: inputs.Ky },
      across: { from: domain.u[0]!, to: domain.u[1]!, count: inputs.Ku },
    },
  };
}

function onGrid({ inputs }: Reference, fit: SurfaceFit) {
  return inputs.evalY.map((y) =>
    inputs.evalU.map((u) => {
      const weights = new Float64Array(coefficientCount(fit.basis));
      addSparse(weights, designRow(fit.basis, y, u), 1);
      return {
        value: dot(weights, fit.theta),
        se: Math.sqrt(fit.noiseVariance * quadratic(weights, fit.unscaledCovariance)),
      };
    }),
  );
}

const rangeOf = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
const knownVariance = (fit: ReferenceFit) => (fit.noise === 'known' ? fit.sigma2 : undefined);

function expectSurface(
  reference: Reference,
  expected: ReferenceFit,
  fit: SurfaceFit,
  fitRtol: number,
  seRtol: number,
) {
  const range = rangeOf(reference.inputs.t);
  onGrid(reference, fit).forEach((row, i) =>
    row.forEach(({ value, se }, j) => {
      expect(Math.abs(value - expected.fit[i]![j]!) / range).toBeLessThan(fitRtol);
      expect(Math.abs(se / expected.se[i]![j]! - 1)).toBeLessThan(seRtol);
    }),
  );
}

for (const [name, reference] of Object.entries(files)) {
  describe(`${name} against mgcv`, () => {
    const { data, basis } = posed(reference);
    for (const expected of reference.outputs.fits) {
      it(`${expected.label}: at its smoothing parameters`, () => {
        const smoothing = { along: expected.lambda_y, across: expected.lambda_u };
        const fit = fitSurface(data, basis, smoothing, knownVariance(expected));
        // The tolerances that the files advise for given smoothing.
        expectSurface(reference, expected, fit, 1e-8, 1e-7);
        const range = rangeOf(expected.theta);
        fit.theta.forEach((value, i) =>
          expect(Math.abs(value - expected.theta[i]!) / range).toBeLessThan(1e-8),
        );
        expect(Math.abs(fit.edf - expected.edf)).toBeLessThan(1e-7);
        expect(Math.abs(fit.reml - expected.reml)).toBeLessThan(1e-7);
        fit.leverage.forEach((value, i) => expect(Math.abs(value - expected.hat[i]!)).toBeLessThan(1e-7));
      });

      if (expected.method === 'REML') {
        it(`${expected.label}: finds the optimum`, () => {
          const fit = fitSurfaceByReml(data, basis, knownVariance(expected));
          expect(fit.reml - expected.reml).toBeLessThan(1e-7);
          expectSurface(reference, expected, fit, 1e-4, 1e-3);
        });
      }
    }
  });
}
