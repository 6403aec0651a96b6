import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { LostCopy } from '../../src/ledger/mirror/second-copy.ts';
import type { LibraryStore } from '../store/library-store.ts';
import { thingsIn, unreadableWords } from '../store/trouble.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { notices } from '../theme/notices.styles.ts';

/** Says that the browser has lost what the second copy still has, and offers to bring it back. */
@customElement('bench-lost-copies')
export class LostCopies extends BenchElement {
  static override styles = [
    controls,
    notices,
    css`
      section {
        border-left-color: var(--bench-stop);
      }
      p {
        font: var(--bench-font-aside);
      }
    `,
  ];

  @property({ attribute: false }) store: LibraryStore | undefined;
  /** Copies that the maker has decided on. */
  @state() private done: ReadonlySet<string> = new Set();
  @state() private busy = false;

  private listening: AbortController | undefined;

  override connectedCallback() {
    super.connectedCallback();
    this.listening = new AbortController();
    const { signal } = this.listening;
    // A window that is put away may not come back: what waits is written now.
    document.addEventListener('visibilitychange', () => void this.store?.copy?.mirroring.flush(), { signal });
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.listening?.abort();
  }

  private async decide(deviceId: string, work: () => Promise<unknown>) {
    this.busy = true;
    try {
      await work();
      this.done = new Set([...this.done, deviceId]);
      await this.store?.refresh();
    } catch (error) {
      this.store?.tell(error);
    } finally {
      this.busy = false;
    }
  }

  private handleBack({ deviceId }: LostCopy) {
    void this.decide(deviceId, () => this.store!.copy!.bringBack(deviceId));
  }

  private handleLeave({ deviceId }: LostCopy) {
    void this.decide(deviceId, () => this.store!.copy!.leave(deviceId));
  }

  override render() {
    const lost = (this.store?.copy?.lost ?? []).filter(({ deviceId }) => !this.done.has(deviceId));
    return lost.length === 0 ? nothing : lost.map((copy) => this.renderLost(copy));
  }

  private renderLost(copy: LostCopy) {
    const lost = thingsIn(copy.report);
    const them = lost === 1 ? 'it' : 'them';
    return html`<section role="alert" aria-label="A lost library">
      ${
        lost > 0
          ? html`<p>
              The browser has lost ${lost === 1 ? 'one thing' : `${lost} things`} of the library, but the
              second copy still has ${them}. Bringing ${them} back overwrites nothing that is here now.
            </p>`
          : nothing
      }
      ${copy.unreadable.length > 0 ? html`<p>${unreadableWords(copy.unreadable)}</p>` : nothing}
      ${lost > 0 ? html`<button ?disabled=${this.busy} @click=${() => this.handleBack(copy)}>Bring it back</button>` : nothing}
      <button ?disabled=${this.busy} @click=${() => this.handleLeave(copy)}>Leave it</button>
    </section>`;
  }
}
