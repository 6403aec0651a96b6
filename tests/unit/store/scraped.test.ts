import { expect, it } from 'vitest';
import type { Reed } from '../../../shared/reed.ts';
import { withScraped } from '../../../components/store/scraped.ts';
import type { Draft } from '../../../src/ledger/drafts.ts';

const reed = (state: Reed['state']) => ({ kind: 'reed', id: 'one', label: 'K-1', state }) as unknown as Reed;
const pass = (readings: number) =>
  ({ kind: 'pass', reedId: 'one', readings: new Array(readings).fill({}) }) as unknown as Draft;

it('has a blank scraped once it is read, with the same change', () => {
  const [read, kept] = withScraped([pass(3)], () => reed('blank'));
  expect(read).toMatchObject({ kind: 'pass' });
  expect(kept).toMatchObject({ kind: 'reed', id: 'one', state: 'scraping' });
});

it('leaves a reed in any other state, one that is not read, and one that the maker changes at once', () => {
  expect(withScraped([pass(3)], () => reed('playing'))).toHaveLength(1);
  expect(withScraped([pass(0)], () => reed('blank'))).toHaveLength(1);
  const resting = [pass(3), reed('resting') as unknown as Draft];
  expect(withScraped(resting, () => reed('blank'))).toEqual(resting);
});
