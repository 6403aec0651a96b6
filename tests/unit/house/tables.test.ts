import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

/** Tables of no figures: the list of keys, and the block that the maker has just pasted. */
const NOT_COPIED = ['components/frame/key-sheet.ts', 'components/bring-in/block-question.ts'];

it('every table of the bench can be copied as plain cells', () => {
  const files = readdirSync('components', { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `components/${name}`);
  const without = files.filter((file) => {
    const text = readFileSync(file, 'utf8');
    return text.includes('<table') && !/<bench-copy\b|copyButton\(/.test(text);
  });
  expect(without.sort()).toEqual([...NOT_COPIED].sort());
});
