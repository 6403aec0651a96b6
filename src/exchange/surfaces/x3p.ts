import { md5 } from '@noble/hashes/legacy.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { zipSync } from 'fflate';
import type { BladeGrid } from './blade-solid.ts';

/** Heights over an even raster, rows along the blade from the tip. */
export interface Raster {
  readonly columns: number;
  readonly rows: number;
  /** Distance between neighbours, both ways. */
  readonly stepMm: number;
  /** Place of the first column across, mm from the centre line. */
  readonly firstColumnMm: number;
  /** Row by row; NaN outside the blade. */
  readonly heightsMm: Float64Array;
}

const DATA_FILE = 'bindata/data.bin';
const CHECKSUM_FILE = 'md5checksum.hex';
/** The same bytes for the same surface: entries carry the earliest time that a zip can hold. */
const NO_TIME = new Date(1980, 0, 1);

/**
 * Thickness as heights on an even raster, bilinear within the grid's cells, NaN outside the blade's outline.
 */
export function rasterOf(grid: BladeGrid, stepMm: number): Raster {
  const halfMm = Math.max(...grid.halfWidthsMm);
  const side = Math.floor(halfMm / stepMm);
  const [columns, rows] = [2 * side + 1, Math.floor((grid.ysMm.at(-1)! - grid.ysMm[0]!) / stepMm + 1e-9) + 1];
  const heightsMm = new Float64Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      heightsMm[row * columns + column] = heightAt(
        grid,
        grid.ysMm[0]! + row * stepMm,
        (column - side) * stepMm,
      );
    }
  }
  return { columns, rows, stepMm, firstColumnMm: -side * stepMm, heightsMm };
}

function heightAt({ ysMm, us, halfWidthsMm, thicknessMm }: BladeGrid, yMm: number, xMm: number): number {
  const [i, down] = cellOf(ysMm, yMm);
  const u = xMm / (halfWidthsMm[i]! + down * (halfWidthsMm[i + 1]! - halfWidthsMm[i]!));
  if (u < us[0]! || u > us.at(-1)!) return NaN;
  const [j, right] = cellOf(us, u);
  const along = (row: number) => {
    const at = row * us.length + j;
    return thicknessMm[at]! + right * (thicknessMm[at + 1]! - thicknessMm[at]!);
  };
  return along(i) + down * (along(i + 1) - along(i));
}

/** The cell that a value lies in, and how far along it, from 0 to 1. */
function cellOf(knots: readonly number[], value: number): [cell: number, share: number] {
  const after = knots.findIndex((knot) => knot > value);
  const cell = after === -1 ? knots.length - 2 : Math.max(0, after - 1);
  return [cell, Math.min(1, Math.max(0, (value - knots[cell]!) / (knots[cell + 1]! - knots[cell]!)))];
}

/**
 * A surface in the open areal format of ISO 25178-72 (x3p): a zip with `main.xml`, the heights as little-endian
 * doubles with x fastest, their MD5, and the MD5 of `main.xml`. Lengths in metres.
 *
 * Source: the format's schema, ISO5436_2 at http://www.opengps.eu/2008/ISO5436_2.
 */
export function writeX3p(raster: Raster): Uint8Array {
  const data = new Uint8Array(8 * raster.heightsMm.length);
  const view = new DataView(data.buffer);
  raster.heightsMm.forEach((mm, i) => view.setFloat64(8 * i, mm / 1000, true));
  const xml = new TextEncoder().encode(mainXml(raster, hexMd5(data)));
  const checksum = new TextEncoder().encode(`${hexMd5(xml)} *main.xml\n`);
  return zipSync({ 'main.xml': xml, [DATA_FILE]: data, [CHECKSUM_FILE]: checksum }, { mtime: NO_TIME });
}

function hexMd5(bytes: Uint8Array): string {
  return bytesToHex(md5(bytes)).toUpperCase();
}

function mainXml({ columns, rows, stepMm, firstColumnMm }: Raster, dataMd5: string): string {
  const axis = (name: string, offsetMm: number) =>
    `<${name}><AxisType>I</AxisType><DataType>D</DataType><Increment>${stepMm / 1000}</Increment><Offset>${offsetMm / 1000}</Offset></${name}>`;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<p:ISO5436_2 xmlns:p="http://www.opengps.eu/2008/ISO5436_2">',
    '<Record1><Revision>ISO5436 - 2000</Revision><FeatureType>SUR</FeatureType><Axes>',
    axis('CX', firstColumnMm),
    axis('CY', 0),
    '<CZ><AxisType>A</AxisType><DataType>D</DataType></CZ>',
    '</Axes></Record1>',
    '<Record3>',
    `<MatrixDimension><SizeX>${columns}</SizeX><SizeY>${rows}</SizeY><SizeZ>1</SizeZ></MatrixDimension>`,
    `<DataLink><PointDataLink>${DATA_FILE}</PointDataLink><MD5ChecksumPointData>${dataMd5}</MD5ChecksumPointData></DataLink>`,
    '</Record3>',
    `<Record4><ChecksumFile>${CHECKSUM_FILE}</ChecksumFile></Record4>`,
    '</p:ISO5436_2>',
    '',
  ].join('\n');
}
