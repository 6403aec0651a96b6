import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { FormatError, type Problem } from '../../shared/errors.ts';
import type { WholeLibrary } from '../../src/ledger/store-library.ts';
import type { MergeReport } from '../../src/ledger/merge.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';

interface Understood {
  readonly whole: WholeLibrary;
  readonly report: MergeReport;
}

const counted = (count: number, one: string, many = `${one}s`) => `${count} ${count === 1 ? one : many}`;

/** Brings another library in from its file: says first what it would add, and keeps it only when the maker agrees. */
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

  @property({ attribute: false }) file: File | undefined;
  @state() private understood: Understood | undefined;
  @state() private problems: readonly Problem[] = [];
  @state() private done = '';

  override updated(changed: PropertyValues) {
    if (changed.has('file') && this.file) void this.read(this.file);
  }

  private async read(file: File): Promise<void> {
    this.understood = undefined;
    this.problems = [];
    this.done = '';
    try {
      const { readBackup } = await import('../../src/ledger/bundle.ts');
      const whole = await readBackup(new Uint8Array(await file.arrayBuffer()));
      this.understood = { whole, report: await this.library.store!.ledger.compare(whole) };
    } catch (error) {
      if (error instanceof FormatError) this.problems = error.problems;
      else this.library.store?.tell(error);
    }
  }

  private async handleKeep() {
    const { understood, library } = this;
    if (!understood || !library.store) return;
    try {
      await library.store.ledger.merge(understood.whole);
      await library.store.refresh();
      this.done = 'Kept. Everything of the file is in the library now.';
      this.understood = undefined;
    } catch (error) {
      library.store.tell(error);
    }
  }

  private handleNothing() {
    this.understood = undefined;
    this.file = undefined;
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
    const { understood, problems, done } = this;
    return html`<section aria-live="polite">
      ${done ? html`<p>${done}</p>` : nothing}
      ${
        problems.length > 0
          ? html`<p>This cannot be brought in as it is. Nothing was kept.</p>
              <ul>
                ${problems.map(({ where, what }) => html`<li>${where}: ${what}</li>`)}
              </ul>`
          : nothing
      }
      ${
        understood
          ? html`<p>${this.sentence(understood.report)}</p>
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
