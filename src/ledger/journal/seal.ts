import { sha256 } from '../sha256.ts';

const SEAL = /^(\d+) ([0-9a-f]{16}) /;

const hashOf = async (bytes: Uint8Array) => (await sha256(bytes)).slice(0, 16);

/** A line of the journal: how many bytes its text has, what they hash to, and the text. */
export async function sealed(text: string): Promise<string> {
  const bytes = new TextEncoder().encode(text);
  return `${bytes.length} ${await hashOf(bytes)} ${text}`;
}

/**
 * The text of a line. One that is too short was cut off while it was written, and was never called kept; any other that
 * is not as it was written was damaged later. Bytes that are no text any more were read as longer ones.
 *
 * @param line As `sealed` made it; an older program's begins with its text.
 */
export async function unsealed(line: string): Promise<{ readonly text: string } | 'cut off' | 'damaged'> {
  if (line.startsWith('{')) return { text: line };
  const [seal, length, hash] = SEAL.exec(line) ?? [];
  if (seal === undefined) return /^(\d+( [0-9a-f]{0,16})?)?$/.test(line) ? 'cut off' : 'damaged';
  const text = line.slice(seal.length);
  const bytes = new TextEncoder().encode(text);
  if ((await hashOf(bytes)) === hash) return { text };
  return bytes.length < Number(length) ? 'cut off' : 'damaged';
}
