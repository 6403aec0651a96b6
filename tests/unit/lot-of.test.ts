import { expect, it } from 'vitest';
import type { Reed } from '../../shared/reed.ts';
import { lotOf } from '../../src/cane/lot-of.ts';

const lots = [
  { id: 'one', code: 'M' },
  { id: 'two', code: 'MK' },
  { id: 'three', code: 'twin' },
  { id: 'four', code: 'Twin' },
];
const reed = (label: string, rest: Partial<Reed> = {}) => ({ label, ...rest }) as Reed;

it.each([
  ['M-142', 'one'],
  ['m142', 'one'],
  ['MK 7', 'two'],
  ['M', undefined],
  ['142', undefined],
  ['Twin-3', undefined],
])('takes the letters of %s for lot %s', (label, id) => {
  expect(lotOf(reed(label), lots)?.id).toBe(id);
});

it('takes what is written over the letters, and a tying without a lot for none', () => {
  expect(lotOf(reed('M-142', { lotId: 'two' as Reed['lotId'] }), lots)?.code).toBe('MK');
  expect(lotOf(reed('M-142', { lotId: 'gone' as Reed['lotId'] }), lots)).toBeUndefined();
  expect(lotOf(reed('M-142', { tie: {} }), lots)).toBeUndefined();
});
