import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

/** What charts draw with is drawn in one place: axes, lines, bands, cards. */
const ITS_OWN = {
  'a line or a band': /from 'd3-(shape|axis)'/,
  'an axis': /<g class="axis|\.axis(Bottom|Left|Top|Right)/,
  'a card': /<g class="card"/,
  'a glyph of a mark': /<g class="mark"/,
} as const;

it('no chart has a line, a band, an axis, a card or a mark of its own', () => {
  const found = readdirSync('components', { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .flatMap((name) => {
      const text = readFileSync(`components/${name}`, 'utf8');
      return Object.entries(ITS_OWN).flatMap(([what, sign]) => (sign.test(text) ? [`${what}: ${name}`] : []));
    });
  expect(found.sort()).toEqual([
    'a card: marks/mark-card.ts',
    'a glyph of a mark: marks/marks.ts',
    'a line or a band: marks/lines.ts',
    'an axis: marks/axes.ts',
  ]);
});
