import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';

const LIST = 'components/across-shadows.ts';
const sources = ['components', 'demo'].flatMap((layer) =>
  readdirSync(layer, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => [join(layer, name), readFileSync(join(layer, name), 'utf8')] as const),
);
const namesIn = (text: string, pattern: RegExp) => [...text.matchAll(pattern)].map(([, name]) => name!);

it('lets no event through shadows but those of one list', () => {
  const list = readFileSync(LIST, 'utf8');
  const through = sources.flatMap(([, text]) =>
    namesIn(text, /super\(\s*'(bench-[a-z-]+)',\s*ACROSS_SHADOWS/g),
  );
  expect(through.sort()).toEqual(namesIn(list, /(bench-[a-z-]+)/g).sort());
  const byHand = sources.filter(([file, text]) => file !== LIST && /bubbles: true/.test(text));
  expect(byHand.map(([file]) => file)).toEqual([]);
});

it('has a listener for every event that goes through shadows', () => {
  for (const name of namesIn(readFileSync(LIST, 'utf8'), /(bench-[a-z-]+)/g)) {
    const heard = sources.some(
      ([, text]) => text.includes(`@${name}=`) || text.includes(`addEventListener('${name}'`),
    );
    expect(heard, name).toBe(true);
  }
});
