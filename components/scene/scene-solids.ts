import { Mesh, Vector3, type Object3D } from 'three';
import type { NamedSolid } from '../../src/exchange/surfaces/glb.ts';
import { linear } from '../theme/contrast.ts';
import { BodyMaterial } from './cane-material.ts';

/** Glass is left out of a file: other viewers would show it as a wall. */
const LEAST_OPACITY = 0.9;

/**
 * What is seen of a scene as bodies in their colours: arched, with thickness drawn as large as on the screen, each where it
 * stands now. Lines, glass and words stay on the screen.
 */
export function sceneSolids(root: Object3D): NamedSolid[] {
  const solids: NamedSolid[] = [];
  root.updateMatrixWorld(true);
  root.traverseVisible((part) => {
    if (!(part instanceof Mesh) || !(part.material instanceof BodyMaterial)) return;
    if (part.material.opacity < LEAST_OPACITY || part.material.uniforms['opacity']!.value < LEAST_OPACITY)
      return;
    const solid = solidOf(part as Mesh, part.material);
    if (solid.solid.faces.length > 0) solids.push(solid);
  });
  return solids;
}

function solidOf({ name, geometry, matrixWorld }: Mesh, material: BodyMaterial): NamedSolid {
  const position = geometry.getAttribute('position');
  const [band, known] = [geometry.getAttribute('band'), geometry.getAttribute('known')];
  const positionsMm = new Float64Array(3 * position.count);
  const colours = new Float32Array(3 * position.count);
  const isCut = new Uint8Array(position.count);
  const point = new Vector3();
  for (let k = 0; k < position.count; k++) {
    point
      .fromBufferAttribute(position, k)
      .applyMatrix4(matrixWorld)
      .toArray(positionsMm, 3 * k);
    const colour = material.colourOf(band?.getX(k) ?? 0, known?.getX(k) ?? 1);
    if (colour) colour.forEach((channel, c) => (colours[3 * k + c] = linear(255 * channel)));
    else isCut[k] = 1;
  }
  const index = geometry.getIndex()!;
  const faces: number[] = [];
  for (let k = 0; k + 2 < index.count; k += 3) {
    const corners = [index.getX(k), index.getX(k + 1), index.getX(k + 2)];
    if (corners.every((corner) => isCut[corner] === 0)) faces.push(...corners);
  }
  return { name, solid: { positionsMm, faces: Uint32Array.from(faces) }, colours };
}
