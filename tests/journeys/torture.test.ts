import { expect, it } from 'vitest';
import { torture } from '../torture/torture.ts';
import { WORKS } from '../torture/work.ts';

// The short form; the long one is `npm run torture`. Every work is killed once, one of them while the library is being
// opened, and the engine's log is damaged in both ways.
it('loses nothing that it called kept when the browser is killed in the middle of its work', async () => {
  const { faults, kept, broughtBack } = await torture(WORKS.length + 1, 11, () => undefined);
  expect(faults).toEqual([]);
  expect(kept).toBeGreaterThan(20);
  expect(broughtBack).toBeGreaterThan(0);
});
