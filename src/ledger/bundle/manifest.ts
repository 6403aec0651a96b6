import * as z from 'zod';
import { FormatError } from '../../../shared/errors.ts';
import { sha256Schema } from '../../../shared/photo.ts';

/** What a bundle is made of: a zip file with records, pictures, what could not be read, and a list of them all. */
export const MANIFEST = 'manifest.json';
export const SET_ASIDE = 'set-aside.json';
/** The one entry with records of a bundle of format 1. */
export const LIBRARY = 'library.json';
export const RECORDS = /^records\/\d{6}\.json$/;
export const PICTURE = /^pictures\/([0-9a-f]{64})$/;

/** 1: everything in one part, its records in one entry. 2: any number of parts and of entries. */
export const BUNDLE_FORMAT = 2;

/** No part has more entries than this. Our own number: zip itself counts to 65,535. */
export const MAX_ENTRIES = 20_000;
/** No entry but that of format 1 unpacks to more than this. Our own number; a telephone's largest picture fits. */
export const MAX_ENTRY_BYTES = 16e6;
export const MAX_LIBRARY_BYTES = 200e6;

export const manifestSchema = z.strictObject({
  format: z.literal('hundredths-bundle'),
  formatVersion: z.union([z.literal(1), z.literal(BUNDLE_FORMAT)]),
  /** Which part of a copy this is, from 1. Any part can be read without the others. */
  part: z.int().min(1).optional(),
  /** How many parts there are, told by the last. */
  parts: z.int().min(1).optional(),
  entries: z
    .array(z.strictObject({ name: z.string().max(100), bytes: z.int().min(0), sha256: sha256Schema }))
    .max(MAX_ENTRIES),
});
export type Manifest = z.infer<typeof manifestSchema>;

export const setAsideSchema = z
  .array(
    z.strictObject({
      of: z.enum(['documents', 'acts', 'notChosen']),
      id: z.string().max(100),
      reason: z.string().max(1000),
      record: z.unknown(),
    }),
  )
  .max(MAX_ENTRIES);

export const refuse = (where: string, what: string, cause?: unknown) =>
  new FormatError([{ where, what }], { cause });
