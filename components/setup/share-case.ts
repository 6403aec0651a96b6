import { css, html, LitElement, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { InputError } from '../../shared/errors.ts';
import type { Role } from '../../src/sharing/chosen.ts';
import { sharedAddress } from '../../src/sharing/address.ts';
import { stateWords, waitingWords } from '../../src/sharing/sharing-words.ts';
import { sharedCaseOf, type Entered, type SharedCase } from '../sharing/shared-case.ts';
import { LibraryController } from '../store/library-controller.ts';
import type { LibraryStore } from '../store/library-store.ts';
import { base, controls } from '../theme/base.styles.ts';
import { forms } from '../theme/forms.styles.ts';
import { rows } from './setup.styles.ts';

const ROLES: readonly (readonly [Role, string])[] = [
  ['own', 'one of my own: everything goes both ways'],
  ['class', 'one of a class or a workshop: reeds go both ways, my choices in Setup stay here'],
  ['guest', 'a guest: reads, and sends nothing'],
];

/** What a device of each kind does with its changes. */
const OF_ROLE: Readonly<Record<Role, string>> = {
  own: 'Everything goes both ways.',
  class: 'Reeds go both ways, and what is read here bears this name.',
  guest: 'A guest reads: what you change here stays here.',
};

/** One case on several devices, through a server that the maker chooses: try it, share, pause, leave. */
@customElement('bench-share-case')
export class ShareCase extends LitElement {
  static override styles = [
    base,
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

  private handleTry(event: SubmitEvent) {
    event.preventDefault();
    const data = new FormData(event.target as HTMLFormElement);
    const text = (name: string) => String(data.get(name) ?? '');
    try {
      const address = sharedAddress(text('address'));
      const chosen = {
        role: text('role') as Role,
        tags: data.getAll('tag').map(String),
        photos: data.has('photos'),
        notes: data.has('notes'),
      };
      this.problem = '';
      this.act(
        this.shared!.try({
          address,
          name: text('name'),
          password: text('password'),
          passphrase: text('passphrase'),
          chosen,
        }),
      );
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      this.problem = error.message;
    }
  }

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

  private renderForm(store: LibraryStore, entered: Entered | undefined) {
    const { chosen, address = '' } = entered ?? {};
    const tags = [...new Set(store.reeds.flatMap((reed) => reed.tags))].sort();
    return html`<form @submit=${this.handleTry} autocomplete="off">
      <label class="wide"
        >Address of the case<input
          name="address"
          inputmode="url"
          required
          maxlength="400"
          placeholder="https://server.example/case"
          .value=${address}
          aria-invalid=${this.problem ? 'true' : nothing}
          aria-describedby="problem"
      /></label>
      <p class="problem" id="problem" role="alert" ?hidden=${!this.problem}>${this.problem}</p>
      ${this.renderLogin(entered)}
      <label class="wide"
        >This device is<select name="role">
          ${ROLES.map(([role, words]) => html`<option value=${role} ?selected=${chosen?.role === role}>${words}</option>`)}
        </select></label
      >
      ${tags.length > 0 ? this.renderTags(tags, chosen?.tags ?? []) : nothing}
      <fieldset>
        <legend>What goes with them</legend>
        <label class="tick"
          ><input type="checkbox" name="photos" ?checked=${chosen?.photos ?? true} />photographs</label
        >
        <label class="tick"
          ><input type="checkbox" name="notes" ?checked=${chosen?.notes ?? true} />notes, and all else in my
          own words</label
        >
      </fieldset>
      <button>Try it</button>
      <p class="wide">
        Name, password and passphrase are kept on this device alone, in no copy and no report.
      </p>
    </form>`;
  }

  private renderLogin(entered: Entered | undefined) {
    const { name = '', password = '', passphrase = '' } = entered ?? {};
    return html`<label
        >Name<input name="name" required maxlength="80" autocomplete="off" .value=${name}
      /></label>
      <label
        >Password<input
          name="password"
          type="password"
          required
          maxlength="200"
          autocomplete="off"
          .value=${password}
      /></label>
      <label class="wide"
        >Passphrase, if what is sent is to be locked, the same on all devices<input
          name="passphrase"
          type="password"
          maxlength="400"
          autocomplete="off"
          .value=${passphrase}
      /></label>`;
  }

  private renderTags(tags: readonly string[], chosen: readonly string[]) {
    return html`<fieldset>
      <legend>Send only reeds with one of these tags; every reed where none is ticked</legend>
      ${tags.map(
        (tag) =>
          html`<label class="tick"
            ><input type="checkbox" name="tag" value=${tag} ?checked=${chosen.includes(tag)} />${tag}</label
          >`,
      )}
    </fieldset>`;
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
