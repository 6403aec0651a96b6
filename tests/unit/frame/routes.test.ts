import fc from 'fast-check';
import { expect, it } from 'vitest';
import { hrefOf, parseRoute, QUESTIONS, type Route } from '../../../components/frame/routes.ts';
import { makeId } from '../../../shared/ids.ts';

const id = fc.uint8Array({ minLength: 10, maxLength: 10 }).map((bytes) => makeId(1_700_000_000_000, bytes));
const passNumber = fc.integer({ min: 0, max: 999 });
const route: fc.Arbitrary<Route> = fc.oneof(
  fc
    .constantFrom('case', 'cane', 'gauge', 'room', 'setup', 'bring-in', 'rotation', 'find')
    .map((at) => ({ at }) as Route),
  id.map((reedId) => ({ at: 'round' as const, reedId })),
  id.map((reedId) => ({ at: 'history' as const, reedId })),
  fc.array(id, { maxLength: 2 }).map((reedIds) => ({ at: 'lesson' as const, reedIds })),
  fc.record({
    at: fc.constant('bench' as const),
    reedId: id,
    question: fc.constantFrom(...QUESTIONS, 'notes' as const),
  }),
  fc.record({
    at: fc.constant('bench' as const),
    reedId: id,
    question: fc.constantFrom(...QUESTIONS),
    pass: passNumber,
    before: passNumber,
  }),
);

it('finds the way back from every address it writes', () => {
  fc.assert(
    fc.property(route, (there) => {
      expect(parseRoute(hrefOf(there))).toEqual(there);
    }),
  );
});

it('opens the case for whatever is no address', () => {
  for (const hash of ['', '#', '#/', '#/nowhere', '#/round/17', '#javascript:1'])
    expect(parseRoute(hash)).toEqual({ at: 'case' });
  expect(parseRoute('#/bench/not-an-id/even')).toEqual({ at: 'bench', question: 'even' });
});
