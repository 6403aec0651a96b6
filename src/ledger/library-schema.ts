import * as z from 'zod';
import { librarySchema } from '../../shared/library.ts';

/**
 * The library file as JSON Schema (draft 2020-12), for programs that are not ours. Rules between fields (distances
 * that rise, tables with one row per distance) have no words in JSON Schema and are checked on reading only.
 */
export function librarySchemaText(): string {
  const schema = z.toJSONSchema(librarySchema, { target: 'draft-2020-12', io: 'input' });
  return `${JSON.stringify({ title: 'A library of the Hundredths bench', ...schema }, null, 1)}\n`;
}
