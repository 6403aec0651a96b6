import type { Object3D } from 'three';
import type { Blade } from '../../shared/blade.ts';
import type { Print } from '../map/prints.ts';
import type { ReliefView } from '../relief/relief-data.ts';

/** Half the distance of the blades' middles when the reed is opened: the hinge lies between them, mm of the scene. */
const OPENED_MM = 4.4;
/** A body is never quite flat: it could not be turned back. */
const FLATTEST = 0.002;

/** How far the reed is closed, 0 opened to 1 on the staple, and flattened, 0 as a body to 1 as the map. */
export interface Pose {
  readonly closed: number;
  readonly flat: number;
}

export const POSES: Readonly<Record<Print, Pose>> = {
  opened: { closed: 0, flat: 0 },
  staple: { closed: 1, flat: 0 },
  flat: { closed: 0, flat: 1 },
};

/** Directions of an eye: round the upright axis from the tip's side, and down from the zenith, rad. */
export interface Angles {
  readonly turn: number;
  readonly tilt: number;
}

/** The first view of a stance: from the cork, the tip away. */
export const HOME: Readonly<Record<Print, Angles>> = {
  opened: { turn: Math.PI, tilt: 0.34 },
  staple: { turn: Math.PI + 0.62, tilt: 0.95 },
  flat: { turn: Math.PI, tilt: 0.001 },
};

/** On the staple in a picture that is higher than wide, the reed stands steeper. */
export const STEEP: Angles = { turn: Math.PI + 0.3, tilt: 0.72 };

/** The standard views; from the tip left and right change places. */
export const ANGLES: Readonly<Record<Exclude<ReliefView, 'cork'>, Angles>> = {
  above: { turn: Math.PI, tilt: 0.001 },
  'side 1': { turn: (3 * Math.PI) / 2, tilt: 1.3 },
  'side 2': { turn: Math.PI / 2, tilt: 1.3 },
  below: { turn: Math.PI, tilt: Math.PI - 0.001 },
  tip: { turn: 0.5, tilt: 1 },
};

/**
 * Puts a blade where it belongs in a pose. Opened, A lies on the left and B on the right, both bark up, side 1 outside;
 * closing turns B about side 2 until it lies under A, its right edge under A's left.
 */
export function place(object: Object3D, blade: Blade, { closed, flat }: Pose): void {
  const left = -(1 - closed) * OPENED_MM;
  const angle = blade === 'A' ? 0 : closed * Math.PI;
  object.position.set(
    blade === 'A' ? left : left + OPENED_MM * (1 + Math.cos(angle)),
    0,
    blade === 'A' ? 0 : -OPENED_MM * Math.sin(angle),
  );
  object.rotation.y = angle;
  object.scale.z = Math.max(1 - flat, FLATTEST);
}
