import { expect, it } from 'vitest';
import type { PassHead } from '../../../shared/pass.ts';
import type { Reed } from '../../../shared/reed.ts';
import { othersNow } from '../../../components/store/others-now.ts';
import type { Snapshot } from '../../../src/ledger/snapshot.ts';
import { libraryReed } from '../library-of-maker.ts';

const headOf = (reedId: string): PassHead =>
  ({ id: `${reedId} 0`, reedId, index: 0, readingCount: 140, versions: {} }) as unknown as PassHead;

it('asks neither a favourite, nor an example of a target, nor a reed of another style, nor the reed itself', () => {
  const reeds: Reed[] = [
    libraryReed('own'),
    libraryReed('plain'),
    { ...libraryReed('favourite'), favourite: { passIndex: 0, since: '2026-01-01T00:00:00Z' } },
    libraryReed('example'),
    libraryReed('tip of a target'),
    libraryReed('back of a target'),
    { ...libraryReed('another style'), styleId: 'short-scrape' },
    libraryReed('never read'),
  ];
  const example = (reedId: string) => ({ reedId, passIndex: 0 });
  const recipes = [
    { from: 'reeds', examples: [example('example')] },
    { from: 'tip-and-back', tip: example('tip of a target'), back: example('back of a target') },
  ];
  const snapshot = {
    live: { reed: reeds, trial: [], target: recipes.map((recipe) => ({ recipe })) },
    passesOf: (id: string) => (id === 'never read' ? [] : [headOf(id)]),
  } as unknown as Snapshot;
  const few = [{ ...headOf('own'), readingCount: 30 }];
  expect(othersNow(snapshot, reeds[0]!, few)!.reeds.map(({ id }) => id)).toEqual(['plain']);
  expect(othersNow(snapshot, reeds[0]!, [headOf('own')])).toBeUndefined();
});
