import { expect, it } from 'vitest';
import { typedZero } from '../../../src/round/typed-zero.ts';

it.each([
  ['0', 'hundredths', 0],
  ['-1', 'hundredths', -0.01],
  ['\u22121,5', 'hundredths', -0.015],
  ['12', 'thousandths', 0.012],
  ['1', 'thou', 0.0254],
] as const)('reads %s in %s', (text, count, mm) => {
  expect(typedZero(text, count)).toBe(mm);
});

it.each(['', ' ', 'x', '101', '1e9'])('takes %j for no zero', (text) => {
  expect(typedZero(text, 'hundredths')).toBeUndefined();
});
