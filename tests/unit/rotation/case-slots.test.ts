import { describe, expect, it } from 'vitest';
import type { Reed } from '../../../shared/reed.ts';
import { caseSlots, sayCase } from '../../../src/rotation/case-slots.ts';

const reed = (label: string, slot?: number, state: Reed['state'] = 'playing') =>
  ({ label, state, ...(slot !== undefined && { slot }) }) as Reed;
const labels = (reeds: readonly Reed[], least = 0, most = 20) =>
  caseSlots(reeds, least, most).map((one) => one?.label);

describe('a case with its lid open', () => {
  it('shows each reed in its slot, and gaps where none lies', () => {
    expect(labels([reed('P-2', 4), reed('P-1', 1)], 6)).toEqual([
      'P-1',
      undefined,
      undefined,
      'P-2',
      undefined,
      undefined,
    ]);
  });

  it('lays those without a slot behind the last one, numbers in labels as numbers', () => {
    expect(labels([reed('P-10'), reed('P-9'), reed('P-11', 2)])).toEqual([undefined, 'P-11', 'P-9', 'P-10']);
  });

  it('loses no reed when two claim one slot', () => {
    expect(labels([reed('P-2', 1), reed('P-1', 1)])).toEqual(['P-1', 'P-2']);
  });

  it('holds no retired reed, and no more without a slot than there is room for', () => {
    expect(labels([reed('P-1', 1, 'retired')], 2)).toEqual([undefined, undefined]);
    expect(labels([reed('P-1', 1), reed('P-2'), reed('P-3')], 0, 2)).toEqual(['P-1', 'P-2']);
  });
});

it('counts those alive, and apart from them those in the case, where that are not all', () => {
  expect([sayCase(3, 3), sayCase(1, 1), sayCase(25, 20), sayCase(2, 1)]).toEqual([
    'Three reeds in the case.',
    'One reed in the case.',
    '25 reeds alive, 20 of them in the case.',
    'Two reeds alive, one of them in the case.',
  ]);
});
