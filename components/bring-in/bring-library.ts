import { css, html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { MergeReport } from '../../src/ledger/merge.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { PatientWork } from './patient-work.ts';
import type { ReadLibrary } from './read-chosen.ts';

const counted = (count: number, one: string, many = `${one}s`) => `${count} ${count === 1 ? one : many}`;

/** Brings in another library that was read from its file: says first what it would add, and keeps it only when the maker agrees. */
@customElement('bench-bring-library')
export class BringLibrary extends BenchElement {
  static override styles = [
    controls,
    css`
      section {
        display: grid;
        gap: var(--bench-space-3);
        justify-items: start;
      }
      p {
        margin: 0;
        font: var(--bench-font-say);
      }
      .acts {
        display: flex;
        gap: var(--bench-space-3);
      }
    `,
  ];

  private readonly library = new LibraryController(this);

  private readonly keeping = new PatientWork(this);
  @state() private done = '';
  @property({ attribute: false }) read: ReadLibrary | undefined;

  override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('read') && this.read) this.done = '';
  }

  private async handleKeep() {
    const { read, library } = this;
    const { store } = library;
    if (!read || !('file' in read) || !store || this.keeping.share !== undefined) return;
    try {
      const kept = await this.keeping.run(async (patience) => {
        await store.reader.library(read.file, patience, (piece) => store.ledger.merge(piece));
        return read;
      });
      await store.refresh();
      this.done = kept
        ? 'Kept. Everything of the file is in the library now.'
        : 'Stopped. What was taken in by then is kept; bring the file in again for the rest.';
      if (this.read === read) this.read = undefined;
    } catch (error) {
      await store.refresh();
      store.tell(error);
    }
  }

  private handleNothing() {
    this.read = undefined;
  }

  private sentence({ documents, acts }: MergeReport): string {
    const parts = [
      `${counted(documents.new, 'thing')} not here yet`,
      documents.newer > 0 && `${documents.newer} newer than here`,
      `${documents.same} the same as here`,
      documents.apart > 0 && `${documents.apart} changed on both sides, of which both are kept`,
      acts.new > 0 && counted(acts.new, 'act of a round', 'acts of rounds'),
    ];
    return `A library: ${parts.filter(Boolean).join(', ')}.`;
  }

  private renderActs() {
    const { share } = this.keeping;
    if (share === undefined)
      return html`<button @click=${this.handleKeep}>Keep these</button>
        <button @click=${this.handleNothing}>Keep nothing</button>`;
    return html`<label
        >Taking it in, ${Math.floor(100 * share)} %<progress max="1" .value=${share}></progress
      ></label>
      <button @click=${() => this.keeping.cancel()}>Cancel</button>`;
  }

  override render() {
    const { read, done } = this;
    return html`<section aria-live="polite">
      ${done ? html`<p>${done}</p>` : nothing}
      ${
        read && 'problems' in read
          ? html`<p>This cannot be brought in as it is. Nothing was kept.</p>
              <ul>
                ${read.problems.map(({ where, what }) => html`<li>${where}: ${what}</li>`)}
              </ul>`
          : nothing
      }
      ${
        read && 'report' in read
          ? html`<p>${this.sentence(read.report)}</p>
              <div class="acts">${this.renderActs()}</div>`
          : nothing
      }
    </section>`;
  }
}
