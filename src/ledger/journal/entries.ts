/** The part of an open file of the browser's private file system that a journal needs. */
export interface OpenFile {
  getSize(): number;
  read(into: Uint8Array, options: { at: number }): number;
  write(bytes: Uint8Array, options: { at: number }): number;
  truncate(size: number): void;
  flush(): void;
  close(): void;
}

/** Stands before an entry, so that one that was cut off spoils no other. */
const BREAK = '\n';

/**
 * Adds one line to a file, and sees that it is with the system.
 *
 * @param line Text without line breaks.
 * @throws Error when the file takes only a part of it (the disk is full).
 */
export function appendEntry(file: OpenFile, line: string): void {
  const bytes = new TextEncoder().encode(`${BREAK}${line}`);
  const at = file.getSize();
  if (file.write(bytes, { at }) < bytes.length) {
    file.truncate(at);
    throw new Error('The journal could not be written: the space for this page is used up.');
  }
  file.flush();
}

/** The lines of a file. Any of them may be cut off, as the browser's death left it. */
export function readEntries(file: OpenFile): string[] {
  const bytes = new Uint8Array(file.getSize());
  file.read(bytes, { at: 0 });
  return new TextDecoder()
    .decode(bytes)
    .split(BREAK)
    .filter((line) => line !== '');
}
