import { createHash } from 'node:crypto';
import * as fc from 'fast-check';
import { XMLParser } from 'fast-xml-parser';
import { unzipSync } from 'fflate';
import { validateBytes } from 'gltf-validator';
import { describe, expect, it } from 'vitest';
import { InputError } from '../../../shared/errors.ts';
import { bladeSolid, type BladeGrid, type Solid } from '../../../src/exchange/surfaces/blade-solid.ts';
import { writeGlb } from '../../../src/exchange/surfaces/glb.ts';
import { writeStl } from '../../../src/exchange/surfaces/stl.ts';
import { rasterOf, writeX3p } from '../../../src/exchange/surfaces/x3p.ts';

const even = (from: number, to: number, count: number) =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));

function grid(rows: number, columns: number, thickness: (y: number, u: number) => number): BladeGrid {
  const [ysMm, us] = [even(0, 20, rows), even(-1, 1, columns)];
  return {
    ysMm,
    us,
    halfWidthsMm: ysMm.map((y) => 3.5 - 0.045 * y),
    thicknessMm: ysMm.flatMap((y) => us.map((u) => thickness(y, u))),
  };
}

const flat = { exaggeration: 1, riseMm: { tip: 0, end: 0 }, shiftMm: 0 };
const arched = { exaggeration: 5, riseMm: { tip: 0.5, end: 2 }, shiftMm: 8 };
const wavy = grid(21, 9, (y, u) => 0.1 + 0.02 * y - 0.05 * u * u);

/** Every edge once each way: a closed surface whose faces all turn alike. */
function isClosed({ faces }: Solid): boolean {
  const edges = new Set<string>();
  for (let f = 0; f < faces.length; f += 3) {
    for (const [k, l] of [
      [0, 1],
      [1, 2],
      [2, 0],
    ] as const) {
      const edge = `${faces[f + k]} ${faces[f + l]}`;
      if (edges.has(edge)) return false;
      edges.add(edge);
    }
  }
  return [...edges].every((edge) => edges.has(edge.split(' ').reverse().join(' ')));
}

/** By the divergence theorem: signed tetrahedra from the origin. */
function volume(corners: readonly (readonly number[])[]): number {
  let six = 0;
  for (let f = 0; f < corners.length; f += 3) {
    const [[a, b, c], [d, e, g], [h, i, j]] = corners.slice(f, f + 3) as [number[], number[], number[]];
    six += a! * (e! * j! - g! * i!) - b! * (d! * j! - g! * h!) + c! * (d! * i! - e! * h!);
  }
  return six / 6;
}

const cornersOf = ({ positionsMm, faces }: Solid) =>
  Array.from(faces, (at) => [...positionsMm.subarray(3 * at, 3 * at + 3)]);

describe('body of a blade', () => {
  it('is closed, with the volume of its cane whatever its arch', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 9 }),
        fc.integer({ min: 2, max: 7 }),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (rows, columns, thickness) => {
          for (const options of [flat, arched]) {
            const solid = bladeSolid(
              grid(rows, columns, () => thickness),
              options,
            );
            expect(isClosed(solid)).toBe(true);
            // A trapezium 7 mm and 5.2 mm wide, 20 mm long, of even thickness.
            expect(volume(cornersOf(solid)) / (options.exaggeration * thickness * 20 * 6.1)).toBeCloseTo(
              1,
              10,
            );
          }
        },
      ),
      { numRuns: 30 },
    );
  });

  it('keeps some thickness where an extrapolated rim runs out', () => {
    expect(
      volume(
        cornersOf(
          bladeSolid(
            grid(3, 3, () => -0.1),
            flat,
          ),
        ),
      ),
    ).toBeCloseTo(0.005 * 20 * 6.1, 10);
  });

  it.each([
    [{ ...wavy, ysMm: [0] }, 'ysMm: must hold two numbers or more, got 1'],
    [{ ...wavy, us: [...wavy.us].reverse() }, 'us[1]: must be finite and rise, got 0.75'],
    [{ ...wavy, halfWidthsMm: [1] }, 'halfWidthsMm: must hold a positive number for each of 21 distances'],
    [{ ...wavy, thicknessMm: [0.1] }, 'thicknessMm: must hold 189 numbers, got 1'],
    [
      { ...wavy, thicknessMm: wavy.ysMm.flatMap(() => wavy.us.map(() => NaN)) },
      'thicknessMm[0]: must be finite, got NaN',
    ],
  ])('refuses a grid that is not whole', (broken, sentence) => {
    expect(() => bladeSolid(broken, flat)).toThrow(new InputError(sentence));
  });
});

describe('STL', () => {
  it('is read back as the same closed bodies', () => {
    const solids = [bladeSolid(wavy, flat), bladeSolid(wavy, arched)];
    const bytes = writeStl(solids);
    const view = new DataView(bytes.buffer);
    const count = view.getUint32(80, true);
    expect(bytes.length).toBe(84 + 50 * count);
    expect(new TextDecoder().decode(bytes.subarray(0, 5))).not.toBe('solid');
    const number = (face: number, i: number) => view.getFloat32(84 + 50 * face + 4 * i, true);
    const corners = Array.from({ length: 3 * count }, (_, k) =>
      [3, 4, 5].map((i) => number(Math.floor(k / 3), i + 3 * (k % 3))),
    );
    const merged = new Map<string, number>();
    const faces = Uint32Array.from(corners, (corner) => {
      const key = corner.join(' ');
      if (!merged.has(key)) merged.set(key, merged.size);
      return merged.get(key)!;
    });
    expect(isClosed({ faces, positionsMm: new Float64Array() })).toBe(true);
    const expected = solids.reduce((sum, solid) => sum + volume(cornersOf(solid)), 0);
    expect(volume(corners) / expected).toBeCloseTo(1, 5); // 32-bit floats
    for (let face = 0; face < count; face++)
      expect(Math.hypot(number(face, 0), number(face, 1), number(face, 2))).toBeCloseTo(1, 5);
  });
});

describe('glTF binary', () => {
  it('has nothing for the Khronos validator to say, and is in metres', async () => {
    const bytes = writeGlb([
      { name: 'Blade A', solid: bladeSolid(wavy, flat) },
      { name: 'Blade B', solid: bladeSolid(wavy, arched) },
    ]);
    const report = await validateBytes(bytes);
    expect(report.issues.messages).toEqual([]);
    expect(report.info).toMatchObject({
      version: '2.0',
      totalTriangleCount: (2 * bladeSolid(wavy, flat).faces.length) / 3,
    });
    const json = JSON.parse(
      new TextDecoder().decode(bytes.subarray(20, 20 + new DataView(bytes.buffer).getUint32(12, true))),
    ) as {
      accessors: { min?: number[]; max?: number[] }[];
    };
    expect(json.accessors[0]!.min![1]).toBeCloseTo(-0.02, 9);
    expect(json.accessors[0]!.max![0]).toBeCloseTo(0.0035, 9);
  });
});

describe('areal surface of ISO 25178-72', () => {
  const raster = rasterOf(
    grid(41, 21, (y, u) => 0.1 + 0.02 * y + 0.03 * u),
    0.25,
  );
  const files = unzipSync(writeX3p(raster));
  const md5 = (bytes: Uint8Array) => createHash('md5').update(bytes).digest('hex').toUpperCase();
  const xml = new XMLParser({ removeNSPrefix: true }).parse(new TextDecoder().decode(files['main.xml'])) as {
    ISO5436_2: {
      Record1: {
        FeatureType: string;
        Axes: { CX: { Increment: number; Offset: number }; CZ: { AxisType: string; DataType: string } };
      };
      Record3: {
        MatrixDimension: { SizeX: number; SizeY: number; SizeZ: number };
        DataLink: { PointDataLink: string; MD5ChecksumPointData: string };
      };
      Record4: { ChecksumFile: string };
    };
  };
  const { Record1, Record3, Record4 } = xml.ISO5436_2;

  it('carries right checksums of its heights and of its description', () => {
    const { PointDataLink, MD5ChecksumPointData } = Record3.DataLink;
    expect(MD5ChecksumPointData).toBe(md5(files[PointDataLink]!));
    expect(new TextDecoder().decode(files[Record4.ChecksumFile])).toBe(
      `${md5(files['main.xml']!)} *main.xml\n`,
    );
  });

  it('is read back in metres, x fastest, with nothing outside the blade', () => {
    expect(Record1).toMatchObject({
      FeatureType: 'SUR',
      Axes: { CX: { Increment: 0.00025, Offset: -0.0035 }, CZ: { AxisType: 'A', DataType: 'D' } },
    });
    const { SizeX, SizeY, SizeZ } = Record3.MatrixDimension;
    expect([SizeX, SizeY, SizeZ]).toEqual([29, 81, 1]);
    const data = files[Record3.DataLink.PointDataLink]!;
    const height = (column: number, row: number) =>
      new DataView(data.buffer, data.byteOffset).getFloat64(8 * (row * SizeX + column), true);
    expect(data.length).toBe(8 * SizeX * SizeY);
    // 10 mm from the tip the blade is 6.1 mm wide; the surface is 0.3 mm thick in the middle.
    expect(height(14, 40)).toBeCloseTo(0.0003, 12);
    expect(height(18, 40)).toBeCloseTo((0.3 + 0.03 * (1 / 3.05)) / 1000, 12);
    expect(height(0, 40)).toBeNaN();
  });

  it('is the same file for the same surface', () => {
    expect(writeX3p(raster)).toEqual(writeX3p(raster));
  });
});
