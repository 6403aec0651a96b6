import { css, html, LitElement } from 'lit';
import { customElement } from 'lit/decorators.js';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';

/** Hands a file to the browser to be put into the maker's downloads. */
function download(name: string, text: string, type: string): void {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  URL.revokeObjectURL(url);
}

/** Copies of everything that a maker can take away: the whole library as one file, and all readings as CSV. */
@customElement('bench-copies')
export class Copies extends LitElement {
  static override styles = [
    base,
    controls,
    css`
      div {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-3);
        padding-top: var(--bench-space-3);
      }
    `,
  ];

  private readonly library = new LibraryController(this);

  private async handleLibrary() {
    const { store } = this.library;
    if (!store) return;
    const { libraryText } = await import('../../src/ledger/library-file.ts');
    download('hundredths-library.json', libraryText(await store.ledger.readWhole()), 'application/json');
  }

  private async handleCsv() {
    const { store } = this.library;
    if (!store) return;
    const { writeLongCsv } = await import('../../src/exchange/csv/write-csv.ts');
    const reeds = store.reeds.map(({ id, label }) => ({ label, passes: store.passesOf(id) }));
    download('hundredths-readings.csv', writeLongCsv(reeds, this.library.choices.decimal), 'text/csv');
  }

  override render() {
    return html`<div>
      <button @click=${this.handleLibrary}>Keep a copy of the library</button>
      <button @click=${this.handleCsv}>Keep all readings as CSV</button>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-copies': Copies;
  }
}
