import type { FileLike, FolderLike } from '../../../src/ledger/folder.ts';

const missing = () => new DOMException('There is no such entry.', 'NotFoundError');

/** A folder in memory that behaves as the browser's: a file appears when it is closed, whole. */
export class MemoryFolder implements FolderLike {
  readonly name: string;
  readonly folders = new Map<string, MemoryFolder>();
  readonly files = new Map<string, Uint8Array>();
  /** Set to make the disk full: closing a file then fails, in folders made from now on too. */
  full = false;
  /** What the disk makes of bytes that are written. */
  change: (bytes: Uint8Array) => Uint8Array = (bytes) => bytes;

  constructor(name = '') {
    this.name = name;
  }

  async *keys() {
    yield* [...this.folders.keys(), ...this.files.keys()];
  }

  async getDirectoryHandle(name: string, { create = false } = {}): Promise<MemoryFolder> {
    const made = create ? Object.assign(new MemoryFolder(name), { full: this.full }) : undefined;
    const folder = this.folders.get(name) ?? made;
    if (!folder) throw missing();
    this.folders.set(name, folder);
    return folder;
  }

  async getFileHandle(name: string, { create = false } = {}): Promise<FileLike> {
    if (!create && !this.files.has(name)) throw missing();
    return {
      getFile: async () => new Blob([this.files.get(name)! as Uint8Array<ArrayBuffer>]),
      createWritable: async () => {
        let written = new Uint8Array();
        return {
          write: async (bytes) => void (written = Uint8Array.from([...written, ...bytes])),
          close: async () => {
            if (this.full) throw new DOMException('The disk is full.', 'QuotaExceededError');
            this.files.set(name, this.change(written));
          },
          abort: async () => undefined,
        };
      },
    };
  }

  async removeEntry(name: string): Promise<void> {
    if (!this.files.delete(name) && !this.folders.delete(name)) throw missing();
  }
}
