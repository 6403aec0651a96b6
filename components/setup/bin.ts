import { html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { Id } from '../../shared/ids.ts';
import { binGroups, type BinGroup } from '../../src/ledger/bin.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { momentWords } from './moment-words.ts';
import { rows } from './setup.styles.ts';

/** What was thrown away, each act with the way back. */
@customElement('bench-bin')
export class Bin extends BenchElement {
  static override styles = [controls, rows];

  private readonly library = new LibraryController(this);
  /** The group that the maker has asked to remove for good, and not yet confirmed. */
  @state() private doomed: string | undefined;

  private readonly labelOf = (reedId: Id) => {
    const { live, deleted } = this.library.store!.snapshot;
    const reeds = [...live.reed, ...deleted.filter((one) => one.kind === 'reed')];
    return reeds.find(({ id }) => id === reedId)?.label;
  };

  private idsOf({ documents }: BinGroup): readonly Id[] {
    return documents.map(({ id }) => id);
  }

  private handleBack(group: BinGroup) {
    void this.library.store?.restore(this.idsOf(group), `${group.name} out of the bin`);
  }

  private handleRemove(group: BinGroup) {
    if (this.doomed !== group.deletedAt) {
      this.doomed = group.deletedAt;
      return;
    }
    this.doomed = undefined;
    void this.library.store?.purge(this.idsOf(group));
  }

  override render() {
    const { store } = this.library;
    if (!store) return nothing;
    const groups = binGroups(store.snapshot.deleted, this.labelOf);
    return html`<section aria-label="The bin">
      <h2>The bin</h2>
      ${
        groups.length === 0
          ? html`<p>The bin is empty.</p>`
          : html`<ul>
              ${groups.map((group) => this.renderGroup(group))}
            </ul>`
      }
    </section>`;
  }

  private renderGroup(group: BinGroup) {
    const doomed = this.doomed === group.deletedAt;
    return html`<li>
      <p>
        ${group.name}
        <small>${doomed ? 'This cannot be undone.' : `since ${momentWords(group.deletedAt)}`}</small>
      </p>
      <div class="acts">
        <button @click=${() => this.handleBack(group)}>Bring back</button>
        <button @click=${() => this.handleRemove(group)}>
          ${doomed ? 'Yes, remove it for good' : 'Remove for good'}
        </button>
        ${doomed ? html`<button @click=${() => (this.doomed = undefined)}>Leave it here</button>` : nothing}
      </div>
    </li>`;
  }
}
