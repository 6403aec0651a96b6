import { css, html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { InputError } from '../../shared/errors.ts';
import type { Role } from '../../src/sharing/chosen.ts';
import { stateWords, waitingWords } from '../../src/sharing/sharing-words.ts';
import { sharedCaseOf, type Entered, type SharedCase } from '../sharing/shared-case.ts';
import { LibraryController } from '../store/library-controller.ts';
import type { LibraryStore } from '../store/library-store.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { forms } from '../theme/forms.styles.ts';
import { rows } from './setup.styles.ts';
import { enteredIn, shareForm } from './share-form.ts';

/** What a device of each kind does with its changes. */
const OF_ROLE: Readonly<Record<Role, string>> = {
  own: 'Everything goes both ways.',
  class: 'Reeds go both ways, and what is read here bears this name.',
  guest: 'A guest reads what is there and cannot change it; reeds of your own stay here.',
};

/** One case on several devices, through a server that the maker chooses: try it, share, pause, leave. */
@customElement('bench-share-case')
export class ShareCase extends BenchElement {
  static override styles = [
    controls,
    rows,
    forms,
    css`
      fieldset {
        display: flex;
        flex: 1 1 100%;
        flex-wrap: wrap;
        gap: 0 var(--bench-space-4);
        margin: 0;
        padding: 0;
        border: 0;
      }
      legend {
        padding: 0;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      p.wide {
        flex-basis: 100%;
        font: var(--bench-font-caption);
      }
      [hidden] {
        display: none;
      }
      form {
        padding: var(--bench-space-3) 0;
        border-top: 1px solid var(--bench-rule);
      }
      progress {
        width: 100%;
        accent-color: var(--bench-ink);
      }
      li {
        overflow-wrap: anywhere;
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  private listening: AbortController | undefined;
  private shared: SharedCase | undefined;
  @state() private problem = '';
  @state() private isOpen = false;

  override willUpdate() {
    const { store } = this.library;
    if (store && !this.shared) this.attach(store);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.listening?.abort();
    this.shared = undefined;
  }

  private attach(store: LibraryStore) {
    this.shared = sharedCaseOf(store);
    this.listening = new AbortController();
    const { signal } = this.listening;
    this.shared.addEventListener('bench-shared-case', () => this.requestUpdate(), { signal });
  }

  /** Does what was asked for; what goes wrong is said in the one place for it. */
  private act(work: Promise<void>) {
    work.catch((error: unknown) => this.library.store?.tell(error));
  }

  private readonly handleTry = (event: SubmitEvent) => {
    event.preventDefault();
    try {
      const entered = enteredIn(event.target as HTMLFormElement);
      this.problem = '';
      this.act(this.shared!.try(entered));
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      this.problem = error.message;
    }
  };

  override render() {
    const { shared } = this;
    const { store } = this.library;
    if (!shared || !store || !store.ledger.writable) return nothing;
    const { entered } = shared;
    return html`<section>
      <h2>Share this case</h2>
      ${entered && entered.is !== 'tried' ? this.renderShared(shared, entered) : this.renderTrial(shared, store)}
    </section>`;
  }

  private renderTrial(shared: SharedCase, store: LibraryStore) {
    const { entered } = shared;
    if (!entered && !this.isOpen)
      return html`<div class="row">
        <p>
          Several devices, a class or a workshop can have one case, through a server of your own choice. Until
          then nothing leaves this device.
        </p>
        <button @click=${() => (this.isOpen = true)}>Enter an address</button>
      </div>`;
    return html`${this.renderForm(store, entered)} ${entered ? this.renderOutcome(shared) : nothing}`;
  }

  private renderOutcome({ trial }: SharedCase) {
    return html`<div class="row">
      <p class=${trial?.isGood === false ? 'warning' : ''} role="status">
        ${trial ? trial.words : 'The server is being asked.'}
        ${trial?.isGood ? html`<small>Nothing was sent yet.</small>` : nothing}
      </p>
      <div class="acts">
        ${trial?.isGood ? html`<button @click=${() => this.act(this.shared!.share())}>Share this case</button>` : nothing}
        <button @click=${() => this.act(this.shared!.leave())}>Forget the address</button>
      </div>
    </div>`;
  }

  private renderForm({ reeds }: LibraryStore, entered: Entered | undefined) {
    const tags = [...new Set(reeds.flatMap((reed) => reed.tags))].sort();
    const { problem, handleTry } = this;
    return shareForm({ entered, tags, problem, handleTry });
  }

  private renderShared(shared: SharedCase, { address, name, is, chosen }: Entered) {
    const { sharing } = shared;
    const now = sharing?.state;
    const words =
      is === 'paused' ? 'Paused.' : now ? stateWords(now) : 'Another window of the bench shares this case.';
    const waits = sharing && waitingWords(sharing.waiting);
    const isStopped = is === 'paused' || now?.is === 'trouble';
    return html`<div class="row">
        <p class=${now?.is === 'trouble' ? 'warning' : ''} role="status">
          ${words} ${waits ? `${waits}.` : nothing}
          <small>${address}, as ${name}. ${OF_ROLE[chosen.role]}</small>
          ${now?.is === 'copying' ? html`<progress max="1" .value=${now.share} aria-label=${words}></progress>` : nothing}
        </p>
        <div class="acts">
          ${
            isStopped
              ? html`<button @click=${() => this.act(shared.share())}>Go on</button>`
              : html`<button @click=${() => this.act(shared.pause())}>Pause</button>`
          }
          <button @click=${() => this.act(shared.leave())}>Leave; everything here stays</button>
        </div>
      </div>
      ${sharing && sharing.refused.length > 0 ? this.renderRefused(sharing.refused) : nothing}`;
  }

  private renderRefused(refused: readonly { readonly id: string; readonly why: string }[]) {
    return html`<details>
      <summary>What was refused last</summary>
      <ul>
        ${refused.map(
          ({ id, why }) =>
            html`<li>
              <p>${why}<small>${id}</small></p>
            </li>`,
        )}
      </ul>
    </details>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-share-case': ShareCase;
  }
}
