/** The part of a file system's folder that is used: the browser's own private one, or one that the maker picked. */
export interface FolderLike {
  readonly name: string;
  keys(): AsyncIterable<string>;
  getDirectoryHandle(name: string, options?: { create?: boolean }): Promise<FolderLike>;
  getFileHandle(name: string, options?: { create?: boolean }): Promise<FileLike>;
  removeEntry(name: string, options?: { recursive?: boolean }): Promise<void>;
}

export interface FileLike {
  getFile(): Promise<Blob>;
  createWritable(): Promise<Writable>;
}

export interface Writable {
  write(bytes: Uint8Array): Promise<void>;
  close(): Promise<void>;
  abort(): Promise<void>;
}

/** Names in a folder, in order of their text. */
export async function namesIn(folder: FolderLike): Promise<string[]> {
  const names: string[] = [];
  for await (const name of folder.keys()) names.push(name);
  return names.sort();
}

export async function fileIn(folder: FolderLike, name: string): Promise<Blob> {
  return (await folder.getFileHandle(name)).getFile();
}

export async function bytesOf(file: Blob): Promise<Uint8Array> {
  return new Uint8Array(await file.arrayBuffer());
}

/** Writes a file whole or not at all: the browser writes beside it, and moves that into its place when it is closed. */
export async function writeFile(folder: FolderLike, name: string, bytes: Uint8Array): Promise<void> {
  const writable = await beginFile(folder, name);
  try {
    await writable.write(bytes);
    await writable.close();
  } catch (error) {
    await writable.abort().catch(() => undefined);
    throw error;
  }
}

/** A file that is written bit by bit, and is there when it is closed: whole or not at all. */
export async function beginFile(folder: FolderLike, name: string): Promise<Writable> {
  return (await folder.getFileHandle(name, { create: true })).createWritable();
}

/** Removes an entry; one that another window has removed meanwhile is as good as removed. */
export async function removeEntry(folder: FolderLike, name: string): Promise<void> {
  try {
    await folder.removeEntry(name, { recursive: true });
  } catch (error) {
    if (!(error instanceof Error && error.name === 'NotFoundError')) throw error;
  }
}
