import { readFileSync, readdirSync } from 'node:fs';
import { expect, it } from 'vitest';
import { STARTING_STYLES } from '../../../src/blade/starting-styles.ts';
import * as meanings from '../../../src/blade/zone-meanings.ts';

const names = [...new Set(STARTING_STYLES.flatMap(({ zones }) => zones.map(({ name }) => name)))];

it('only zones of the starting styles mean more than where they lie', () => {
  expect(names).toEqual(expect.arrayContaining(Object.values(meanings).flat(2)));
});

it('no other file asks for a zone by its name', () => {
  // A table of the trade, and what is usual, have a row for each zone.
  const tables = /plan\/habits\.ts|blade\/(starting-styles|usual-thickness|zone-meanings)\.ts/;
  const asks = new RegExp(`(===|!==|includes\\(|Set\\(\\[)\\s*'(${names.join('|')})'`);
  const asking = readdirSync('src', { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts') && !tables.test(file.replaceAll('\\', '/')))
    .filter((file) =>
      asks.test(readFileSync(`src/${file}`, 'utf8').replaceAll(/(from|placing) [!=]== 'tip'/g, '')),
    );
  expect(asking).toEqual([]);
});
