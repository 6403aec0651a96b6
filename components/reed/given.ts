import { FormatError } from '../../shared/errors.ts';
import type { ReedDraft } from '../../src/exchange/csv/drafts.ts';
import type { CsvAnswers } from '../../src/exchange/csv/questions.ts';
import { readReeds } from '../../src/exchange/csv/reeds-of.ts';
import { parseReed } from '../../src/exchange/reed-object.ts';

/** Readings as they are handed to an element: a file, its text, its bytes, or a reed as a plain object. */
export type Readings = Blob | string | Uint8Array | object;

/** Where readings come from: an address, or what was handed over. */
export type Given = { readonly src: string } | { readonly data: Readings };

/** `readings.csv`, for an address or a file. */
function nameOf(given: Given): string {
  if ('src' in given)
    return decodeURIComponent(given.src.split(/[?#]/)[0]!.split('/').at(-1) ?? '') || given.src;
  return given.data instanceof File ? given.data.name : 'readings';
}

async function fetched(src: string, signal: AbortSignal): Promise<Uint8Array> {
  const refused = (what: string) => new FormatError([{ where: src, what }]);
  let response: Response;
  try {
    // oxlint-disable-next-line house/no-fetch -- the one address that the page's author names
    response = await fetch(src, { signal });
  } catch {
    signal.throwIfAborted();
    throw refused(
      'The file could not be reached. Check its address, and that its server lets this page read it.',
    );
  }
  if (!response.ok) throw refused(`There is no such file (${response.status}). Check its address.`);
  return new Uint8Array(await response.arrayBuffer());
}

/**
 * Reads the reeds of what was given.
 *
 * @throws OpenQuestionsError for what it leaves open, FormatError for what cannot be understood or reached.
 */
export async function readGiven(
  given: Given,
  answers: CsvAnswers,
  signal: AbortSignal,
): Promise<readonly ReedDraft[]> {
  const name = nameOf(given);
  const csv = async (text: string | Uint8Array) =>
    readReeds(text, { name, label: name.replace(/\.[^.]+$/, ''), ...answers, signal });
  if ('src' in given) return csv(await fetched(given.src, signal));
  const { data } = given;
  if (data instanceof Blob) return csv(new Uint8Array(await data.arrayBuffer()));
  if (typeof data === 'string' || data instanceof Uint8Array) return csv(data);
  return [parseReed(data)];
}
