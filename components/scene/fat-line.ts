import { Color, SRGBColorSpace, type Object3D } from 'three';
import { LineMaterial } from 'three/examples/jsm/lines/LineMaterial.js';
import { LineSegments2 } from 'three/examples/jsm/lines/LineSegments2.js';
import { LineSegmentsGeometry } from 'three/examples/jsm/lines/LineSegmentsGeometry.js';
import type { Vec3 } from './vec3.ts';

/** How a line is drawn; widths are CSS pixels, dashes mm. */
export interface Stroke {
  readonly colour: string;
  readonly width: number;
  readonly opacity?: number;
  readonly dash?: readonly [on: number, off: number];
  /** Seen through what stands before it. */
  readonly through?: boolean;
}

/** A run of points as the pairs that segments are made of. */
export function pairs(points: readonly Vec3[]): number[] {
  return points.slice(1).flatMap((to, k) => [...points[k]!, ...to]);
}

/** Lines of a width in pixels, whatever the distance; all runs in one draw call. */
export class FatLines {
  readonly object: Object3D;
  private readonly geometry = new LineSegmentsGeometry();
  private readonly material: LineMaterial;
  private readonly width: number;

  constructor(runs: readonly (readonly Vec3[])[], { colour, width, opacity = 1, dash, through }: Stroke) {
    this.width = width;
    this.geometry.setPositions(runs.flatMap(pairs));
    this.material = new LineMaterial({
      color: new Color().setStyle(colour, SRGBColorSpace),
      transparent: true,
      opacity,
      linewidth: width,
      depthTest: !through,
      ...(dash && { dashed: true, dashSize: dash[0], gapSize: dash[1] }),
    });
    const lines = new LineSegments2(this.geometry, this.material);
    if (dash) lines.computeLineDistances();
    lines.renderOrder = through ? 3 : 2;
    this.object = lines;
  }

  /** @param ratio Pixels of the canvas in a CSS pixel. */
  setRatio(ratio: number): void {
    this.material.linewidth = this.width * ratio;
  }

  dispose(): void {
    this.object.removeFromParent();
    this.geometry.dispose();
    this.material.dispose();
  }
}
