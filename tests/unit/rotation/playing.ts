import { makeId, type Id } from '../../../shared/ids.ts';
import type { Reed } from '../../../shared/reed.ts';
import type { Engagement, Use } from '../../../shared/room.ts';
import type { Trial } from '../../../shared/trial.ts';

let count = 0;
export const newId = (): Id => {
  count += 1;
  return makeId(1_700_000_000_000 + count, new Uint8Array(10));
};
const stamp = () => ({
  formatVersion: 1 as const,
  id: newId(),
  versions: {},
  createdAt: '2026-01-01T10:00:00.000+01:00',
  updatedAt: '2026-01-01T10:00:00.000+01:00',
});

/** Invented documents with what a test says of them. */
export const reed = (own: Partial<Reed> & { readonly label: string }): Reed => ({
  kind: 'reed',
  ...stamp(),
  styleId: 'long-scrape',
  state: 'playing',
  tags: [],
  ...own,
});
export const use = (reedId: Id, hours: number, at: string, own: Partial<Use> = {}): Use => ({
  kind: 'use',
  ...stamp(),
  reedId,
  at,
  minutes: hours * 60,
  service: 'rehearsal',
  ...own,
});
export const trial = (reedId: Id, playedAt: string, own: Partial<Trial>): Trial => ({
  kind: 'trial',
  ...stamp(),
  reedId,
  playedAt,
  pitchCents: [],
  ...own,
});
export const engagement = (at: string, own: Partial<Engagement>): Engagement => ({
  kind: 'engagement',
  ...stamp(),
  title: 'an invented evening',
  at,
  wants: [],
  ...own,
});
