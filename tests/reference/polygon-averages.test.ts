import { expect, it } from 'vitest';
import { areaNodes, type Point } from '../../src/numerics/polygon.ts';
import reference from './data/polygon-averages.json' with { type: 'json' };

// Exact sums (rational arithmetic, or 40-digit closed forms), confirmed by two other integrations; see the file.
type Integrand = (x: number, y: number) => number;

const NUMBER = '(-?[\\d.]+)';
const EXPONENTIAL = new RegExp(`^${NUMBER}\\*exp\\(${NUMBER}\\*x \\+ ${NUMBER}\\*y\\) \\+ ${NUMBER}$`);
const WAVE = new RegExp(`^${NUMBER}\\*sin\\(${NUMBER}\\*x\\)\\*cos\\(${NUMBER}\\*y\\)$`);
const MONOMIAL = new RegExp(`^${NUMBER}\\*x\\^(\\d+)\\*y\\^(\\d+)$`);
const numbers = (pattern: RegExp, text: string) => pattern.exec(text)?.slice(1).map(Number);

/** The formulas of the file: sums of monomials, an exponential, a wave, or the invented blade. */
function integrand(formula: string): Integrand {
  const exponential = numbers(EXPONENTIAL, formula);
  if (exponential) {
    const [c, a, b, d] = exponential as [number, number, number, number];
    return (x, y) => c * Math.exp(a * x + b * y) + d;
  }
  const wave = numbers(WAVE, formula);
  if (wave) {
    const [c, a, b] = wave as [number, number, number];
    return (x, y) => c * Math.sin(a * x) * Math.cos(b * y);
  }
  if (formula.startsWith('t = c*fall')) return inventedBlade;
  const terms = formula.split(' + ').map((term) => numbers(MONOMIAL, term) as [number, number, number]);
  return (x, y) => terms.reduce((sum, [c, p, q]) => sum + c * x ** p * y ** q, 0);
}

function inventedBlade(y: number, u: number): number {
  const logistic = (s: number) => 1 / (1 + Math.exp(-s));
  const centre =
    0.08 +
    0.4 * (1 - Math.exp(-((y / 6.5) ** 1.3))) +
    0.085 * Math.exp(-(((y - 9.5) / 2.5) ** 2)) +
    0.075 * logistic((y - 17) / 1.5);
  const fall = 1 - (0.3 + 0.15 * Math.exp(-y / 3)) * u ** 2 - 0.08 * u ** 4;
  const channels = -0.03 * Math.exp(-(((u ** 2 - 0.3) / 0.15) ** 2)) * logistic(y - 12.5);
  return centre * fall + channels + 0.006 * u * Math.sin((Math.PI * y) / 22);
}

const CELLS = 200;

/** Small cells, so that a rule of three points converges on integrands that are no polynomials. */
function average(corners: readonly Point[], f: Integrand, cells: number): number {
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  const x = [Math.min(...xs), Math.max(...xs)] as const;
  const y = [Math.min(...ys), Math.max(...ys)] as const;
  let [integral, area] = [0, 0];
  const longest = { longestX: (x[1] - x[0]) / cells, longestY: (y[1] - y[0]) / cells };
  for (const node of areaNodes(corners, { x, y, ...longest })) {
    integral += node.area * f(node.x, node.y);
    area += node.area;
  }
  return integral / area;
}

for (const { id, polygon, function: formula, average: expected } of reference.outputs.cases) {
  it(`averages over ${id}`, () => {
    const found = average(polygon as unknown as Point[], integrand(formula), CELLS);
    // The invented blade goes as y^1.3 at the tip, where no polynomial rule converges fast.
    const tolerance = id.startsWith('blade') ? 1e-8 : 1e-10;
    expect(Math.abs(found - expected)).toBeLessThan(tolerance * Math.max(1, Math.abs(expected)));
  });
}
