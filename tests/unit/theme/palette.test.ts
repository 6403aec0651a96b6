import { converter, differenceCiede2000, wcagContrast, type Rgb } from 'culori';
import { describe, expect, it } from 'vitest';
import { contrast } from '../../../components/theme/contrast.ts';
import { PALETTE, ROLES, THEMES, type Role } from '../../../components/theme/palette.ts';
import { seen, SIGHTS } from './sight.ts';

const SURFACES = ['paper', 'plate', 'sunk'] as const;
const MARKS: readonly Role[] = ['rule2', 'focus', 'favourite', 'strokes'];
const NOT_READ: readonly Role[] = [...SURFACES, 'rule'];
const pairs = THEMES.flatMap((theme) =>
  ROLES.filter((role) => !NOT_READ.includes(role)).flatMap((role) =>
    SURFACES.map((surface) => ({ theme, role, surface })),
  ),
);

describe('palette', () => {
  it.each(pairs)('$theme: $role reads on $surface', ({ theme, role, surface }) => {
    // WCAG 2.2: 4.5 for text (1.4.3), 3 for lines and marks (1.4.11).
    const least = MARKS.includes(role) ? 3 : 4.5;
    expect(contrast(PALETTE[theme][role], PALETTE[theme][surface])).toBeGreaterThanOrEqual(least);
  });

  it('computes the contrast that culori computes', () => {
    for (const { theme, role, surface } of pairs) {
      const [one, other] = [PALETTE[theme][role], PALETTE[theme][surface]];
      // culori keeps more digits of the luminance weights: a few 1e-4 of the ratio.
      expect(Math.abs(contrast(one, other) - wcagContrast(one, other))).toBeLessThan(2e-3);
    }
  });

  it.each(['red', '#fff', 'rgb(1 2 3)'])('refuses %s, which it could only guess at', (colour) => {
    expect(() => contrast(colour, '#000000')).toThrow(RangeError);
  });

  it.each(THEMES.flatMap((theme) => SIGHTS.map((sight) => ({ theme, sight }))))(
    '$theme: the lines of A, B and the favourite are told apart with $sight',
    ({ theme, sight }) => {
      // 12 units of CIEDE2000 are far beyond a just visible 2; dash and double line carry the rest.
      const difference = differenceCiede2000();
      const [a, b, favourite] = (['bladeA', 'bladeB', 'favourite'] as const).map((role) =>
        seen(PALETTE[theme][role], sight),
      ) as [Rgb, Rgb, Rgb];
      for (const [one, other] of [
        [a, b],
        [a, favourite],
        [b, favourite],
      ] as const)
        expect(difference(one, other)).toBeGreaterThan(12);
    },
  );

  it('keeps blue low in the lamp theme, and no pure white', () => {
    const rgb = converter('rgb');
    for (const role of ROLES.filter((role) => !['bladeA', 'lack'].includes(role))) {
      const colour = rgb(PALETTE.lamp[role]);
      expect(colour!.b).toBeLessThan(0.75 * colour!.r);
    }
  });
});
