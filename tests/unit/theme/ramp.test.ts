import { converter, differenceCiede2000 } from 'culori';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contrast } from '../../../components/theme/contrast.ts';
import { PALETTE, THEMES } from '../../../components/theme/palette.ts';
import { bandOf, QUANTITIES, ramp } from '../../../components/theme/ramp.ts';
import { RAMP_TABLES } from '../../../components/theme/ramps.ts';
import { seen, SIGHTS } from './sight.ts';

const all = THEMES.flatMap((theme) => QUANTITIES.map((quantity) => ({ theme, quantity })));
const sights = THEMES.flatMap((theme) => SIGHTS.map((sight) => ({ theme, sight })));
const lightness = converter('lab65');
const difference = differenceCiede2000();
const rises = (values: readonly number[]) => values.every((value, i) => i === 0 || value > values[i - 1]!);
const falls = (values: readonly number[]) => rises(values.map((value) => -value));

describe('ramp', () => {
  it.each(all)('$theme $quantity: bands meet and fill the scale', ({ theme, quantity }) => {
    const { fromMm, toMm, bands } = ramp(quantity, theme);
    const borders = [fromMm, ...bands.map((band) => band.toMm)];
    bands.forEach((band, i) => expect(band.fromMm).toBeCloseTo(borders[i]!, 12));
    expect(borders.at(-1)).toBeCloseTo(toMm, 12);
  });

  it.each(all)('$theme $quantity: a number reads on every band', ({ theme, quantity }) => {
    for (const { colour, ink } of ramp(quantity, theme).bands)
      expect(contrast(colour, ink)).toBeGreaterThanOrEqual(4.5);
  });

  it.each(sights)('$theme: thicker is darker with $sight sight', ({ theme, sight }) => {
    const l = ramp('thickness', theme).bands.map(({ colour }) => lightness(seen(colour, sight))!.l);
    expect(falls(l)).toBe(true);
  });

  it.each(sights)(
    '$theme: more doubt is further from the bare plate with $sight sight',
    ({ theme, sight }) => {
      const l = ramp('doubt', theme).bands.map(({ colour }) => lightness(seen(colour, sight))!.l);
      expect((theme === 'day' ? falls : rises)(l)).toBe(true);
    },
  );

  it.each(sights)('$theme: five hundredths are two colours with $sight sight', ({ theme, sight }) => {
    // 2 of CIEDE2000 are just visible side by side. Common practice, no source.
    const colours = RAMP_TABLES[theme].thickness.map((colour) => seen(colour, sight));
    const least = sight === 'trit' ? 2 : 3;
    for (let i = 0; i + 3 < colours.length; i++)
      expect(difference(colours[i]!, colours[i + 3]!)).toBeGreaterThan(least);
  });

  it.each(sights)('$theme: more is stronger on both arms with $sight sight', ({ theme, sight }) => {
    const l = ramp('difference', theme).bands.map(({ colour }) => lightness(seen(colour, sight))!.l);
    const stronger = theme === 'day' ? falls : rises;
    expect(stronger(l.slice(8))).toBe(true);
    expect(stronger(l.slice(0, 8).reverse())).toBe(true);
  });

  it.each(sights.filter(({ sight }) => sight !== 'trit'))(
    '$theme: excess is never taken for lack with $sight sight',
    ({ theme, sight }) => {
      const table = RAMP_TABLES[theme].difference.map((colour) => seen(colour, sight));
      for (const hundredths of [2, 4, 6, 8])
        expect(difference(table[8 + hundredths]!, table[8 - hundredths]!)).toBeGreaterThan(20);
    },
  );

  it.each(THEMES)('%s: no difference looks like the bare plate', (theme) => {
    const middle = RAMP_TABLES[theme].difference[8]!;
    expect(difference(middle, PALETTE[theme].plate)).toBeLessThan(3);
  });

  it.each(all)('$theme $quantity: every value lies in its band, the ends holding the rest', (which) => {
    const scale = ramp(which.quantity, which.theme);
    fc.assert(
      fc.property(fc.double({ min: -1, max: 1, noNaN: true }), (valueMm) => {
        const i = bandOf(scale, valueMm);
        const { fromMm, toMm } = scale.bands[i]!;
        const slack = 1e-9;
        if (valueMm < scale.fromMm) expect(i).toBe(0);
        else if (valueMm >= scale.toMm) expect(i).toBe(scale.bands.length - 1);
        else expect(valueMm >= fromMm - slack && valueMm < toMm + slack).toBe(true);
      }),
    );
  });

  it('puts a value on a border into the band above it, whatever its rounding', () => {
    const scale = ramp('thickness', 'day');
    expect(scale.bands.map(({ fromMm }) => bandOf(scale, Number(fromMm.toFixed(2))))).toEqual(
      scale.bands.map((_, i) => i),
    );
  });
});
