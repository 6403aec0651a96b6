import { BufferAttribute, BufferGeometry } from 'three';
import type { Vec3 } from './vec3.ts';

/** What the shaders read at a vertex; 0 where absent, `known` 1. */
export interface VertexPrint {
  readonly band?: number;
  readonly level?: number;
  readonly ripple?: number;
  readonly known?: number;
}

const PRINTS = ['band', 'level', 'ripple', 'known'] as const;

/** Gathers vertices and faces of one body into a geometry. */
class Faces {
  private readonly positions: number[] = [];
  private readonly prints: Record<(typeof PRINTS)[number], number[]> = {
    band: [],
    level: [],
    ripple: [],
    known: [],
  };
  readonly indices: number[] = [];

  add(point: Vec3, { band = 0, level = 0, ripple = 0, known = 1 }: VertexPrint): void {
    this.positions.push(point[0], point[1], point[2]);
    this.prints.band.push(band);
    this.prints.level.push(level);
    this.prints.ripple.push(ripple);
    this.prints.known.push(known);
  }

  geometry(): BufferGeometry {
    const made = new BufferGeometry();
    made.setAttribute('position', new BufferAttribute(Float32Array.from(this.positions), 3));
    for (const name of PRINTS)
      made.setAttribute(name, new BufferAttribute(Float32Array.from(this.prints[name]), 1));
    made.setIndex(this.indices);
    made.computeVertexNormals();
    return made;
  }
}

/**
 * A sheet over a blade on every distance with every position across; faces look out of the bark.
 *
 * @param at Point and print of a place; undefined leaves a hole.
 */
export function sheetFaces(
  ysMm: readonly number[],
  us: readonly number[],
  at: (fromTipMm: number, across: number) => { readonly point: Vec3; readonly print: VertexPrint },
  isFace: (fromTipMm: number, across: number) => boolean = () => true,
): BufferGeometry {
  const faces = new Faces();
  for (const y of ysMm)
    for (const u of us) {
      const { point, print } = at(y, u);
      faces.add(point, print);
    }
  for (let j = 0; j + 1 < ysMm.length; j++)
    for (let i = 0; i + 1 < us.length; i++) {
      if (!isFace((ysMm[j]! + ysMm[j + 1]!) / 2, (us[i]! + us[i + 1]!) / 2)) continue;
      const a = j * us.length + i;
      faces.indices.push(a, a + us.length, a + 1, a + 1, a + us.length, a + us.length + 1);
    }
  return faces.geometry();
}

/** A band between two runs of points of the same length: walls and cut faces. */
export function ribbonFaces(
  low: readonly Vec3[],
  high: readonly Vec3[],
  print: (k: number) => VertexPrint = () => ({}),
): BufferGeometry {
  const faces = new Faces();
  low.forEach((point, k) => {
    faces.add(point, print(k));
    faces.add(high[k]!, print(k));
    if (k > 0) faces.indices.push(2 * k - 2, 2 * k - 1, 2 * k, 2 * k, 2 * k - 1, 2 * k + 1);
  });
  return faces.geometry();
}

/** Evenly from one number to another, both included. */
export const evenly = (from: number, to: number, steps: number): number[] =>
  Array.from({ length: steps + 1 }, (_, k) => from + ((to - from) * k) / steps);
