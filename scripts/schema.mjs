// Writes the JSON Schema of the library file from the zod schemas.
import { writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const bundle = await bundleForNode('src/ledger/library-schema.ts');
const { librarySchemaText } = await import(pathToFileURL(bundle).href);
writeFileSync('shared/library.schema.json', librarySchemaText());
