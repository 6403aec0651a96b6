import type { Object3D } from 'three';
import type { Arrangement, ReliefBlade } from '../relief/relief-data.ts';

/** Between two blades that lie side by side, and between two that face each other, scene units. */
const GAP = { beside: 2.5, facing: 3 };

/** Puts two blades side by side, A at the left, or A above B as on the reed. One blade stays where it is. */
export function arrange(
  blades: readonly { readonly blade: ReliefBlade; readonly object: Object3D }[],
  arrangement: Arrangement,
): void {
  if (blades.length < 2) return;
  for (const { blade, object } of blades) {
    const isA = blade.blade === 'A';
    if (arrangement === 'beside') {
      const half = Math.max(...Array.from(blade.halfWidthMm)) + GAP.beside / 2;
      object.position.x = isA ? -half : half;
    } else {
      object.position.z = (isA ? 1 : -1) * (GAP.facing / 2);
      // Turned about the length of the reed: bark down, B's right under A's left.
      object.rotation.y = isA ? 0 : Math.PI;
    }
  }
}
