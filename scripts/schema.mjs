// Writes the JSON Schema of the library file from the zod schemas, as the formatter has it.
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';
import { toolCommand } from './programs.mjs';

const PATH = 'shared/library.schema.json';

const bundle = await bundleForNode('src/ledger/library-schema.ts');
const { librarySchemaText } = await import(pathToFileURL(bundle).href);
writeFileSync(PATH, librarySchemaText());
const [program, ...args] = toolCommand('oxfmt', [PATH]);
execFileSync(program, args);
