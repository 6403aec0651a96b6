import { expect, it, vi } from 'vitest';
import { isLetterCommand, matchKeys, pressedKey, type Command } from '../../../components/frame/commands.ts';

const command = (...keys: string[]): Command => ({ keys, words: keys.join(' '), run: vi.fn() });
const commands = [command('1'), command('g', 'c'), command('g', 'b'), command('Ctrl+z')];
const key = (name: string, held: Partial<KeyboardEvent> = {}) => ({
  key: name,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  shiftKey: false,
  ...held,
});

it('finds a command by one key or by a sequence', () => {
  expect(matchKeys(commands, ['1'])).toBe(commands[0]);
  expect(matchKeys(commands, ['g'])).toBe('begun');
  expect(matchKeys(commands, ['g', 'b'])).toBe(commands[2]);
  expect(matchKeys(commands, ['g', 'x'])).toBeUndefined();
});

it('names held keys, Cmd as Ctrl, and leaves Alt to the browser', () => {
  expect(pressedKey(key('z', { ctrlKey: true }))).toBe('Ctrl+z');
  expect(pressedKey(key('Z', { metaKey: true, shiftKey: true }))).toBe('Ctrl+Shift+z');
  expect(pressedKey(key('?', { shiftKey: true }))).toBe('?');
  expect(pressedKey(key('g', { altKey: true }))).toBeUndefined();
});

it('tells letters, which can be switched off, from held keys', () => {
  expect(commands.map(isLetterCommand)).toEqual([true, true, true, false]);
});
