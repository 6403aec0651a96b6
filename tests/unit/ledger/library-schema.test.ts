import { Ajv2020 } from 'ajv/dist/2020.js';
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { librarySchemaText } from '../../../src/ledger/library-schema.ts';
import { threeLibraries } from './random-libraries.ts';
import { libraryText } from '../../whole-library.ts';

const stored = readFileSync('shared/library.schema.json', 'utf8');

it('is the schema that lies beside the vocabulary ("npm run schema" writes it)', () => {
  expect(JSON.parse(librarySchemaText())).toEqual(JSON.parse(stored));
});

interface Described {
  readonly description?: string;
  readonly properties?: Record<string, Described>;
  readonly items?: Described;
  readonly oneOf?: readonly Described[];
}

it('says of every field of a reading, and of every number of a pass, what it means', () => {
  const schema = JSON.parse(stored) as { $id: string; $defs: { document: { oneOf: Described[] } } };
  expect(schema.$id).toBe('urn:hundredths:library:1');
  const pass = schema.$defs.document.oneOf
    .map(({ properties }) => properties!)
    .find((one) => one['remedies'])!;
  const reading = pass['readings']!.items!.properties!;
  const isNumber = (name: string) => /(Mm|Min|C|Pct)$/.test(name);
  const undescribed = [
    ...Object.entries(reading).filter(([name]) => name !== 'blade'),
    ...Object.entries(pass).filter(([name]) => isNumber(name)),
  ].filter(([, { description }]) => !description);
  expect(undescribed.map(([name]) => name)).toEqual([]);
  expect(reading['across']!.description).toContain('-1 at the left edge');
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
