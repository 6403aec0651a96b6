import type { LibraryDocument } from '../../shared/library.ts';
import { MAX_READINGS, type Pass } from '../../shared/pass.ts';
import { packReadings, unpackReadings, type PackedReadings } from './packed-readings.ts';

/** A pass with its readings packed. */
export type PackedPass = Omit<Pass, 'readings'> & { readonly readings: PackedReadings };
export type PackedDocument = Exclude<LibraryDocument, Pass> | PackedPass;

export const packDocument = (document: LibraryDocument): PackedDocument =>
  document.kind === 'pass' ? { ...document, readings: packReadings(document.readings) } : document;

/** A record with its readings one by one; whatever else it is comes back as it is, for the schema to judge. */
export function unpackRecord(record: unknown): unknown {
  if (typeof record !== 'object' || record === null || !('readings' in record)) return record;
  if (typeof record.readings !== 'string') return record;
  try {
    return { ...record, readings: unpackReadings(record.readings, MAX_READINGS) };
  } catch {
    return record;
  }
}
