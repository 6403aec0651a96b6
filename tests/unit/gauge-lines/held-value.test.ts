import { expect, it } from 'vitest';
import { heldValue } from '../../../src/gauge-lines/held-value.ts';

it('takes the lowest value at rest on the heart and back, and what is shown at the soft tip', () => {
  expect(heldValue(0.48, 0.46, 8)).toEqual({ thicknessMm: 0.46, method: 'lowest' });
  expect(heldValue(0.48, 0.46, 3)).toEqual({ thicknessMm: 0.46, method: 'lowest' });
  expect(heldValue(0.11, 0.1, 2.9)).toEqual({ thicknessMm: 0.11 });
  expect(heldValue(0.48, undefined, 8)).toEqual({ thicknessMm: 0.48 });
});
