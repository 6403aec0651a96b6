import { html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { Id } from '../../shared/ids.ts';
import type { NotChosen } from '../../shared/library.ts';
import type { Pass } from '../../shared/pass.ts';
import { documentName } from '../../src/ledger/document-words.ts';
import { recoverable, type Takeable } from '../../src/ledger/takeable.ts';
import type { Snapshot } from '../../src/ledger/snapshot.ts';
import '../figures-table/copy-table.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls, tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { fieldRows } from './field-rows.ts';
import { momentWords } from './moment-words.ts';
import { rows, sideBySide } from './setup.styles.ts';

/** Sides that were not chosen where two devices had disagreed: to be looked at, and taken instead. */
@customElement('bench-not-chosen')
export class NotChosenList extends BenchElement {
  static override styles = [controls, tables, rows, sideBySide];

  private readonly library = new LibraryController(this);
  private seen: Snapshot | undefined;
  @state() private all: readonly NotChosen[] = [];
  /** Passes of which a side was not chosen, and the others of their reeds. */
  private passes: readonly Pass[] = [];
  /** Those of all that can still be taken. */
  private shown: readonly Takeable[] = [];
  /** The one that is looked at. */
  @state() private open: NotChosen | undefined;

  private readonly labelOf = (reedId: Id) => this.library.store?.reed(reedId)?.label;

  override willUpdate() {
    const { store } = this.library;
    this.shown = store ? recoverable(this.all, store.snapshot, this.passes) : [];
    this.hidden = this.shown.length === 0;
  }

  override updated() {
    const { store } = this.library;
    if (!store || this.seen === store.snapshot) return;
    this.seen = store.snapshot;
    void this.look();
  }

  private async look(): Promise<void> {
    const { store } = this.library;
    if (!store) return;
    try {
      const all = await store.ledger.notChosen();
      const reeds = new Set(all.flatMap(({ side }) => (side.kind === 'pass' ? [side.reedId] : [])));
      this.passes = (await Promise.all([...reeds].map((id) => store.loadPasses(id)))).flat();
      this.all = all;
    } catch (error) {
      store.tell(error);
    }
  }

  private handleTake({ one, now }: Takeable) {
    this.open = undefined;
    void this.library.store?.settle(one.side, now, documentName(one.side, this.labelOf));
  }

  override render() {
    if (this.shown.length === 0) return nothing;
    return html`<section aria-label="Not chosen">
      <h2>Not chosen</h2>
      <p>
        Where you chose between two sides, the other was set aside. You can look at it, and take it instead.
      </p>
      <ul>
        ${this.shown.map((takeable) => this.renderOne(takeable))}
      </ul>
    </section>`;
  }

  private renderOne(takeable: Takeable) {
    const { one } = takeable;
    const name = documentName(one.side, this.labelOf);
    const isOpen = this.open === one;
    const of = html`<span class="said">, ${name}, set aside on ${momentWords(one.at)}</span>`;
    return html`<li>
        <p>${name}<small>set aside on ${momentWords(one.at)}</small></p>
        <div class="acts">
          <button aria-expanded=${isOpen} @click=${() => (this.open = isOpen ? undefined : one)}>
            Look at it${of}
          </button>
          <button @click=${() => this.handleTake(takeable)}>Take it instead${of}</button>
        </div>
      </li>
      ${isOpen ? html`<li>${this.renderDifferences(takeable, name)}</li>` : nothing}`;
  }

  private renderDifferences({ one, now }: Takeable, name: string) {
    return html`<div class="scroll" tabindex="0" role="region" aria-label=${`What was set aside of ${name}`}>
      <table>
        <thead>
          <tr>
            <td></td>
            <th scope="col">Set aside</th>
            <th scope="col">As it is now</th>
          </tr>
        </thead>
        <tbody>
          ${fieldRows([one.side, now[0]!])}
        </tbody>
      </table>
      <bench-copy></bench-copy>
    </div>`;
  }
}
