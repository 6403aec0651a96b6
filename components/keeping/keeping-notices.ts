import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Health } from '../../src/ledger/health.ts';
import { isCopyDue, putOffCopy } from '../../src/ledger/outside-copies.ts';
import { hrefOf } from '../frame/routes.ts';
import type { LibraryStore } from '../store/library-store.ts';
import { base, controls } from '../theme/base.styles.ts';
import { notices } from '../theme/notices.styles.ts';
import { folderCopierOf } from './folder-copier.ts';
import './arrivals.ts';
import './lost-copies.ts';

/**
 * What the keeping of the library has to say by itself, over every place: something was lost, the disk is nearly full,
 * a folder asks to be allowed again, a copy is due.
 */
@customElement('bench-keeping-notices')
export class KeepingNotices extends LitElement {
  static override styles = [
    base,
    controls,
    notices,
    css`
      a {
        display: inline-flex;
        align-items: center;
        min-height: var(--bench-touch);
        color: inherit;
      }
    `,
  ];

  @property({ attribute: false }) store: LibraryStore | undefined;
  @state() private due = false;
  @state() private room: Health['room'] = 'unknown';
  @state() private asks = '';
  private listening: AbortController | undefined;

  override connectedCallback() {
    super.connectedCallback();
    this.listening = new AbortController();
    void this.begin(this.listening.signal);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.listening?.abort();
  }

  private async begin(signal: AbortSignal): Promise<void> {
    await this.updateComplete;
    const { store } = this;
    if (!store) return;
    const copier = folderCopierOf(store);
    const look = () => {
      this.asks = copier.state.is === 'asks' ? copier.state.folder : '';
      void this.look();
    };
    copier.addEventListener('bench-folder-copies', look, { signal });
    store.addEventListener('bench-library-change', () => this.requestUpdate(), { signal });
    look();
  }

  private async look(): Promise<void> {
    const { store } = this;
    if (!store) return;
    try {
      const { is } = folderCopierOf(store).state;
      this.due = is !== 'writes' && (await isCopyDue(store.ledger, new Date()));
      this.room = (await store.ledger.health()).room;
    } catch (error) {
      store.tell(error);
    }
  }

  private async handleLater() {
    await putOffCopy(this.store!.ledger, new Date());
    this.due = false;
  }

  override render() {
    const { store } = this;
    if (!store) return nothing;
    return html`<bench-lost-copies .store=${store}></bench-lost-copies>
      <bench-arrivals .store=${store}></bench-arrivals>
      <div role="status">${this.renderNotice(store)}</div>`;
  }

  /** One at a time, the gravest. */
  private renderNotice(store: LibraryStore) {
    const setup = hrefOf({ at: 'setup' });
    const troubles = store.copyTroubles();
    if (troubles.length > 0) {
      return html`<section aria-label="Kept once only">
        <p>
          What you enter is kept, but in one place only: the ${troubles.map(({ of }) => of).join(' and the ')}
          in this browser cannot be written. It is tried again with every change. Keep a copy.
        </p>
        <a href=${setup}>To Setup</a>
      </section>`;
    }
    if (this.room === 'little') {
      return html`<section aria-label="Little room">
        <p>The disk space that the browser gives this page is nearly used up. Keep a copy, and free some.</p>
        <a href=${setup}>To Setup</a>
      </section>`;
    }
    if (this.asks) {
      return html`<section aria-label="Copies in a folder">
        <p>Copies go to the folder ${this.asks} again when you allow it.</p>
        <button @click=${() => folderCopierOf(store).allow()}>Allow it</button>
      </section>`;
    }
    if (!this.due) return nothing;
    return html`<section aria-label="A copy is due">
      <p>Your reeds are kept in this browser alone. A copy of the library on another disk survives it.</p>
      <a href=${setup}>Keep a copy</a>
      <button @click=${this.handleLater}>Not this month</button>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-keeping-notices': KeepingNotices;
  }
}
