// Holds a window's journal. Only a worker may write a file of the browser's private file system in place.
import { serveRequests } from '../../workers/server.ts';
import type { OpenFile } from './entries.ts';
import { takeFiles, type JournalFiles, type JournalRequest } from './files.ts';

interface FileHandle {
  createSyncAccessHandle(): Promise<OpenFile>;
}

async function openFile(folder: FileSystemDirectoryHandle, number: number): Promise<OpenFile | undefined> {
  const handle = (await folder.getFileHandle(`${number}.log`, { create: true })) as unknown as FileHandle;
  try {
    return await handle.createSyncAccessHandle();
  } catch (error) {
    if (error instanceof DOMException && error.name === 'NoModificationAllowedError') return undefined;
    throw error;
  }
}

async function openAll(): Promise<JournalFiles> {
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle(`journal ${self.name}`, { create: true });
  // One window after the other: the files are all held for a moment.
  const files = await navigator.locks.request(`journal ${self.name}`, () =>
    takeFiles((number) => openFile(folder, number)),
  );
  if (!files) throw new Error('Too many windows are open: this one has no journal.');
  return files;
}

const opening = openAll();
serveRequests(async (wish: JournalRequest) => (await opening).grant(wish));
