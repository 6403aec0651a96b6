import { Box2, PerspectiveCamera, Sphere, Spherical, Vector2, Vector3 } from 'three';
import type { Angles } from './stance.ts';

/** A long lens: the planform keeps its taper. */
const FIELD_OF_VIEW = 11;
const HALF_FIELD = (FIELD_OF_VIEW * Math.PI) / 360;
/** Shares of the picture that stay free: ahead of the tips stand the blades' names. */
const FREE = { top: 0.075, bottom: 0.02, side: 0.04 };
const FIT_ROUNDS = 3;
/** A reed that turns is never as high as it is long: so much nearer may the eye come than its whole sphere asks for. */
const IN_A_CIRCLE = 0.82;

/** From where something is seen: `nearer` is 1 where all of it just fills the picture. */
export interface Sight extends Angles {
  readonly nearer: number;
}

/** A place on the canvas, CSS pixels from its left and top. */
export interface OnCanvas {
  readonly left: number;
  readonly top: number;
  /** 1 where the place looks at the eye, 0 edge on, below 0 turned away. */
  readonly facing: number;
}

/** A camera that keeps a body in the middle of its picture. */
export class Eye {
  readonly camera = new PerspectiveCamera(FIELD_OF_VIEW, 1, 1, 900);
  /** What it looks at. */
  readonly target = new Vector3();
  /** Distance at which all of the body is in sight. */
  private fit = 100;

  constructor() {
    this.camera.up.set(0, 0, 1);
  }

  set aspect(widthByHeight: number) {
    this.camera.aspect = widthByHeight;
    this.camera.updateProjectionMatrix();
  }

  /** What is seen now: the pointer may have turned the camera since it was set. */
  get sight(): Sight {
    const { x, y, z } = this.camera.position.clone().sub(this.target);
    const { radius, phi, theta } = new Spherical().setFromVector3(new Vector3(x, z, y));
    return { turn: theta, tilt: phi, nearer: radius / this.fit };
  }

  /** Looks from somewhere at a body that fills these points. */
  look(points: readonly Vector3[], { nearer, ...angles }: Sight): void {
    this.fit = this.frame(points, angles);
    this.aim(angles, this.fit * nearer);
  }

  /** Looks from as far as the body is in sight from everywhere: it keeps its size as it turns. */
  circle(points: readonly Vector3[], angles: Angles): void {
    const { center, radius } = new Sphere().setFromPoints([...points]);
    this.target.copy(center);
    this.aim(angles, (radius * IN_A_CIRCLE) / Math.sin(HALF_FIELD));
  }

  /** How large a millimetre stands in a picture of this height, CSS pixels. */
  pxPerMm(height: number): number {
    return height / (2 * Math.tan(HALF_FIELD) * this.camera.position.distanceTo(this.target));
  }

  /** Where a point of a surface stands on a canvas of this size, CSS pixels. */
  sees(
    { point, normal }: { readonly point: Vector3; readonly normal: Vector3 },
    { width, height }: { readonly width: number; readonly height: number },
  ): OnCanvas {
    const towards = this.camera.position.clone().sub(point).normalize();
    const { x, y } = point.clone().project(this.camera);
    return { left: ((x + 1) / 2) * width, top: ((1 - y) / 2) * height, facing: normal.dot(towards) };
  }

  /**
   * Turns so that the body stands in the middle of what is not kept free. Begins from the body alone, so that what was
   * seen before, and when, leaves no trace.
   *
   * @returns Distance at which all of it is inside the picture.
   */
  private frame(points: readonly Vector3[], angles: Angles): number {
    const { center, radius } = new Sphere().setFromPoints([...points]);
    this.target.copy(center);
    let distance = radius / Math.sin(HALF_FIELD);
    for (let round = 0; round < FIT_ROUNDS; round++) {
      this.aim(angles, distance);
      const seen = new Box2().setFromPoints(
        points.map((point) => {
          const { x, y } = point.clone().project(this.camera);
          return new Vector2(x, y);
        }),
      );
      const middle = seen.getCenter(new Vector2());
      middle.y += FREE.top - FREE.bottom;
      this.shift(middle, distance * Math.tan(HALF_FIELD));
      const size = seen.getSize(new Vector2());
      distance *= Math.max(size.x / (1 - 2 * FREE.side), size.y / (1 - FREE.top - FREE.bottom)) / 2;
    }
    return distance;
  }

  /** Moves what is looked at along the picture. */
  private shift({ x, y }: Vector2, depth: number) {
    const axis = (column: number) => new Vector3().setFromMatrixColumn(this.camera.matrixWorld, column);
    this.target.addScaledVector(axis(0), x * depth * this.camera.aspect).addScaledVector(axis(1), y * depth);
  }

  private aim({ turn, tilt }: Angles, distance: number) {
    const { x, y, z } = new Vector3().setFromSpherical(new Spherical(distance, tilt, turn));
    this.camera.position.copy(this.target).add(new Vector3(x, z, y));
    this.camera.lookAt(this.target);
    this.camera.updateMatrixWorld(true);
  }
}
