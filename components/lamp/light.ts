import type { Blade } from '../../shared/blade.ts';
import { gridValue, locate } from '../map/blade-drawing.ts';
import type { BladeGrid } from '../map/map-data.ts';

/** Both blades of a reed, or one of them. */
export type LampReed = Readonly<Partial<Record<Blade, BladeGrid>>>;

/** How fast cane swallows light until a maker matched it to their own lamp, 1/mm. Common practice, no source. */
export const USUAL_ATTENUATION_PER_MM = 3;

/** Colour of the bare lamp, light-linear share of each channel: a warm white. Drawn for the eye, not measured. */
export const LAMP: readonly [number, number, number] = [1, 0.68, 0.36];

/**
 * Share of a lamp's light that comes through: exp(-mu t).
 *
 * Source: Beer-Lambert law. Cane also scatters, so this gives an order of brightness and is no photometry; no
 * attenuation of oboe cane is published, so makers match their own.
 *
 * @param attenuationPerMm mu, 1/mm.
 * @param thicknessMm All cane in the way, NaN passed on.
 */
export function throughput(attenuationPerMm: number, thicknessMm: number): number {
  return Math.exp(-attenuationPerMm * thicknessMm);
}

/** Screen value, 0 to 255, of a light-linear share. Source: IEC 61966-2-1. */
export function screenValue(share: number): number {
  const encoded = share <= 0.0031308 ? 12.92 * share : 1.055 * share ** (1 / 2.4) - 0.055;
  return Math.round(255 * encoded);
}

/** Cane in the way of the light at a place, seen on A's bark side: A at `across` and B, which faces it, at minus that. */
export function caneInTheWay(reed: LampReed, fromTipMm: number, across: number): number {
  const { A, B } = reed;
  const a = A ? gridValue(A, A.valuesMm, { fromTipMm, across }) : 0;
  const b = B ? gridValue(B, B.valuesMm, { fromTipMm, across: A ? -across : across }) : 0;
  return a + b;
}

/** Size of a picture, and the pixels in it that one mm takes along and across. */
interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly pxPerMm: number;
  readonly widthFactor: number;
}

/** Paints a reed against the lamp, tip up: pixels beside the reed, and where nothing was read, stay clear. */
export function paintLight(reed: LampReed, attenuationPerMm: number, sheet: Sheet): ImageData {
  const image = new ImageData(sheet.width, sheet.height);
  const shape = reed.A ?? reed.B;
  if (!shape) return image;
  for (let row = 0; row < sheet.height; row++) {
    const fromTipMm = (row + 0.5) / sheet.pxPerMm;
    const [k, share] = locate(shape.ysMm, fromTipMm);
    const near = shape.halfWidthMm[k]!;
    const halfPx = (near + share * (shape.halfWidthMm[k + 1]! - near)) * sheet.pxPerMm * sheet.widthFactor;
    for (let column = 0; column < sheet.width; column++) {
      const across = (column + 0.5 - sheet.width / 2) / halfPx;
      const cane = Math.abs(across) > 1 ? NaN : caneInTheWay(reed, fromTipMm, across);
      if (Number.isNaN(cane)) continue;
      const light = throughput(attenuationPerMm, cane);
      const at = 4 * (row * sheet.width + column);
      LAMP.forEach((channel, c) => (image.data[at + c] = screenValue(channel * light)));
      image.data[at + 3] = 255;
    }
  }
  return image;
}
