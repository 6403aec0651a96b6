import { converter, type Rgb } from 'culori';
import values from '../../reference/data/check-values.json' with { type: 'json' };

export const SIGHTS = ['normal', 'deut', 'prot', 'trit'] as const;
type Sight = (typeof SIGHTS)[number];

const toLinear = converter('lrgb');
const toRgb = converter('rgb');
// Machado, Oliveira and Fernandes 2009, doi 10.1109/TVCG.2009.113, severity 1, in linear light.
const matrices: Readonly<Record<string, readonly number[][]>> = values.J_machado2009_linear_rgb;

/** A colour as somebody with full deuteranopia, protanopia or tritanopia is thought to see it. */
export function seen(colour: string, sight: Sight): Rgb {
  const light = toLinear(colour)!;
  if (sight === 'normal') return toRgb(light);
  const [r, g, b] = matrices[sight]!.map(([toR, toG, toB]) =>
    Math.min(Math.max(toR! * light.r + toG! * light.g + toB! * light.b, 0), 1),
  );
  return toRgb({ mode: 'lrgb', r: r!, g: g!, b: b! });
}
