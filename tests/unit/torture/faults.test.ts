import { expect, it } from 'vitest';
import { faultsIn, type Findings, type Told } from '../../torture/work.ts';

const SOUND: Findings = {
  twins: [4, 4],
  acts: ['a', 'b'],
  batches: { 'batch 0.0': 4, 'merged 1': 4 },
  sides: { 'merged 1': [0, 0, 1, 1] },
  old: [{ name: 'old 2.0', live: 8, copies: 8, of: 8, setAside: 0 }],
  setAside: 0,
  ids: ['k'],
  broughtBack: false,
  batchSize: 2,
};
const TOLD: Told = {
  begun: [{ what: 'old', name: 'old 2.0' }],
  kept: [
    { what: 'twins', n: 4 },
    { what: 'act', id: 'b' },
    { what: 'batch', name: 'batch 0.0' },
    { what: 'sides', name: 'merged 1', n: 1 },
    { what: 'old', name: 'old 2.0' },
    { what: 'purged', id: 'p' },
  ],
};

it('finds nothing wrong with a sound library', () => {
  expect(faultsIn(SOUND, TOLD, 2, false)).toEqual([]);
});

it.each<[string, Partial<Findings>]>([
  ['half a change', { twins: [4, 5] }],
  ['lost: {"what":"twins"', { twins: [3, 3] }],
  ['lost: {"what":"act"', { acts: ['a'] }],
  ['lost: {"what":"batch"', { batches: {} }],
  ['half an import', { batches: { 'batch 0.0': 3 } }],
  ['half a merge', { sides: { 'merged 1': [0, 0, 1] } }],
  ['half a migration', { old: [{ name: 'old 2.0', live: 8, copies: 0, of: 8, setAside: 0 }] }],
  ['lost: old 2.0', { old: [] }],
  ['cannot be read', { setAside: 1 }],
  ['returned: p', { ids: ['k', 'p'] }],
])('reports %s', (words, change) => {
  expect(faultsIn({ ...SOUND, ...change }, TOLD, 2, false).join('\n')).toContain(words);
});

it('asks nothing of libraries without a second copy when the engine’s log was damaged', () => {
  expect(faultsIn({ ...SOUND, old: [] }, TOLD, 2, true)).toEqual([]);
});
