import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { MergeReport } from '../../src/ledger/merge.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import type { ReadLibrary } from './read-chosen.ts';

const counted = (count: number, one: string, many = `${one}s`) => `${count} ${count === 1 ? one : many}`;

/** Brings in another library that was read from its file: says first what it would add, and keeps it only when the maker agrees. */
@customElement('bench-bring-library')
export class BringLibrary extends LitElement {
  static override styles = [
    base,
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

  private isKeeping = false;
  @state() private done = '';
  @property({ attribute: false }) read: ReadLibrary | undefined;

  override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('read') && this.read) this.done = '';
  }

  private async handleKeep() {
    const { read, library } = this;
    if (!read || !('whole' in read) || !library.store || this.isKeeping) return;
    this.isKeeping = true;
    try {
      await library.store.ledger.merge(read.whole);
      await library.store.refresh();
      this.done = 'Kept. Everything of the file is in the library now.';
      if (this.read === read) this.read = undefined;
    } catch (error) {
      library.store.tell(error);
    } finally {
      this.isKeeping = false;
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
              <div class="acts">
                <button @click=${this.handleKeep}>Keep these</button>
                <button @click=${this.handleNothing}>Keep nothing</button>
              </div>`
          : nothing
      }
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-bring-library': BringLibrary;
  }
}
