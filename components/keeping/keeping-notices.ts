import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Health } from '../../src/ledger/health.ts';
import { putOffRisk, readAtRisk, type AtRisk } from '../../src/ledger/at-risk.ts';
import { hrefOf } from '../frame/routes.ts';
import type { LibraryStore } from '../store/library-store.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { notices } from '../theme/notices.styles.ts';
import { canPickFolder, folderCopierOf } from './folder-copier.ts';
import { canInstall, install, installing } from './installing.ts';
import './arrivals.ts';
import './lost-copies.ts';

/** Changes that follow each other are looked at once. Our own number. */
const LOOK_AFTER_MS = 500;

/**
 * What the keeping of the library has to say by itself, over every place: something was lost, the disk is nearly full,
 * a folder asks to be allowed again, readings are in this browser alone.
 */
@customElement('bench-keeping-notices')
export class KeepingNotices extends BenchElement {
  static override styles = [
    controls,
    notices,
    css`
      a {
        display: inline-flex;
        align-items: center;
        min-height: var(--bench-touch);
      }
    `,
  ];

  @property({ attribute: false }) store: LibraryStore | undefined;
  @state() private risk: AtRisk | undefined;
  /** What the browser answered when it was asked for its promise. */
  @state() private answer: 'promised' | 'refused' | undefined;
  @state() private room: Health['room'] = 'unknown';
  @state() private asks = '';
  private listening: AbortController | undefined;
  private timer: ReturnType<typeof setTimeout> | undefined;

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
    const lookSoon = () => {
      this.requestUpdate();
      this.timer ??= setTimeout(() => void this.look(), LOOK_AFTER_MS);
    };
    store.addEventListener('bench-library-change', lookSoon, { signal });
    installing.addEventListener('bench-installing', () => this.requestUpdate(), { signal });
    look();
  }

  private async look(): Promise<void> {
    const { store } = this;
    clearTimeout(this.timer);
    this.timer = undefined;
    if (!store || store.keeping.state === 'trouble') return;
    try {
      this.risk = await readAtRisk(store.ledger, store.copy !== undefined);
      this.room = (await store.ledger.health()).room;
    } catch (error) {
      // What is told changes the library, and would be looked at again, and fail, for ever.
      this.listening?.abort();
      store.tell(error);
    }
  }

  private async handleLater(risk: AtRisk) {
    await putOffRisk(this.store!.ledger, risk);
    this.answer = undefined;
    await this.look();
  }

  private async handlePromise() {
    const isPromised = await this.store!.ledger.requestPersistence().catch(() => false);
    this.answer = isPromised ? 'promised' : 'refused';
    await this.look();
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
    const { risk } = this;
    const isCopied = folderCopierOf(store).state.is === 'writes';
    return risk?.isDue && !isCopied ? this.renderRisk(store, risk) : nothing;
  }

  private renderRisk(store: LibraryStore, risk: AtRisk) {
    const { readings, mayForget } = risk;
    const [they, are] = readings === 1 ? ['One reading', 'is'] : [`${readings} readings`, 'are'];
    const why = !mayForget
      ? 'A copy on another disk survives this one.'
      : store.copy === undefined
        ? 'It has no second place to keep a copy, and may forget them: in a private window, when the disk is full, or after weeks without a visit.'
        : 'It has not promised to keep them, and may forget them: when the disk is full, or after weeks without a visit.';
    return html`<section aria-label="Readings at risk">
      <p>
        ${they} ${are} in this browser alone. ${why}
        ${this.answer === 'refused' ? 'It was asked, and did not promise. It may when you use the bench more often, or install it.' : nothing}
      </p>
      ${mayForget && this.answer === undefined ? html`<button @click=${this.handlePromise}>Ask the browser to keep them</button>` : nothing}
      ${canInstall() ? html`<button @click=${install}>Install the bench</button>` : nothing}
      ${canPickFolder() ? html`<button @click=${() => folderCopierOf(store).pick()}>Pick a folder for copies</button>` : nothing}
      <a href=${hrefOf({ at: 'setup' })}>Keep a copy</a>
      <button @click=${() => this.handleLater(risk)}>Not now</button>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-keeping-notices': KeepingNotices;
  }
}
