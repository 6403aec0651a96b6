import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { moment } from '../../shared/moment.ts';
import type { Health } from '../../src/ledger/health.ts';
import { readAtRisk } from '../../src/ledger/at-risk.ts';
import { lastCopy, type LastCopy } from '../../src/ledger/outside-copies.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { momentWords } from './moment-words.ts';
import { numberText, withUnit, type NumberFormat } from '../../src/words/format.ts';
import { rows } from './setup.styles.ts';

const SIZES = [
  [1e9, 'GB'],
  [1e6, 'MB'],
  [1e3, 'kB'],
] as const;

function sizeWords(bytes: number, writing: Pick<NumberFormat, 'decimal'>): string {
  const [size, unit] = SIZES.find(([least]) => bytes >= least) ?? SIZES[2];
  const value = bytes / size;
  return withUnit(numberText(value, value < 10 ? 1 : 0, writing), unit);
}

/** How the library is kept: what the browser promises, the room there is, the copies. */
@customElement('bench-keeping-state')
export class KeepingState extends BenchElement {
  static override styles = [controls, rows];

  private readonly library = new LibraryController(this);
  @state() private health: Health | undefined;
  @state() private last: LastCopy | undefined;
  @state() private atRisk = 0;
  @state() private refused = false;

  /** How many copies were made since the screen was opened. */
  @property({ type: Number }) copies = 0;

  override updated(changed: PropertyValues) {
    if (changed.has('copies')) void this.look();
  }

  private async look(): Promise<void> {
    const { store } = this.library;
    if (!store) return;
    try {
      this.health = await store.ledger.health();
      this.last = await lastCopy(store.ledger);
      this.atRisk = (await readAtRisk(store.ledger, store.copy !== undefined)).readings;
    } catch (error) {
      store.tell(error);
    }
  }

  private async handlePersist() {
    const { store } = this.library;
    if (!store) return;
    this.refused = !(await store.ledger.requestPersistence().catch(() => false));
    await this.look();
  }

  override render() {
    const { health } = this;
    if (!health) return nothing;
    return html`${this.renderPromise(health)} ${this.renderRoom(health)} ${this.renderCopies()}
      ${health.writable ? nothing : html`<p class="row warning">This window can only read. Reload it to get the newer version.</p>`}
      <details>
        <summary>What “kept” promises</summary>
        <p>${health.durability}</p>
      </details>`;
  }

  private renderPromise({ persisted }: Health) {
    if (persisted) {
      return html`<div class="row">
        <p>The browser has promised not to clear the library away by itself.</p>
      </div>`;
    }
    return html`<div class="row">
      <p>
        The browser may clear the library away when the disk is full. Keep copies.
        ${this.refused ? html`<small role="status">It was asked, and did not promise. It may when you use the bench more often, or install it.</small>` : nothing}
      </p>
      <button @click=${this.handlePersist}>Ask the browser to keep it</button>
    </div>`;
  }

  private renderRoom({ usedBytes, quotaBytes, room }: Health) {
    if (usedBytes === undefined || quotaBytes === undefined) return nothing;
    return html`<div class="row">
      <p class=${room === 'little' ? 'warning' : ''}>
        ${sizeWords(usedBytes, this.library.choices)} used of the
        ${sizeWords(quotaBytes, this.library.choices)} that the browser allows.
        ${room === 'little' ? 'That is nearly all: keep a copy, and free some disk space.' : nothing}
      </p>
    </div>`;
  }

  private renderCopies() {
    const mirroring = this.library.store?.copy?.mirroring;
    const at = mirroring?.at();
    const second = !mirroring
      ? 'This browser has no place for a second copy.'
      : mirroring.trouble() !== undefined
        ? 'The second copy in this browser could not be written. It is tried again with the next change.'
        : `A second copy lies in another storage of this browser${at ? `, as of ${momentWords(moment(at))}` : ''}.`;
    const { last } = this;
    const { atRisk } = this;
    const since = atRisk
      ? ` ${atRisk === 1 ? 'One reading is' : `${atRisk} readings are`} in no such copy.`
      : '';
    const outside = last
      ? `The last copy outside the browser is of ${momentWords(last.at)}.${since}`
      : `There is no copy outside the browser yet.${since}`;
    return html`<div class="row"><p>${second} ${outside}</p></div>`;
  }
}
