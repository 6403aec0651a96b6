import { svg, type SVGTemplateResult } from 'lit';
import { bandOf, ramp, type Quantity, type Ramp } from '../theme/ramp.ts';
import { bandProperty } from '../theme/tokens.ts';
import { gridPath, type BladeDrawing } from './blade-drawing.ts';
import { cellsOf, contourRings, type Cells } from '../../src/numerics/contours.ts';
import type { Contour } from './level-lines.ts';
import type { BladeGrid } from './map-data.ts';

// Borders of bands are the same in every theme; their colours are custom properties.
const RAMPS: Readonly<Record<Quantity, Ramp>> = {
  thickness: ramp('thickness', 'day'),
  difference: ramp('difference', 'day'),
  doubt: ramp('doubt', 'day'),
  believable: ramp('believable', 'day'),
  slope: ramp('slope', 'day'),
};

/** Least difference that is hatched or ringed: half a hundredth of a millimetre is drawn as none. */
const LEAST_SHOWN_MM = 0.005;

export function bandColour(quantity: Quantity, valueMm: number): string {
  return `var(${bandProperty(quantity, bandOf(RAMPS[quantity], valueMm))})`;
}

/** Colour of a number printed over a value. */
export function bandInk(quantity: Quantity, valueMm: number): string {
  return `var(${bandProperty(quantity, bandOf(RAMPS[quantity], valueMm))}-ink)`;
}

function fieldOf(grid: BladeGrid, values: ArrayLike<number>): Cells {
  return cellsOf({ nx: grid.us.length, ny: grid.ysMm.length, values });
}

function extent(values: ArrayLike<number>): readonly [least: number, most: number] {
  let [least, most] = [Infinity, -Infinity];
  for (let k = 0; k < values.length; k++) {
    const value = values[k]!;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return [least, most];
}

/** Filled bands, each painted over the ones below it. */
export function bandsLayer(drawing: BladeDrawing, grid: BladeGrid, quantity: Quantity): SVGTemplateResult[] {
  const field = fieldOf(grid, grid.valuesMm);
  const [least, most] = extent(grid.valuesMm);
  if (!(most >= least)) return [];
  const { bands } = RAMPS[quantity];
  const [first, last] = [bandOf(RAMPS[quantity], least), bandOf(RAMPS[quantity], most)];
  return bands.slice(first, last + 1).map((band, k) => {
    const rings = contourRings(field, k === 0 ? -Infinity : band.fromMm);
    return svg`<path fill=${`var(${bandProperty(quantity, first + k)})`} fill-rule="evenodd"
      d=${gridPath(drawing, grid, rings, true)}></path>`;
  });
}

export function contoursLayer(
  drawing: BladeDrawing,
  grid: BladeGrid,
  quantity: Quantity,
  contours: readonly Contour[],
): SVGTemplateResult[] {
  return contours
    .filter(({ lines }) => lines.length > 0)
    .map(
      ({ levelMm, strong, lines }) => svg`<path class=${strong ? 'contour strong' : 'contour'}
      stroke=${bandInk(quantity, levelMm)} d=${gridPath(drawing, grid, lines, false)}></path>`,
    );
}

/** Hatching over what is more, rings over what is less: the sign without its colour. */
export function signLayer(drawing: BladeDrawing, grid: BladeGrid): SVGTemplateResult {
  const field = fieldOf(grid, grid.valuesMm);
  const turned = fieldOf(
    grid,
    Array.from(grid.valuesMm, (value) => -value),
  );
  const more = gridPath(drawing, grid, contourRings(field, LEAST_SHOWN_MM), true);
  const less = gridPath(drawing, grid, contourRings(turned, LEAST_SHOWN_MM), true);
  return svg`<path fill="url(#hatch)" fill-rule="evenodd" d=${more}></path>
    <path fill="url(#rings)" fill-rule="evenodd" d=${less}></path>`;
}

/** Outline of what is marked; nothing where nothing is said of it. */
export function markedPath(drawing: BladeDrawing, grid: BladeGrid, marked?: ArrayLike<number>): string {
  return marked ? gridPath(drawing, grid, contourRings(fieldOf(grid, marked), 0.5), true) : '';
}

/** Outline of all that has a value. */
export function fieldPath(drawing: BladeDrawing, grid: BladeGrid): string {
  return pathWhere(drawing, grid, () => 1);
}

/** Outline of what is measurable; all of the grid when nothing is said of it. */
export function measurablePath(drawing: BladeDrawing, grid: BladeGrid): string {
  const { measurable } = grid;
  return measurable ? pathWhere(drawing, grid, (k) => measurable[k]!) : fieldPath(drawing, grid);
}

/** Outline of where something reaches a half, among the places that have a value. */
function pathWhere(drawing: BladeDrawing, grid: BladeGrid, share: (k: number) => number): string {
  const mask = Array.from(grid.valuesMm, (value, k) => (Number.isNaN(value) ? NaN : share(k)));
  return gridPath(drawing, grid, contourRings(fieldOf(grid, mask), 0.5), true);
}
