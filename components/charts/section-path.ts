import type { Blade } from '../../shared/blade.ts';
import type { Edge } from './chart-data.ts';

/** How a section of both blades is drawn. Lengths in drawing units, but for the millimetres that say so. */
export interface SectionFrame {
  readonly centre: number;
  /** Height at which the blades would meet. */
  readonly middle: number;
  readonly unitsPerMm: number;
  /** Thickness is drawn this many times larger than width. */
  readonly thicknessFactor: number;
  readonly widthMm: number;
  /** How far apart the insides stand at a place across. */
  readonly apartMm: (across: number) => number;
}

/** A place of a blade in the section, seen from the cork: A's own left on the left and B's own left on the right, A up. */
export function sectionPoint(frame: SectionFrame, blade: Blade, across: number, thicknessMm: number) {
  const { centre, middle, unitsPerMm, thicknessFactor, widthMm, apartMm } = frame;
  const up = blade === 'A' ? -1 : 1;
  const toTheRight = blade === 'A' ? 1 : -1;
  const inner = middle + (up * apartMm(across) * unitsPerMm) / 2;
  return {
    x: centre + (toTheRight * across * widthMm * unitsPerMm) / 2,
    inner,
    outer: inner + up * thicknessMm * thicknessFactor * unitsPerMm,
  };
}

/** The closed outline of a blade in the section. */
export function sectionPath(frame: SectionFrame, blade: Blade, { across, thicknessMm }: Edge): string {
  const places = Array.from(across, (u, k) => sectionPoint(frame, blade, u, thicknessMm[k]!));
  const to = (x: number, y: number) => `${x.toFixed(1)} ${y.toFixed(1)}`;
  const inner = places.map(({ x, inner: y }) => to(x, y));
  const outer = places.map(({ x, outer: y }) => to(x, y)).reverse();
  return `M${[...inner, ...outer].join('L')}Z`;
}
