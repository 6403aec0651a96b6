import {
  askToWrite,
  copyToFolder,
  mayWrite,
  pickedFolder,
  pickFolder,
  type PickedFolder,
} from '../../src/ledger/outside-copies.ts';
import type { LibraryStore } from '../store/library-store.ts';

/** How the copies in a folder stand. */
export type FolderState =
  | { readonly is: 'none' }
  /** `asks`: the browser wants to be asked again; `refused`: it was, and the answer was no. */
  | { readonly is: 'asks' | 'refused' | 'writes'; readonly folder: string }
  | { readonly is: 'failed'; readonly folder: string; readonly why: string };

/** How long changes are gathered before they are copied, at least. Common practice, no source. */
const DELAY_MS = 60_000;
/** A copy that takes long is taken less often: no more than this share of the time is spent with copying. */
const SHARE = 0.02;

interface Picker {
  readonly showDirectoryPicker?: (options: { id: string; mode: 'readwrite' }) => Promise<PickedFolder>;
}

/** Whether this browser lets a page write into a folder. */
export const canPickFolder = () => 'showDirectoryPicker' in window;

/** Copies the library into a folder that the maker picked, some time after a change and when the window is put away. */
class FolderCopier extends EventTarget {
  state: FolderState = { is: 'none' };
  private readonly store: LibraryStore;
  private folder: PickedFolder | undefined;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private copying: Promise<void> = Promise.resolve();
  private tookMs = 0;

  constructor(store: LibraryStore) {
    super();
    this.store = store;
    store.ledger.onChange((change) => {
      if (change.what === 'closed' || !change.here || this.state.is === 'none') return;
      this.timer ??= setTimeout(() => void this.copy(), Math.max(DELAY_MS, this.tookMs / SHARE));
    });
    document.addEventListener('visibilitychange', () => {
      if (this.timer !== undefined) void this.copy();
    });
    void this.take();
  }

  private async take(): Promise<void> {
    try {
      this.folder = await pickedFolder(this.store.ledger);
      const { folder } = this;
      if (!folder) this.show({ is: 'none' });
      else this.show({ is: (await mayWrite(folder)) ? 'writes' : 'asks', folder: folder.name });
    } catch (error) {
      this.store.tell(error);
    }
  }

  /** Lets the maker pick a folder; only in answer to a click. */
  async pick(): Promise<void> {
    const { showDirectoryPicker } = window as Picker;
    try {
      this.folder = await showDirectoryPicker?.call(window, { id: 'hundredths', mode: 'readwrite' });
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return;
      this.store.tell(error);
      return;
    }
    await pickFolder(this.store.ledger, this.folder);
    await this.copy();
  }

  /** Asks the browser again; only in answer to a click. */
  async allow(): Promise<void> {
    const { folder } = this;
    if (!folder) return;
    try {
      if (await askToWrite(folder)) await this.copy();
      else this.show({ is: 'refused', folder: folder.name });
    } catch (error) {
      this.store.tell(error);
    }
  }

  async forget(): Promise<void> {
    this.folder = undefined;
    await pickFolder(this.store.ledger, undefined);
    this.show({ is: 'none' });
  }

  /** Writes today's copy now, one after the other. */
  copy(): Promise<void> {
    clearTimeout(this.timer);
    this.timer = undefined;
    this.copying = this.copying.then(() => this.write());
    return this.copying;
  }

  private async write(): Promise<void> {
    const { folder } = this;
    if (!folder) return;
    try {
      if (!(await mayWrite(folder))) {
        this.show({ is: this.state.is === 'refused' ? 'refused' : 'asks', folder: folder.name });
        return;
      }
      const begun = performance.now();
      await copyToFolder(this.store.ledger, folder, new Date());
      this.tookMs = performance.now() - begun;
      this.show({ is: 'writes', folder: folder.name });
    } catch (error) {
      const why = error instanceof Error ? error.name : 'unknown';
      this.show({ is: 'failed', folder: folder.name, why });
    }
  }

  private show(state: FolderState): void {
    this.state = state;
    this.dispatchEvent(new Event('bench-folder-copies'));
  }
}

const copiers = new WeakMap<LibraryStore, FolderCopier>();

/** The one copier of a library in this window. */
export function folderCopierOf(store: LibraryStore): FolderCopier {
  const copier = copiers.get(store) ?? new FolderCopier(store);
  copiers.set(store, copier);
  return copier;
}
