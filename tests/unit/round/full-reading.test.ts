import { expect, it } from 'vitest';
import { isFullReading } from '../../../src/round/full-reading.ts';

it.each([
  ['4', 'hundredths', false],
  ['46', 'hundredths', true],
  ['05', 'hundredths', true],
  ['00', 'hundredths', false],
  ['46', 'thousandths', false],
  ['467', 'thousandths', true],
  ['052', 'thousandths', true],
  ['18', 'thou', true],
  ['.4', 'hundredths', false],
  ['.46', 'hundredths', false],
  ['0.46', 'hundredths', false],
  ['4.', 'hundredths', false],
] as const)('%s in %s goes on by itself: %s', (text, count, goesOn) => {
  expect(isFullReading(text, count)).toBe(goesOn);
});
