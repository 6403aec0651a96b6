import * as z from 'zod';
import { FormatError, type Problem } from '../../shared/errors.ts';
import { documentSchema, librarySchema, type Library } from '../../shared/library.ts';
import { actSchema } from '../../shared/round.ts';
import { FORMAT_VERSION } from '../../shared/stamp.ts';
import { canonicalJson } from './canonical.ts';
import { parseBoundedJson } from './bounded-json.ts';
import { inOrder, type Holdings } from './merge.ts';
import { migrateLibrary } from './migrate.ts';

/** Bounds of a library file. The nesting of a sound one is at most 9. Our own numbers, common practice. */
const BOUNDS = { maxChars: 200e6, maxDepth: 20 };
const MAX_PROBLEMS = 50;
const SLICE = 200;

/** A whole library as a file: canonical JSON, so that equal libraries are equal files. */
export function libraryText(holdings: Holdings): string {
  return canonicalJson({ format: 'hundredths-library', formatVersion: FORMAT_VERSION, ...inOrder(holdings) });
}

export interface Patience {
  /** Cancels the reading: the promise is then rejected with the signal's reason. */
  readonly signal?: AbortSignal;
  /** Called between slices with the share done, 0 to 1. */
  readonly onProgress?: (share: number) => void;
  /** Lets the page breathe between slices. */
  readonly pause?: () => Promise<void>;
}

const envelopeSchema = librarySchema.extend({
  documents: z.array(z.unknown()).max(100_000),
  acts: z.array(z.unknown()).max(500_000),
});

const whereOf = (path: readonly PropertyKey[], fallback: string) => path.map(String).join('.') || fallback;

function envelopeOf(data: unknown) {
  const format =
    typeof data === 'object' && data !== null && 'formatVersion' in data ? data.formatVersion : 0;
  if (typeof format === 'number' && format > FORMAT_VERSION) {
    const what = `It was made by a newer version of the bench (format ${format}; this one reads up to ${FORMAT_VERSION}). Reload the page to get the newer version.`;
    throw new FormatError([{ where: 'formatVersion', what }]);
  }
  const { success, data: envelope, error } = envelopeSchema.safeParse(migrateLibrary(data));
  if (success) return envelope;
  throw new FormatError(
    error.issues.map(({ path, message }) => ({ where: whereOf(path, 'file'), what: message })),
  );
}

/** Checks items one by one, so that a file of nonsense costs no more than its first problems. */
async function checkAll<T>(
  name: string,
  items: readonly unknown[],
  schema: z.ZodType<T>,
  { signal, onProgress, pause }: Patience,
): Promise<T[]> {
  const sound: T[] = [];
  const problems: Problem[] = [];
  for (const [i, item] of items.entries()) {
    if (i % SLICE === 0) {
      onProgress?.(i / items.length);
      await pause?.();
      signal?.throwIfAborted();
    }
    const { success, data, error } = schema.safeParse(item);
    if (success) sound.push(data);
    else {
      const found = error.issues.map(({ path, message }) => ({
        where: whereOf([name, i, ...path], name),
        what: message,
      }));
      problems.push(...found.slice(0, MAX_PROBLEMS - problems.length));
    }
    if (problems.length >= MAX_PROBLEMS) break;
  }
  if (problems.length > 0) throw new FormatError(problems);
  return sound;
}

/**
 * Reads a library file of this or any earlier format.
 *
 * @throws FormatError with the first problems and their places (`documents.12.slot`); nothing of the file is used then.
 */
export async function readLibraryText(text: string, patience: Patience = {}): Promise<Library> {
  const { format, formatVersion, documents, acts } = envelopeOf(parseBoundedJson(text, BOUNDS));
  const all = documents.length + acts.length;
  const part = (before: number, length: number): Patience => ({
    ...patience,
    onProgress: (share) => patience.onProgress?.((before + share * length) / all),
  });
  return {
    format,
    formatVersion,
    documents: await checkAll('documents', documents, documentSchema, part(0, documents.length)),
    acts: await checkAll('acts', acts, actSchema, part(documents.length, acts.length)),
  };
}
