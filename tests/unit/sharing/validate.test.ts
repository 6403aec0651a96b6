import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { validateCarried } from '../../../scripts/home/validate.mjs';
import { carriedOf } from '../../../src/sharing/carried.ts';
import { reedOf, idOf } from '../ledger/random-libraries.ts';

const [carried] = await carriedOf({ documents: [reedOf(1, { [idOf(9)]: 1 }, 'n')], acts: [] }, 'bench');
const sound = { ...carried! };
const bench = { name: 'bench', roles: [] };

it('lets a sound document in, and its author take it out', () => {
  expect(() => validateCarried(sound, undefined, bench, {})).not.toThrow();
  expect(() => validateCarried({ _id: sound._id, _deleted: true }, sound, bench, {})).not.toThrow();
});

it.each<[string, unknown, unknown, { name: string | null; roles: string[] }]>([
  ['nobody', sound, undefined, { name: null, roles: [] }],
  ['a reader', sound, undefined, { name: 'bench', roles: ['hundredths-reads'] }],
  ['another name than its own', { ...sound, by: 'other' }, undefined, bench],
  ['a foreign deletion', { _id: sound._id, _deleted: true }, sound, { name: 'other', roles: [] }],
  ['an alteration', sound, sound, bench],
  ['another format', { ...sound, format: 'x' }, undefined, bench],
  ['another kind', { ...sound, of: 'constructor' }, undefined, bench],
  ['a name of its own', { ...sound, _id: 'd-1' }, undefined, bench],
  ['new rules', { ...sound, _id: '_design/x' }, undefined, bench],
  ['no record', { ...sound, record: null }, undefined, bench],
  ['too much', { ...sound, record: { note: 'x'.repeat(3e6) } }, undefined, bench],
])('refuses %s', (_, document, old, user) => {
  const check = () => validateCarried(document as typeof sound, old as typeof sound, user, {});
  expect(check).toThrow(
    expect.objectContaining({ [user.name ? 'forbidden' : 'unauthorized']: expect.any(String) }),
  );
});

/** The function as a server is given it. */
function writtenOut(): typeof validateCarried {
  const { validate_doc_update: text } = JSON.parse(readFileSync('docs/sharing/rules.json', 'utf8')) as {
    readonly validate_doc_update: string;
  };
  const source = readFileSync('scripts/home/validate.mjs', 'utf8');
  const own = source.slice(source.indexOf('function validateCarried')).trim();
  expect(text).toBe(own.replace('function validateCarried(', 'function ('));
  return new Function(`return (${text})`)() as typeof validateCarried;
}

it('stands by itself as docs/sharing gives it to a server, the same to the letter', () => {
  const alone = writtenOut();
  expect(() => alone(sound, undefined, bench, {})).not.toThrow();
  expect(() => alone({ ...sound, by: 'other' }, undefined, bench, {})).toThrow();
});
