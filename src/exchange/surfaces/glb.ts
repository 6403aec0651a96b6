import type { Solid } from './blade-solid.ts';

export interface NamedSolid {
  readonly name: string;
  readonly solid: Solid;
  /** Red, green and blue of each vertex, light-linear, 0 to 1; with them the body is shown in just these colours. */
  readonly colours?: Float32Array;
}

/** Numbers of the glTF 2.0 specification (Khronos; ISO/IEC 12113). */
const MAGIC = 0x46546c67;
const JSON_CHUNK = 0x4e4f534a;
const BINARY_CHUNK = 0x004e4942;
const [FLOAT, UNSIGNED_INT] = [5126, 5125];
/** Khronos extension KHR_materials_unlit. */
const UNLIT = 'KHR_materials_unlit';
/** A material that shows vertex colours as they are, from both sides. */
const COLOURED = {
  doubleSided: true,
  pbrMetallicRoughness: { metallicFactor: 0, roughnessFactor: 1 },
  extensions: { [UNLIT]: {} },
};
const [ARRAY_BUFFER, ELEMENT_ARRAY_BUFFER] = [34962, 34963];

/** Bodies as one binary glTF 2.0 file, a named node each, in metres as the format demands; the tip points up (+y). */
export function writeGlb(solids: readonly NamedSolid[]): Uint8Array {
  const parts: (Float32Array | Uint32Array)[] = [];
  const meshes = solids.map(({ name, solid, colours }) => {
    const position = parts.push(Float32Array.from(solid.positionsMm, (mm) => mm / 1000)) - 1;
    const indices = parts.push(solid.faces) - 1;
    if (!colours) return { name, primitives: [{ attributes: { POSITION: position }, indices }] };
    const attributes = { POSITION: position, COLOR_0: parts.push(colours) - 1 };
    return { name, primitives: [{ attributes, indices, material: 0 }] };
  });
  const isColoured = solids.some(({ colours }) => colours);
  const offsets = parts.map((_, i) => parts.slice(0, i).reduce((sum, { byteLength }) => sum + byteLength, 0));
  const byteLength = parts.reduce((sum, part) => sum + part.byteLength, 0);
  const binary = new Uint8Array(byteLength);
  parts.forEach((part, i) =>
    binary.set(new Uint8Array(part.buffer, part.byteOffset, part.byteLength), offsets[i]),
  );
  const json = {
    asset: { version: '2.0', generator: 'Hundredths' },
    scene: 0,
    scenes: [{ nodes: solids.map((_, i) => i) }],
    nodes: solids.map(({ name }, i) => ({ name, mesh: i })),
    meshes,
    ...(isColoured && { materials: [COLOURED], extensionsUsed: [UNLIT] }),
    accessors: parts.map((part, bufferView) =>
      part instanceof Float32Array ? positionAccessor(part, bufferView) : indexAccessor(part, bufferView),
    ),
    bufferViews: parts.map((part, i) => ({
      ...{ buffer: 0, byteOffset: offsets[i], byteLength: part.byteLength },
      target: part instanceof Float32Array ? ARRAY_BUFFER : ELEMENT_ARRAY_BUFFER,
    })),
    buffers: [{ byteLength }],
  };
  return container(new TextEncoder().encode(JSON.stringify(json)), binary);
}

function positionAccessor(positions: Float32Array, bufferView: number) {
  const axes = [0, 1, 2].map((axis) => positions.filter((_, i) => i % 3 === axis));
  const bound = (pick: (a: number, b: number) => number) =>
    axes.map((values) => values.reduce((a, b) => pick(a, b)));
  const [min, max] = [bound(Math.min), bound(Math.max)];
  return { bufferView, componentType: FLOAT, count: positions.length / 3, type: 'VEC3', min, max };
}

function indexAccessor({ length }: Uint32Array, bufferView: number) {
  return { bufferView, componentType: UNSIGNED_INT, count: length, type: 'SCALAR' };
}

/** Header and two chunks, each filled to a multiple of four bytes: JSON with spaces, binary with zeros. */
function container(json: Uint8Array, binary: Uint8Array): Uint8Array {
  const [jsonLength, binaryLength] = [json, binary].map(({ length }) => 4 * Math.ceil(length / 4)) as [
    number,
    number,
  ];
  const bytes = new Uint8Array(12 + 8 + jsonLength + 8 + binaryLength);
  const view = new DataView(bytes.buffer);
  [MAGIC, 2, bytes.length, jsonLength, JSON_CHUNK].forEach((word, i) => view.setUint32(4 * i, word, true));
  bytes.fill(0x20, 20, 20 + jsonLength);
  bytes.set(json, 20);
  view.setUint32(20 + jsonLength, binaryLength, true);
  view.setUint32(24 + jsonLength, BINARY_CHUNK, true);
  bytes.set(binary, 28 + jsonLength);
  return bytes;
}
