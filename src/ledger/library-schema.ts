import * as z from 'zod';
import { librarySchema } from '../../shared/library.ts';
import { FORMAT_VERSION } from '../../shared/stamp.ts';

/**
 * The library file as JSON Schema (draft 2020-12), for programs that are not ours. Rules between fields (distances
 * that rise, tables with one row per distance) have no words in JSON Schema and are checked on reading only.
 */
export function librarySchemaText(): string {
  const schema = z.toJSONSchema(librarySchema, { target: 'draft-2020-12', io: 'input' });
  const head = {
    $id: `urn:hundredths:library:${FORMAT_VERSION}`,
    title: 'A library of the Hundredths bench',
    description:
      'Everything that a bench keeps. The unit of a number ends its name: Mm millimetres, UMm a standard uncertainty in millimetres, Min minutes, C degrees Celsius, Pct per cent.',
  };
  return `${JSON.stringify({ ...head, ...schema }, null, 1)}\n`;
}
