import { between, locate } from '../map/blade-drawing.ts';
import type { BladeGrid } from '../map/map-data.ts';

/** Bark where nothing was read is drawn this thick, mm. Common practice, no source. */
const BARK_MM = 0.57;
/** Each row beyond the last that was read comes so much nearer to the bark's thickness. */
const TOWARDS_BARK = 0.3;

/** Catmull-Rom: through p1 and p2, smooth into the neighbours. */
function cubic(p0: number, p1: number, p2: number, p3: number, t: number): number {
  return p1 + 0.5 * t * (p2 - p0 + t * (2 * p0 - 5 * p1 + 4 * p2 - p3 + t * (3 * (p1 - p2) + p3 - p0)));
}

/** A smooth value between node k and the next, of `count` nodes; straight on beyond both ends. */
function alongCubic(value: (k: number) => number, count: number, k: number, share: number): number {
  if (share === 0) return value(k);
  const [here, next] = [value(k), value(k + 1)];
  const before = k > 0 ? value(k - 1) : 2 * here - next;
  const after = k + 2 < count ? value(k + 2) : 2 * next - here;
  return cubic(before, here, next, after, share);
}

/** Values of a grid with what was not read filled up: towards the bark, column by column. */
function filled({ us, ysMm }: BladeGrid, values: ArrayLike<number>): Float64Array {
  const out = Float64Array.from(values);
  for (let i = 0; i < us.length; i++) {
    let last = BARK_MM;
    for (let j = 0; j < ysMm.length; j++) {
      const first = out[j * us.length + i]!;
      if (!Number.isNaN(first)) {
        last = first;
        break;
      }
    }
    for (let j = 0; j < ysMm.length; j++) {
      const at = j * us.length + i;
      if (Number.isNaN(out[at]!)) out[at] = last + TOWARDS_BARK * (BARK_MM - last);
      last = out[at]!;
    }
  }
  return out;
}

/** A grid of values as a smooth function over the blade, so that light on it has no facets. */
export class BladeField {
  readonly grid: BladeGrid;
  private readonly values: Float64Array;
  private readonly isRead: Float64Array;

  /** @param values ny x nu, mm; NaN where nothing was read. */
  constructor(grid: BladeGrid, values: ArrayLike<number> = grid.valuesMm) {
    this.grid = grid;
    this.values = filled(grid, values);
    this.isRead = Float64Array.from(values, (value) => (Number.isNaN(value) ? 0 : 1));
  }

  /** Value at a place, mm: the fit's where it was read, on the way to the bark's where not. */
  at(fromTipMm: number, across: number): number {
    const [j, along] = locate(this.grid.ysMm, fromTipMm);
    const [i, share] = locate(this.grid.us, across);
    const columns = this.grid.us.length;
    const row = (k: number) => alongCubic((m) => this.values[k * columns + m]!, columns, i, share);
    return alongCubic(row, this.grid.ysMm.length, j, along);
  }

  /** 1 where it was read, 0 where not, between on the border. */
  readAt(fromTipMm: number, across: number): number {
    const [j, along] = locate(this.grid.ysMm, fromTipMm);
    const [i, share] = locate(this.grid.us, across);
    const columns = this.grid.us.length;
    const row = (k: number) => between(this.isRead, k * columns + i, share);
    return row(j) + along * (row(Math.min(j + 1, this.grid.ysMm.length - 1)) - row(j));
  }

  halfWidthMm(fromTipMm: number): number {
    const [k, share] = locate(this.grid.ysMm, fromTipMm);
    return between(this.grid.halfWidthMm, k, share);
  }
}
