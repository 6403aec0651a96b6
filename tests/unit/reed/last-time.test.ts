import { expect, it } from 'vitest';
import type { Pass } from '../../../shared/pass.ts';
import type { Reed } from '../../../shared/reed.ts';
import type { Round } from '../../../shared/round.ts';
import { reedOfLastTime } from '../../../src/reed/last-time.ts';

const reed = (id: string, state = 'playing') => ({ id, state }) as Reed;
const pass = (reedId: string, takenAt?: string) => ({ reedId, takenAt }) as Pass;
const round = (reedId: string, startedAt: string, closedAs?: string) =>
  ({ reedId, startedAt, closedAs }) as Round;

it('takes the reed whose round waits, then the one read last, then the one being scraped', () => {
  const reeds = [reed('a'), reed('b', 'scraping'), reed('c'), reed('d', 'retired')];
  const passes = [
    pass('a', '2026-03-01T09:00:00+01:00'),
    // Later in time, though its local clock shows less.
    pass('c', '2026-03-01T08:30:00-05:00'),
    pass('d', '2026-04-01T09:00:00Z'),
    pass('b'),
  ];
  const rounds = [round('a', '2026-02-01T09:00:00Z'), round('b', '2026-03-02T09:00:00Z', 'closed')];
  expect(reedOfLastTime(reeds, passes, rounds)?.id).toBe('a');
  expect(reedOfLastTime(reeds, passes, [])?.id).toBe('c');
  expect(reedOfLastTime(reeds, [], [])?.id).toBe('b');
  expect(reedOfLastTime([reed('d', 'retired')], passes, [])).toBeUndefined();
});
