import { expect, it } from 'vitest';
import { requestOf, requestText } from '../../../src/gauge-lines/request-text.ts';

it.each([
  ['?', '?\r'],
  ['1', '1\r'],
  ['R1\\r\\n', 'R1\r\n'],
  ['D\\n', 'D\n'],
  ['\\eP\\r', '\u001bP\r'],
])('sends what the gauge’s book says, and shows it so again: %s', (written, sent) => {
  expect(requestOf(written)).toBe(sent);
  expect(requestOf(requestText(sent))).toBe(sent);
});
