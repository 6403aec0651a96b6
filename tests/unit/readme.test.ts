import { existsSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { COLUMNS, NEEDED } from '../../src/exchange/csv/columns.ts';

const README = readFileSync('README.md', 'utf8');

/** The row of README's table that a column has, its name as it is written there taken off. */
function rowOf(name: string): string {
  const cells = README.split('\n').map((line) => line.split('|').map((cell) => cell.trim()));
  const row = cells.find(([, first]) => first === `\`${name}\`` || first === `**\`${name}\`**`);
  expect(row, name).toBeDefined();
  expect(row![1]!.startsWith('**'), name).toBe(NEEDED.some((needed) => needed === name));
  return row![2]!.replaceAll('−', '-');
}

it('tells of every column of a file: its allowed words, its bounds and its unit', () => {
  for (const [name, { expected, holds }] of Object.entries(COLUMNS)) {
    const row = rowOf(name);
    const words = holds === 'word' ? expected.replace(/^one of /, '').split(', ') : [];
    for (const word of words) expect(row, name).toContain(`\`${word}\``);
    for (const bound of expected.match(/-?\d+(?:\.\d+)?/g) ?? []) expect(row, name).toContain(bound);
    if (name.endsWith('_mm')) expect(row, name).toMatch(/\bmm\b/);
  }
});

it('names no file that is not there', () => {
  // What stands in code is a file of whoever copies it.
  const prose = README.replaceAll(/^ {4}.*$/gm, '');
  const links = [...prose.matchAll(/\]\(([^)#:]+)\)|src="([^"]+)"/g)].map(([, link, src]) => link ?? src!);
  expect(links.length).toBeGreaterThan(5);
  for (const link of links) expect(existsSync(link), link).toBe(true);
});
