import { css, html, nothing } from 'lit';
import { customElement } from 'lit/decorators.js';
import { noteCopy, writeWhole } from '../../src/ledger/outside-copies.ts';
import { PatientWork } from '../bring-in/patient-work.ts';
import { canPickFolder, folderCopierOf } from '../keeping/folder-copier.ts';
import { rest, type ProgressOptions } from '../../src/ledger/patience.ts';
import type { Sink } from '../../src/ledger/bundle/write.ts';
import { LibraryController } from '../store/library-controller.ts';
import type { LibraryStore } from '../store/library-store.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { download } from './download.ts';
import { rows } from './setup.styles.ts';
import { ACROSS_SHADOWS } from '../across-shadows.ts';

/** So much of a file is in memory at most. Our own number. */
const GATHER_BYTES = 16e6;

/** A file that the browser gathers outside the page's memory, where it is large. */
function blobSink(done: (blob: readonly BlobPart[]) => void): Sink {
  let written: BlobPart[] = [];
  let size = 0;
  return {
    write(bytes) {
      written.push(new Uint8Array(bytes));
      size += bytes.length;
      if (size < GATHER_BYTES) return Promise.resolve();
      written = [new Blob(written)];
      size = 0;
      return Promise.resolve();
    },
    close: () => Promise.resolve(done(written)),
  };
}

/** A new copy has left the browser. */
export class CopyMadeEvent extends Event {
  constructor() {
    super('bench-copy-made', ACROSS_SHADOWS);
  }
}

/**
 * Copies of everything that a maker can take away: the whole library as one file, all readings as CSV, and a folder
 * into which copies go by themselves.
 *
 * @event bench-copy-made - A copy of the whole library has left the browser.
 */
@customElement('bench-copies')
export class Copies extends BenchElement {
  static override styles = [
    controls,
    rows,
    css`
      .files {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-3);
        padding: var(--bench-space-3) 0;
        border-top: 1px solid var(--bench-rule);
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  private readonly writing = new PatientWork(this);
  /** What is being written. */
  private what = '';
  private watched: LibraryStore | undefined;

  override updated() {
    const { store } = this.library;
    if (!store || this.watched === store) return;
    this.watched = store;
    folderCopierOf(store).addEventListener('bench-folder-copies', () => {
      this.requestUpdate();
      this.dispatchEvent(new CopyMadeEvent());
    });
  }

  /** Writes something long, which can be given up; what goes wrong is said in the one place for it. */
  private async write<T extends object>(
    what: string,
    work: (store: LibraryStore, patience: ProgressOptions) => Promise<T>,
  ): Promise<T | undefined> {
    const { store } = this.library;
    if (!store) return undefined;
    this.what = what;
    try {
      return await this.writing.run((patience) => work(store, patience));
    } catch (error) {
      store.tell(error);
      return undefined;
    }
  }

  /** Writes the copy part by part; each is handed over when all are done. */
  private async handleWhole() {
    const done = await this.write('the copy', async ({ ledger }, patience) => {
      const parts: (readonly BlobPart[])[] = [];
      await writeWhole(ledger, async (part) => blobSink((blob) => (parts[part - 1] = blob)), patience);
      return parts;
    });
    if (!done) return;
    for (const [i, blob] of done.entries()) {
      const which = done.length > 1 ? `-part-${i + 1}-of-${done.length}` : '';
      download(`hundredths-library${which}.zip`, new Blob([...blob]), 'application/zip');
    }
    // A full disk must not stand in the way of the copy.
    await noteCopy(this.library.store!.ledger, 'download', new Date()).catch(() => undefined);
    this.dispatchEvent(new CopyMadeEvent());
  }

  /** Writes a text part by part, and hands it over. @param length How many parts there are, about. */
  private async giveText(
    name: string,
    type: string,
    make: (
      store: LibraryStore,
    ) => Promise<{ readonly parts: AsyncIterable<string>; readonly length: number }>,
  ) {
    const done = await this.write(name, async (store, patience) => {
      let written: readonly BlobPart[] = [];
      const sink = blobSink((blob) => (written = blob));
      const { parts, length } = await make(store);
      let count = 0;
      for await (const text of parts) {
        await sink.write(new TextEncoder().encode(text));
        await rest(patience, Math.min(1, ++count / length));
      }
      await sink.close();
      return written;
    });
    if (done) download(name, new Blob([...done]), type);
  }

  private handleJson() {
    return this.giveText('hundredths-library.json', 'application/json', async ({ ledger }) => {
      const { libraryTextParts } = await import('../../src/ledger/library-file.ts');
      const { portions, length } = await ledger.portions('all');
      return { parts: libraryTextParts(portions), length };
    });
  }

  private async handleCsv(name: string, form: 'long' | 'sheet') {
    const { decimal } = this.library.choices;
    await this.giveText(name, 'text/csv', async ({ reeds, ledger }) => {
      async function* all() {
        for (const { id, label } of reeds) yield { label, passes: await ledger.passesOf(id) };
      }
      const { csvParts } = await import('../../src/exchange/csv/in-parts.ts');
      const parts =
        form === 'long'
          ? csvParts((await import('../../src/exchange/csv/write-csv.ts')).longForm, all, decimal)
          : csvParts((await import('../../src/exchange/csv/write-sheet.ts')).sheetForm, all, decimal);
      return { parts, length: reeds.length + 1 };
    });
  }

  override render() {
    const { store } = this.library;
    if (!store) return nothing;
    return html`${canPickFolder() ? this.renderFolder(store) : nothing}
      <div class="files">${this.renderFiles()}</div>`;
  }

  private renderFiles() {
    const { share } = this.writing;
    if (share !== undefined)
      return html`<label
          >Writing ${this.what}, ${Math.floor(100 * share)} %<progress max="1" .value=${share}></progress
        ></label>
        <button @click=${() => this.writing.cancel()}>Cancel</button>`;
    return html`<button @click=${this.handleWhole}>Keep a copy of the library</button>
      <button @click=${this.handleJson}>The same as JSON, without pictures</button>
      <button @click=${() => this.handleCsv('hundredths-readings.csv', 'long')}>
        Keep all readings as CSV
      </button>
      <button @click=${() => this.handleCsv('hundredths-sheets.csv', 'sheet')}>As sheets</button>`;
  }

  private renderFolder(store: LibraryStore) {
    const copier = folderCopierOf(store);
    const { state: now } = copier;
    const pick = html`<button @click=${() => copier.pick()}>Pick a folder</button>`;
    if (now.is === 'none') {
      return html`<div class="row">
        <p>A copy can go into a folder of your choice by itself after every change, one file a day.</p>
        ${pick}
      </div>`;
    }
    const words = {
      writes: `Copies go to the folder ${now.folder} by themselves.`,
      asks: `The browser wants to be asked again before copies go to the folder ${now.folder}.`,
      refused: `No copies go to the folder ${now.folder}: the browser was not allowed to write there. Allow it, or pick another folder.`,
      failed: `The folder ${now.folder} could not be written. Is it still there, and is there room?`,
    };
    return html`<div class="row">
      <p class=${now.is === 'failed' ? 'warning' : ''} role="status">${words[now.is]}</p>
      <div class="acts">
        ${now.is === 'asks' || now.is === 'refused' ? html`<button @click=${() => copier.allow()}>Allow it</button>` : nothing}
        ${now.is === 'failed' ? html`<button @click=${() => copier.copy()}>Try again</button>` : nothing}
        ${now.is === 'writes' ? html`<button @click=${() => copier.copy()}>Copy now</button>` : nothing}
        ${pick}
        <button @click=${() => copier.forget()}>No more copies there</button>
      </div>
    </div>`;
  }
}
