import { Ajv2020 } from 'ajv/dist/2020.js';
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { libraryText } from '../../../src/ledger/library-file.ts';
import { librarySchemaText } from '../../../src/ledger/library-schema.ts';
import { threeLibraries } from './random-libraries.ts';

const stored = readFileSync('shared/library.schema.json', 'utf8');

it('is the schema that lies beside the vocabulary ("npm run schema" writes it)', () => {
  expect(librarySchemaText()).toBe(stored);
});

// Ajv 8.20, an independent reader of JSON Schema. Formats are left to their patterns, which the schema also states.
const accepts = new Ajv2020({ strict: false, validateFormats: false }).compile(JSON.parse(stored) as object);

it('accepts every library that is exported, by an independent reader', () => {
  fc.assert(
    fc.property(threeLibraries, ([library]) => {
      expect(accepts(JSON.parse(libraryText(library)))).toBe(true);
    }),
    { numRuns: 50, seed: 8 },
  );
});

it.each([
  ['no format', {}],
  ['an unknown key', { format: 'hundredths-library', formatVersion: 1, documents: [], acts: [], more: 1 }],
  [
    'an unknown kind',
    { format: 'hundredths-library', formatVersion: 1, documents: [{ kind: 'knife' }], acts: [] },
  ],
])('refuses %s', (_, data) => {
  expect(accepts(data)).toBe(false);
});
