import { html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { download } from '../setup/download.ts';
import { rows } from '../setup/setup.styles.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

interface Piece {
  readonly name: string;
  readonly file: Blob;
}

/** Pieces of the second copy that could not be read: kept until the maker has taken them away or lets them go. */
@customElement('bench-set-aside-pieces')
export class SetAsidePieces extends BenchElement {
  static override styles = [controls, rows];

  private readonly library = new LibraryController(this);
  @state() private pieces: readonly Piece[] = [];

  override firstUpdated() {
    void this.run(async () => undefined);
  }

  override updated() {
    this.hidden = this.pieces.length === 0;
  }

  private async run(work: () => Promise<unknown>): Promise<void> {
    const { store } = this.library;
    try {
      await work();
      this.pieces = (await store?.copy?.setAside()) ?? [];
    } catch (error) {
      store?.tell(error);
    }
  }

  private handleKeep() {
    void this.run(async () => {
      for (const { name, file } of this.pieces)
        download(
          name,
          new Uint8Array(await file.arrayBuffer()),
          name.endsWith('.zip') ? 'application/zip' : 'text/plain',
        );
    });
  }

  private handleRemove() {
    void this.run(async () => this.library.store?.copy?.removeSetAside());
  }

  override render() {
    const { pieces } = this;
    if (pieces.length === 0) return nothing;
    const kB = ({ file }: Piece) => `${Math.max(1, Math.round(file.size / 1000))} kB`;
    return html`<section aria-label="Pieces of second copy and journal set aside">
      <h2>Pieces of second copy and journal set aside</h2>
      <p>
        These could not be read when the library was opened. Keep them as files: somebody who knows the format
        may still get something out of them.
      </p>
      <ul>
        ${pieces.map(
          (piece) =>
            html`<li>
              <p>${piece.name}<small>${kB(piece)}</small></p>
            </li>`,
        )}
      </ul>
      <div class="acts">
        <button @click=${this.handleKeep}>Keep them as files</button>
        <button @click=${this.handleRemove}>Let them go</button>
      </div>
    </section>`;
  }
}
