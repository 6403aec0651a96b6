import { expect, it } from 'vitest';
import { hiddenIn, withoutHidden } from '../../../src/words/hidden-characters.ts';

// Code points by Unicode's own data, from memory: U+202E right-to-left override, U+200B zero-width space, U+FEFF
// byte order mark, U+00AD soft hyphen, U+2066 left-to-right isolate.
it.each([
  ['K-1\u202e', 'a mark that turns the direction of writing'],
  ['\u2066K-1', 'a mark that turns the direction of writing'],
  ['K-\u200b1', 'a space without width'],
  ['\ufeffK-1', 'a space without width'],
  ['K\u00ad-1', 'a soft hyphen'],
  ['K-1\u0000', 'a control character'],
  ['K\ud800-1', 'half a character'],
  ['K-1\uffff', 'a character that stands for nothing'],
])('sees what cannot be seen in %j, and leaves it out', (text, words) => {
  expect(hiddenIn(text)).toEqual([words]);
  expect(withoutHidden(text)).toBe('K-1');
});

it.each(['K-1', 'Ä 12', '二番', 'אבג', '👩‍🔧 2', 'می‌خواهم', 'No. 7 ½', 'e\u0301'])(
  'leaves %j as it is, joiners of letters and pictures too',
  (text) => {
    expect(hiddenIn(text)).toEqual([]);
    expect(withoutHidden(text)).toBe(text);
  },
);

it('does not take a joiner at an end, or between signs, for one of letters', () => {
  expect(hiddenIn('K\u200d')).toEqual(['a space without width']);
  expect(hiddenIn('-\u200d-')).toEqual(['a space without width']);
});
