import * as z from 'zod';
import { FormatError, type Problem } from '../../shared/errors.ts';
import {
  documentSchema,
  goneSchema,
  librarySchema,
  MAX_ACTS,
  MAX_DOCUMENTS,
  notChosenSchema,
  type Library,
} from '../../shared/library.ts';
import { actSchema } from '../../shared/round.ts';
import { FORMAT_VERSION } from '../../shared/stamp.ts';
import { canonicalJson } from './canonical.ts';
import { parseBoundedJson } from './bounded-json.ts';
import { NewerFormatError } from './errors.ts';
import { inOrder, type Holdings } from './merge.ts';
import { migrateLibrary } from './migrate.ts';
import { packDocument, unpackRecord } from './packed-document.ts';
import { slicesOf } from './slices.ts';
import { rest, within, type ProgressOptions } from './patience.ts';

/** Bounds of a library file. The nesting of a sound one is at most 9. Our own numbers, common practice. */
const BOUNDS = { maxChars: 200e6, maxDepth: 20 };
const MAX_PROBLEMS = 50;
const SLICE = 200;

const ENVELOPE = { format: 'hundredths-library', formatVersion: FORMAT_VERSION };

const tooLarge = () => {
  const what = `As one text the library would be larger than ${BOUNDS.maxChars / 1e6} MB, and nothing could read it again. Keep a copy of the library instead.`;
  return new FormatError([{ where: 'file', what }]);
};

const LISTS = ['documents', 'acts', 'notChosen', 'gone'] as const;

/**
 * A library file part by part, in no particular order: no more than one portion is in memory.
 *
 * @param portions Documents first, then acts, and so on in the order of the lists.
 * @throws FormatError when it would be too large to be read again.
 */
export async function* libraryTextParts(portions: AsyncIterable<Holdings>): AsyncGenerator<string> {
  let list = 0;
  let isFirst = true;
  let length = 0;
  yield `{"format":"${ENVELOPE.format}","formatVersion":${FORMAT_VERSION},"documents":[`;
  const open = (to: number) => {
    const between = LISTS.slice(list + 1, to + 1).map((name) => `],"${name}":[`);
    if (to > list) isFirst = true;
    list = Math.max(list, to);
    return between.join('');
  };
  for await (const portion of portions)
    for (const [i, name] of LISTS.entries()) {
      const items = portion[name] ?? [];
      if (items.length === 0) continue;
      const text = `${open(i)}${isFirst ? '' : ','}${items.map((item) => JSON.stringify(item)).join(',')}`;
      isFirst = false;
      length += text.length;
      if (length > BOUNDS.maxChars) throw tooLarge();
      yield text;
    }
  yield `${open(LISTS.length - 1)}]}`;
}

/** Some holdings as an entry of a bundle, readings packed; nothing when there is nothing in them. */
export function recordsText(holdings: Holdings): string | undefined {
  const { documents, acts, notChosen, gone } = inOrder(holdings);
  if (documents.length + acts.length === 0 && !notChosen && !gone) return undefined;
  return canonicalJson({ ...ENVELOPE, documents: documents.map(packDocument), acts, notChosen, gone });
}

async function listText<T>(
  items: readonly T[],
  written: (item: T) => unknown = (item) => item,
): Promise<string> {
  const texts: string[] = [];
  for (const slice of slicesOf(items)) {
    if (texts.length > 0) await new Promise((resolve) => setTimeout(resolve));
    texts.push(slice.map((item) => JSON.stringify(written(item))).join(','));
  }
  return `[${texts.join(',')}]`;
}

/**
 * Some holdings as a library file of one line, readings packed, in no particular order; made in slices, with a rest
 * between them.
 */
export async function entryText({ documents, acts, notChosen = [], gone = [] }: Holdings): Promise<string> {
  const lists = `"documents":${await listText(documents, packDocument)},"acts":${await listText(acts)},"notChosen":${await listText(notChosen)},"gone":${await listText(gone)}`;
  return `{"format":"hundredths-library","formatVersion":${FORMAT_VERSION},${lists}}`;
}

const envelopeSchema = librarySchema.extend({
  documents: z.array(z.unknown()).max(MAX_DOCUMENTS),
  acts: z.array(z.unknown()).max(MAX_ACTS),
  notChosen: z.array(z.unknown()).max(MAX_DOCUMENTS).optional(),
  gone: z.array(z.unknown()).max(MAX_DOCUMENTS).optional(),
});

const whereOf = (path: readonly PropertyKey[], fallback: string) => path.map(String).join('.') || fallback;

function envelopeOf(data: unknown) {
  const format =
    typeof data === 'object' && data !== null && 'formatVersion' in data ? data.formatVersion : 0;
  if (typeof format === 'number' && format > FORMAT_VERSION) {
    const what = `It was made by a newer version of the bench (format ${format}; this one reads up to ${FORMAT_VERSION}). Reload the page to get the newer version.`;
    throw new NewerFormatError([{ where: 'formatVersion', what }]);
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
  patience: ProgressOptions,
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
export async function readLibraryText(text: string, patience: ProgressOptions = {}): Promise<Library> {
  const {
    format,
    formatVersion,
    documents,
    acts,
    notChosen = [],
    gone = [],
  } = envelopeOf(parseBoundedJson(text, BOUNDS));
  const all = documents.length + acts.length + notChosen.length + gone.length;
  let before = 0;
  const next = <T>(name: string, items: readonly unknown[], schema: z.ZodType<T>) => {
    const part = within(patience, before, items.length, all);
    before += items.length;
    return checkAll(name, items, schema, part);
  };
  return {
    format,
    formatVersion,
    documents: await next('documents', documents.map(unpackRecord), documentSchema),
    acts: await next('acts', acts, actSchema),
    ...(notChosen.length > 0 && { notChosen: await next('notChosen', notChosen, notChosenSchema) }),
    ...(gone.length > 0 && { gone: await next('gone', gone, goneSchema) }),
  };
}
