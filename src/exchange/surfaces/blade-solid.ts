import { InputError } from '../../../shared/errors.ts';

/** The thickness of a blade over a grid of places, and its outline. */
export interface BladeGrid {
  /** mm from the tip, rising, two or more. */
  readonly ysMm: readonly number[];
  /** Positions across, rising, two or more. */
  readonly us: readonly number[];
  /** Half the blade's width at each distance. */
  readonly halfWidthsMm: readonly number[];
  /** Row by row along; finite. */
  readonly thicknessMm: ArrayLike<number>;
}

/** A closed body of triangles that share their corners, outer side counter-clockwise. */
export interface Solid {
  /** x across, y from the tip downwards (negative), z from the inside of the blade outwards; three numbers a corner, mm. */
  readonly positionsMm: Float64Array;
  /** Three corners a face. */
  readonly faces: Uint32Array;
}

export interface SolidOptions {
  /** Times the real thickness: 1 for the blade as it is. */
  readonly exaggeration: number;
  /** Rise of the middle of the inside over its edges, mm, at the tip and at the far end: 0 lays the blade flat. */
  readonly riseMm: { readonly tip: number; readonly end: number };
  /** Shift across, mm, to lay two blades side by side. */
  readonly shiftMm: number;
}

/** A body cannot be thinner than this, mm, where an extrapolated rim runs out. */
const LEAST_MM = 0.005;

/**
 * A blade as a closed body: the bark side is its thickness over the inside, walls go round its edge. Its volume is the
 * cane's, times the exaggeration, however its inside is arched.
 *
 * @throws InputError for a grid that is not whole.
 */
export function bladeSolid(grid: BladeGrid, { exaggeration, riseMm, shiftMm }: SolidOptions): Solid {
  check(grid);
  const { ysMm, us, halfWidthsMm, thicknessMm } = grid;
  const count = ysMm.length * us.length;
  const positionsMm = new Float64Array(6 * count);
  ysMm.forEach((y, i) => {
    const rise = riseMm.tip + (riseMm.end - riseMm.tip) * (y / ysMm.at(-1)!);
    us.forEach((u, j) => {
      const corner = i * us.length + j;
      const inside = rise * (1 - u * u);
      const bark = inside + exaggeration * Math.max(LEAST_MM, thicknessMm[corner]!);
      const x = shiftMm + u * halfWidthsMm[i]!;
      positionsMm.set([x, -y, bark], 3 * corner);
      positionsMm.set([x, -y, inside], 3 * (count + corner));
    });
  });
  return { positionsMm, faces: closedFaces(ysMm.length, us.length) };
}

/** Faces of two sheets of rows x columns corners, the bark's first, and of the walls between them. */
function closedFaces(rows: number, columns: number): Uint32Array {
  const faces: number[] = [];
  const under = rows * columns;
  for (let i = 0; i + 1 < rows; i++) {
    for (let j = 0; j + 1 < columns; j++) {
      const [a, b] = [i * columns + j, i * columns + j + 1];
      const [c, d] = [a + columns, b + columns];
      faces.push(a, c, b, b, c, d);
      faces.push(under + a, under + b, under + c, under + b, under + d, under + c);
    }
  }
  for (const [from, to] of rim(rows, columns))
    faces.push(from, under + from, to, to, under + from, under + to);
  return Uint32Array.from(faces);
}

/** Edges round the bark's sheet, against the turn of its faces, so that walls face outwards. */
function rim(rows: number, columns: number): [number, number][] {
  const last = (rows - 1) * columns;
  const round = [
    ...Array.from({ length: rows - 1 }, (_, i) => i * columns),
    ...Array.from({ length: columns - 1 }, (_, j) => last + j),
    ...Array.from({ length: rows - 1 }, (_, i) => last + columns - 1 - i * columns),
    ...Array.from({ length: columns - 1 }, (_, j) => columns - 1 - j),
  ];
  return round.map((corner, k) => [corner, round[(k + 1) % round.length]!]);
}

function check({ ysMm, us, halfWidthsMm, thicknessMm }: BladeGrid): void {
  rising('ysMm', ysMm);
  rising('us', us);
  if (halfWidthsMm.length !== ysMm.length || halfWidthsMm.some((width) => !(width > 0))) {
    throw new InputError(`halfWidthsMm: must hold a positive number for each of ${ysMm.length} distances`);
  }
  const count = ysMm.length * us.length;
  if (thicknessMm.length !== count)
    throw new InputError(`thicknessMm: must hold ${count} numbers, got ${thicknessMm.length}`);
  for (let i = 0; i < count; i++) {
    if (!Number.isFinite(thicknessMm[i]))
      throw new InputError(`thicknessMm[${i}]: must be finite, got ${thicknessMm[i]}`);
  }
}

function rising(name: string, values: readonly number[]): void {
  if (values.length < 2) throw new InputError(`${name}: must hold two numbers or more, got ${values.length}`);
  values.forEach((value, i) => {
    if (!Number.isFinite(value) || (i > 0 && !(value > values[i - 1]!)))
      throw new InputError(`${name}[${i}]: must be finite and rise, got ${value}`);
  });
}
