import type { Solid } from './blade-solid.ts';

const HEADER_BYTES = 80;
const FACE_BYTES = 50;
/** Must not begin with `solid`, by which readers know the text form. */
const HEADER = 'blades, lengths in mm';

/** Bodies as one binary STL file; the format names no unit, lengths are mm. Layout: `84 + 50 n` bytes for n faces. */
export function writeStl(solids: readonly Solid[]): Uint8Array {
  const count = solids.reduce((sum, { faces }) => sum + faces.length / 3, 0);
  const bytes = new Uint8Array(HEADER_BYTES + 4 + FACE_BYTES * count);
  bytes.set(new TextEncoder().encode(HEADER));
  const view = new DataView(bytes.buffer);
  view.setUint32(HEADER_BYTES, count, true);
  let at = HEADER_BYTES + 4;
  for (const { positionsMm, faces } of solids) {
    for (let face = 0; face < faces.length; face += 3) {
      const corners = [0, 1, 2].map((k) =>
        positionsMm.subarray(3 * faces[face + k]!, 3 * faces[face + k]! + 3),
      );
      [normal(corners), ...corners].forEach((vector, i) =>
        vector.forEach((value, k) => view.setFloat32(at + 12 * i + 4 * k, value, true)),
      );
      at += FACE_BYTES;
    }
  }
  return bytes;
}

/** Unit vector out of a face; zeros for a face without area, as the format wants. */
function normal([a, b, c]: readonly Float64Array[]): Float64Array {
  const [ux, uy, uz] = [b![0]! - a![0]!, b![1]! - a![1]!, b![2]! - a![2]!];
  const [vx, vy, vz] = [c![0]! - a![0]!, c![1]! - a![1]!, c![2]! - a![2]!];
  const across = Float64Array.of(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx);
  const length = Math.hypot(...across);
  return length > 0 ? across.map((part) => part / length) : across.fill(0);
}
