import * as z from 'zod';
import { FormatError, type Problem } from '../../shared/errors.ts';
import { documentSchema, librarySchema, notChosenSchema, type Library } from '../../shared/library.ts';
import { actSchema } from '../../shared/round.ts';
import { FORMAT_VERSION } from '../../shared/stamp.ts';
import { canonicalJson } from './canonical.ts';
import { parseBoundedJson } from './bounded-json.ts';
import { inOrder, type Holdings } from './merge.ts';
import { migrateLibrary } from './migrate.ts';
import { slicesOf } from './slices.ts';
import { rest, within, type Patience } from './patience.ts';

/** Bounds of a library file. The nesting of a sound one is at most 9. Our own numbers, common practice. */
const BOUNDS = { maxChars: 200e6, maxDepth: 20 };
const MAX_PROBLEMS = 50;
const SLICE = 200;

/** A whole library as a file: canonical JSON, so that equal libraries are equal files. */
export function libraryText(holdings: Holdings): string {
  return canonicalJson({ format: 'hundredths-library', formatVersion: FORMAT_VERSION, ...inOrder(holdings) });
}

async function listText(items: readonly unknown[]): Promise<string> {
  const texts: string[] = [];
  for (const slice of slicesOf(items)) {
    if (texts.length > 0) await new Promise((resolve) => setTimeout(resolve));
    texts.push(slice.map((item) => JSON.stringify(item)).join(','));
  }
  return `[${texts.join(',')}]`;
}

/** Some holdings as a library file of one line, in no particular order; made in slices, with a rest between them. */
export async function entryText({ documents, acts, notChosen = [] }: Holdings): Promise<string> {
  const lists = `"documents":${await listText(documents)},"acts":${await listText(acts)},"notChosen":${await listText(notChosen)}`;
  return `{"format":"hundredths-library","formatVersion":${FORMAT_VERSION},${lists}}`;
}

const envelopeSchema = librarySchema.extend({
  documents: z.array(z.unknown()).max(100_000),
  acts: z.array(z.unknown()).max(500_000),
  notChosen: z.array(z.unknown()).max(100_000).optional(),
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
  patience: Patience,
): Promise<T[]> {
  const sound: T[] = [];
  const problems: Problem[] = [];
  for (const [i, item] of items.entries()) {
    if (i % SLICE === 0) await rest(patience, i / items.length);
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
  const {
    format,
    formatVersion,
    documents,
    acts,
    notChosen = [],
  } = envelopeOf(parseBoundedJson(text, BOUNDS));
  const all = documents.length + acts.length + notChosen.length;
  const ofDocuments = within(patience, 0, documents.length, all);
  const ofActs = within(patience, documents.length, acts.length, all);
  const ofNotChosen = within(patience, documents.length + acts.length, notChosen.length, all);
  return {
    format,
    formatVersion,
    documents: await checkAll('documents', documents, documentSchema, ofDocuments),
    acts: await checkAll('acts', acts, actSchema, ofActs),
    ...(notChosen.length > 0 && {
      notChosen: await checkAll('notChosen', notChosen, notChosenSchema, ofNotChosen),
    }),
  };
}
