import { FormatError } from '../../shared/errors.ts';

// oxlint-disable-next-line no-control-regex
const CONTROL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f]/;

/**
 * The text of a file: UTF-8 or UTF-16 by its byte-order mark, UTF-8 without one, or, where the bytes are not UTF-8,
 * Windows-1252, which older spreadsheets write. Line breaks become line feeds, a byte-order mark goes.
 *
 * @param maxBytes The file's largest size, in bytes.
 * @throws FormatError for an empty file, one that is too large, and one that is no text.
 */
export function decodeText(bytes: Uint8Array, maxBytes: number): string {
  const large = tooLarge(bytes.length, maxBytes);
  if (large) refuse(large);
  const text = decoded(bytes).replace(/\r\n?/g, '\n');
  if (text.trim() === '') refuse('The file is empty. Choose one that holds readings.');
  const at = text.search(CONTROL);
  if (at >= 0)
    refuse(`The file is not text: a control character stands in ${place(text, at)}. Save it as CSV or JSON.`);
  return text;
}

/** What to say of a file of more than `maxBytes`; nothing of a smaller one. */
export function tooLarge(bytes: number, maxBytes: number): string | undefined {
  if (bytes <= maxBytes) return undefined;
  return `The file has ${inMegabytes(bytes)}, more than ${inMegabytes(maxBytes)}. Split it.`;
}

function decoded(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

function place(text: string, at: number): string {
  return `line ${text.slice(0, at).split('\n').length}`;
}

function inMegabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(1)} MB`;
}

function refuse(what: string): never {
  throw new FormatError([{ where: 'file', what }]);
}
