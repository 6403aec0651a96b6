import { expect, it } from 'vitest';
import type { Act } from '../../../shared/round.ts';
import { carriedOf, unwrap } from '../../../src/sharing/carried.ts';
import { packLog, unpackLog } from '../../../src/sharing/packed-log.ts';
import { holdsMore, SentMemory, type Held } from '../../../src/sharing/sent.ts';
import { actOf } from '../ledger/random-libraries.ts';

const log = (...acts: string[]): Held => ({ acts });
const version = (document: string, versions: Record<string, number>): Held => ({ document, versions });

it.each<[Held, Held, boolean]>([
  [log('a', 'b', 'c'), log('a', 'c'), true],
  [log('a', 'b'), log('a', 'b'), false],
  [log('b', 'c', 'd'), log('a', 'b'), false],
  [log('a'), log('a', 'b'), false],
  [version('r', { A: 2, B: 1 }), version('r', { A: 1 }), true],
  [version('r', { A: 1 }), version('r', { A: 1 }), false],
  [version('r', { A: 2 }), version('r', { A: 1, B: 1 }), false],
  [version('s', { A: 2 }), version('r', { A: 1 }), false],
  [version('r', { A: 2 }), log('r'), false],
])('tells whether %j holds all of %j and more: %s', (more, less, is) => {
  expect(holdsMore(more, less)).toBe(is);
});

it('remembers what was sent last, and no more of it than fits', async () => {
  const memory = new SentMemory();
  const many = Array.from({ length: 30 }, (_, i) => ({
    id: `l-${i}`,
    rev: '1-a',
    held: log(...Array.from({ length: 200 }, (__, n) => `${i} ${n}`)),
  }));
  for (const one of many) await memory.change([one]);
  const all = log(...many.flatMap(({ held }) => ('acts' in held ? held.acts : [])));
  // 4,000 acts are 20 logs of 200.
  expect(memory.supersededBy([all]).map(({ id }) => id)).toEqual(
    many
      .slice(10)
      .map(({ id }) => id)
      .reverse(),
  );
});

const acts: Act[] = Array.from({ length: 140 }, (_, i) => actOf(0, i + 1, `reading ${i}`));

it('carries the log of a round in a tenth of its text, and reads one that is not packed', async () => {
  const [packed, ...others] = await carriedOf({ documents: [], acts }, 'bench');
  expect(others).toEqual([]);
  expect(await unwrap(JSON.parse(JSON.stringify(packed)))).toMatchObject({ of: 'log', record: { acts } });
  expect(JSON.stringify(packed).length).toBeLessThan(JSON.stringify(acts).length / 5);
  expect(unpackLog({ acts })).toEqual({ acts });
});

it('opens no more of a packed log than it says, and nothing that is damaged', async () => {
  const { bytes, packed } = packLog(acts) as { bytes: number; packed: string };
  for (const record of [
    { bytes: 40, packed },
    { bytes: 3e6, packed },
    { bytes, packed: packed.slice(0, 100) },
    { bytes, packed: '%' },
  ])
    expect(unpackLog(record)).toBe(record);
});
