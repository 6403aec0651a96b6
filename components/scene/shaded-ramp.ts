import { lab, rgb, type LabColor } from 'd3-color';
import { ramp, type Quantity } from '../theme/ramp.ts';
import type { Theme } from '../theme/palette.ts';

/** Full shade and full light change lightness by so much, CIE L*. */
const SHADE = { dark: -17, light: 9 };
/** Light may carry a colour along its ramp by less than this many bands: a place keeps the band that the legend gives it. */
const MOST_BANDS = 0.8;
/** A shade that would still pass for a band further off is taken back by such shares. */
const WEAKER = 0.1;

/** The bands of a ramp as they are, in full shade and in full light, as sRGB 0 to 255, four numbers a band. */
export interface ShadedRamp {
  readonly bands: number;
  readonly fromMm: number;
  readonly toMm: number;
  /** Three rows of `bands`: shade, plain, light. */
  readonly texels: Uint8Array<ArrayBuffer>;
}

type Vector = readonly [l: number, a: number, b: number];
const minus = (one: LabColor, other: LabColor): Vector => [one.l - other.l, one.a - other.a, one.b - other.b];
const length = ([l, a, b]: Vector) => Math.hypot(l, a, b);

/**
 * A colour under a light that goes across its ramp and hardly along it: what would make it look like another thickness is
 * taken out of the change, but for a part of a band.
 *
 * Source: CIE 1976 L*a*b*; projection across the ramp: own derivation.
 */
function lit(colour: LabColor, along: Vector, lightness: number): LabColor {
  const step = length(along);
  if (step === 0) return lab(colour.l + lightness, colour.a, colour.b);
  const unit = along.map((part) => part / step) as unknown as Vector;
  const wished = lightness * unit[0];
  const most = MOST_BANDS * step;
  const taken = wished - Math.min(Math.max(wished, -most), most);
  return lab(colour.l + lightness - taken * unit[0], colour.a - taken * unit[1], colour.b - taken * unit[2]);
}

/** Number of the band that a colour is nearest to, CIE 1976. */
export function nearestBand(colours: readonly LabColor[], colour: LabColor): number {
  const distances = colours.map((other) => length(minus(colour, other)));
  return distances.indexOf(Math.min(...distances));
}

/** The strongest change towards `lightness` that is still taken for the same band or the next. */
function shade(colours: readonly LabColor[], k: number, lightness: number): LabColor {
  const [before, after] = [Math.max(k - 1, 0), Math.min(k + 1, colours.length - 1)];
  const along = minus(colours[after]!, colours[before]!).map((part) => part / (after - before));
  for (let share = 1; share > 0; share -= WEAKER) {
    const tried = lab(rgb(lit(colours[k]!, along as unknown as Vector, share * lightness)).clamp());
    if (Math.abs(nearestBand(colours, tried) - k) <= 1) return tried;
  }
  return colours[k]!;
}

const found = new Map<string, ShadedRamp>();

/** The ramp of a quantity with its shades, for a body under a raking light; worked out once. */
export function shadedRamp(quantity: Quantity, theme: Theme): ShadedRamp {
  const key = `${quantity} ${theme}`;
  const shaded = found.get(key) ?? workOut(quantity, theme);
  found.set(key, shaded);
  return shaded;
}

function workOut(quantity: Quantity, theme: Theme): ShadedRamp {
  const { bands, fromMm, toMm } = ramp(quantity, theme);
  const colours = bands.map(({ colour }) => lab(colour));
  const rows = [
    ...colours.map((_, k) => shade(colours, k, SHADE.dark)),
    ...colours,
    ...colours.map((_, k) => shade(colours, k, SHADE.light)),
  ];
  const texels = rows.flatMap((colour) => {
    const { r, g, b } = rgb(colour).clamp();
    return [Math.round(r), Math.round(g), Math.round(b), 255];
  });
  return { bands: bands.length, fromMm, toMm, texels: Uint8Array.from(texels) };
}
