import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Mirror } from '../../src/ledger/mirror.ts';
import { startMirroring, type Mirroring } from '../../src/ledger/mirroring.ts';
import { bringBack, findLostCopies, leaveCopy, type LostCopy } from '../../src/ledger/second-copy.ts';
import type { LibraryStore } from '../store/library-store.ts';
import { base, controls } from '../theme/base.styles.ts';

/** Runs the work at most in one window at a time, where the browser can see to that. */
const alone = (work: () => Promise<void>) =>
  'locks' in navigator ? navigator.locks.request('hundredths second copy', work) : work();

/**
 * Keeps the second copy of the library in step with it. When the browser has lost what is in the copy, it says so and
 * offers to bring it back.
 */
@customElement('bench-lost-copies')
export class LostCopies extends LitElement {
  static override styles = [
    base,
    controls,
    css`
      section {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-3) var(--bench-space-4);
        align-items: center;
        margin: var(--bench-space-4) var(--bench-page-margin) 0;
        padding: var(--bench-space-3) var(--bench-space-4);
        border-left: 3px solid var(--bench-stop);
        background: var(--bench-plate);
      }
      p {
        flex: 1 1 320px;
        margin: 0;
        font: var(--bench-font-aside);
      }
    `,
  ];

  @property({ attribute: false }) store: LibraryStore | undefined;
  @property({ attribute: false }) mirror: Mirror | undefined;
  @state() private lost: readonly LostCopy[] = [];
  @state() private busy = false;
  private mirroring: Mirroring | undefined;
  private readonly listening = new AbortController();

  /** How the copy stands, for Setup. */
  get copy(): Pick<Mirroring, 'at' | 'trouble'> | undefined {
    return this.mirroring;
  }

  override connectedCallback() {
    super.connectedCallback();
    const { signal } = this.listening;
    document.addEventListener('visibilitychange', () => void this.mirroring?.flush(), { signal });
    void this.begin();
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.listening.abort();
    void this.mirroring?.stop();
  }

  private async begin(): Promise<void> {
    await this.updateComplete;
    const { store, mirror } = this;
    if (!store?.ledger.writable || !mirror) return;
    try {
      await alone(async () => {
        this.lost = await findLostCopies(store.ledger, mirror);
        this.mirroring = await startMirroring(store.ledger, mirror);
      });
    } catch (error) {
      store.tell(error);
    }
  }

  private async handleBack({ deviceId }: LostCopy) {
    const { store, mirror, mirroring } = this;
    if (!store || !mirror || !mirroring) return;
    this.busy = true;
    try {
      await alone(async () => void (await bringBack(store.ledger, mirror, deviceId, mirroring)));
      this.lost = this.lost.filter((one) => one.deviceId !== deviceId);
      await store.refresh();
    } catch (error) {
      store.tell(error);
    } finally {
      this.busy = false;
    }
  }

  private async handleLeave({ deviceId }: LostCopy) {
    try {
      await leaveCopy(this.store!.ledger, deviceId);
      this.lost = this.lost.filter((one) => one.deviceId !== deviceId);
    } catch (error) {
      this.store!.tell(error);
    }
  }

  override render() {
    return this.lost.length === 0 ? nothing : this.lost.map((copy) => this.renderLost(copy));
  }

  private renderLost(copy: LostCopy) {
    const { documents, acts } = copy.report;
    const lost = documents.new + documents.newer + documents.apart + acts.new;
    return html`<section role="alert" aria-label="A lost library">
      <p>
        The browser has lost ${lost === 1 ? 'one thing' : `${lost} things`} of the library, but the second
        copy still has ${lost === 1 ? 'it' : 'them'}. Bringing ${lost === 1 ? 'it' : 'them'} back overwrites
        nothing that is here now.
      </p>
      <button ?disabled=${this.busy} @click=${() => this.handleBack(copy)}>Bring it back</button>
      <button ?disabled=${this.busy} @click=${() => this.handleLeave(copy)}>Leave it</button>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-lost-copies': LostCopies;
  }
}
