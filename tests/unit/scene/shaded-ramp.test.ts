import { converter, type Lab } from 'culori';
import { describe, expect, it } from 'vitest';
import { shadedRamp } from '../../../components/scene/shaded-ramp.ts';
import { THEMES } from '../../../components/theme/palette.ts';
import { ramp } from '../../../components/theme/ramp.ts';

const toLab = converter('lab');

/** A texel by a library that the product does not use, CIE 1976. */
function labOf(texels: ArrayLike<number>, at: number): Lab {
  const [r, g, b] = [0, 1, 2].map((channel) => texels[4 * at + channel]! / 255);
  return toLab({ mode: 'rgb', r: r!, g: g!, b: b! });
}
const away = (one: Lab, other: Lab) => Math.hypot(one.l - other.l, one.a - other.a, one.b - other.b);

describe.each(THEMES)('the ramp under a light, %s', (theme) => {
  for (const quantity of ['thickness', 'difference'] as const) {
    const { bands, texels } = shadedRamp(quantity, theme);
    const plain = Array.from({ length: bands }, (_, k) => labOf(texels, bands + k));
    /** The shader's own mixing, of shade or light with the plain colour. */
    const lit = (k: number, light: number) => {
      const end = (light < 0 ? 0 : 2) * bands + k;
      return labOf(
        [0, 1, 2].map(
          (channel) =>
            (1 - Math.abs(light)) * texels[4 * (bands + k) + channel]! +
            Math.abs(light) * texels[4 * end + channel]!,
        ),
        0,
      );
    };

    it(`leaves every band of ${quantity} within one band of its legend, whatever the light`, () => {
      for (let k = 0; k < bands; k++)
        for (const light of [-1, -0.75, -0.5, -0.25, 0.25, 0.5, 0.75, 1]) {
          const distances = plain.map((other) => away(lit(k, light), other));
          const nearest = distances.indexOf(Math.min(...distances));
          expect(Math.abs(nearest - k), `band ${k}, light ${light}`).toBeLessThanOrEqual(1);
        }
    });

    it(`still shows a light on ${quantity}`, () => {
      const shades = plain.map((colour, k) => colour.l - lit(k, -1).l);
      // Five CIE L* are seen at a glance; three on the darkest bands, which have little room.
      expect(shades.reduce((sum, value) => sum + value, 0) / bands).toBeGreaterThan(8);
    });

    it(`has the legend's own colours of ${quantity} without a light`, () => {
      const own = ramp(quantity, theme).bands.map(({ colour }) => toLab(colour)!);
      // Half a step of an 8-bit channel.
      own.forEach((colour, k) => expect(away(colour, plain[k]!)).toBeLessThan(0.6));
    });
  }
});
