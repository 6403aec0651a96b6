import { expect, it } from 'vitest';
import { isBurst, padKey } from '../../../src/round/pad-keys.ts';
import { acrossWords, dotSide, placeWords } from '../../../src/round/place-words.ts';
import { station } from './acts.ts';

const press = (key: string, code = '', more = {}) =>
  padKey({ key, code, ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...more });

it('reads the number pad with NumLock on and off', () => {
  expect(press('7', 'Numpad7')).toEqual({ kind: 'digit', digit: '7' });
  expect(press('Home', 'Numpad7')).toEqual({ kind: 'digit', digit: '7' });
  expect(press('Insert', 'Numpad0')).toEqual({ kind: 'digit', digit: '0' });
  expect(press('Clear', 'Numpad5')).toEqual({ kind: 'digit', digit: '5' });
  expect(press('Delete', 'NumpadDecimal')).toEqual({ kind: 'mark' });
  expect(press('Home', 'Home')).toBeUndefined();
});

it('has its commands on the pad and on the main keys', () => {
  expect(press('-', 'NumpadSubtract')?.kind).toBe('back');
  expect(press('*', 'NumpadMultiply')?.kind).toBe('skip');
  expect(press('+', 'NumpadAdd')?.kind).toBe('again');
  expect(press('/', 'NumpadDivide')?.kind).toBe('unsure');
  expect(press('-', 'Minus')?.kind).toBe('back');
  expect(press('*', 'Digit8', { shiftKey: true })?.kind).toBe('skip');
  expect(press('Enter', 'NumpadEnter')?.kind).toBe('enter');
  expect(press('z', 'KeyZ', { ctrlKey: true })?.kind).toBe('undo');
  expect(press('Z', 'KeyZ', { metaKey: true, shiftKey: true })?.kind).toBe('redo');
  expect(press('5', 'Digit5', { altKey: true })).toBeUndefined();
});

it('takes by a foot switch or the keys for showing slides, and goes back by the other one', () => {
  expect(press(' ', 'Space')?.kind).toBe('enter');
  expect(press('PageDown', 'PageDown')?.kind).toBe('enter');
  expect(press('PageUp', 'PageUp')?.kind).toBe('back');
  expect(press('PageDown', 'Numpad3')).toEqual({ kind: 'digit', digit: '3' });
});

it('tells a gauge that types from a hand', () => {
  expect(isBurst([1000, 1008, 1016, 1024, 1030])).toBe(true);
  expect(isBurst([1000, 1090, 1200, 1300, 1400])).toBe(false);
  expect(isBurst([1000, 1008, 1016])).toBe(false);
});

it('says places in words', () => {
  const [point, comma] = [{ decimal: 'point' }, { decimal: 'comma' }] as const;
  expect(placeWords(station('B', 10, 0.8), comma)).toBe('B, 10\u00a0mm, right edge');
  expect(placeWords(station('A', 0.5, 0), point)).toBe('A, 0.5\u00a0mm, middle');
  expect(placeWords(station('A', 0.5, 0), comma)).toBe('A, 0,5\u00a0mm, middle');
  expect(acrossWords(0.55, point)).toBe('right, 0.55 of the way to the edge');
  expect(acrossWords(0.55, comma)).toBe('right, 0,55 of the way to the edge');
  expect([dotSide('A'), dotSide('B')]).toEqual(['left', 'right']);
});
