const HEX = /^#(..)(..)(..)$/;
const RGB = /^rgb\((\d+), (\d+), (\d+)\)$/;

/** Red, green and blue of `#rrggbb` or `rgb(r, g, b)`, 0 to 255. */
export function channels(colour: string): readonly [number, number, number] {
  const hex = HEX.exec(colour);
  const parts = hex ?? RGB.exec(colour);
  if (!parts) throw new RangeError(`colour: must be #rrggbb or rgb(r, g, b), got ${colour}`);
  const [r, g, b] = parts.slice(1).map((part) => parseInt(part, hex ? 16 : 10));
  return [r!, g!, b!];
}

/** Light-linear value of an sRGB channel. Source: IEC 61966-2-1. */
export function linear(channel: number): number {
  const c = channel / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
}

/** Source: WCAG 2.2, "relative luminance". */
function relativeLuminance(colour: string): number {
  const [r, g, b] = channels(colour);
  return 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
}

/** 1 (none) to 21 (black on white). Source: WCAG 2.2, "contrast ratio". */
export function contrast(one: string, other: string): number {
  const [dark, light] = [relativeLuminance(one), relativeLuminance(other)].sort((a, b) => a - b);
  return (light! + 0.05) / (dark! + 0.05);
}
