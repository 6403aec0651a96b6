import { css, html, LitElement, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { LibraryDocument } from '../../shared/library.ts';
import type { Health } from '../../src/ledger/health.ts';
import { UNIT_WORDS } from '../../src/report/format.ts';
import { hrefOf } from '../frame/routes.ts';
import type { Choices } from '../store/choices.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import './copies.ts';

/** A row of the list: a choice, its words, and what may be chosen. */
interface Row<K extends keyof Choices> {
  readonly key: K;
  readonly words: string;
  readonly options: readonly (readonly [value: Choices[K], words: string])[];
}

const row = <K extends keyof Choices>(key: K, words: string, options: Row<K>['options']): Row<K> => ({
  key,
  words,
  options,
});

const ROWS = [
  row('unit', 'Unit of thickness', [
    ['hundredths', UNIT_WORDS.hundredths.name],
    ['mm', UNIT_WORDS.mm.name],
    ['thou', UNIT_WORDS.thou.name],
  ]),
  row('decimal', 'Decimal sign', [
    ['point', 'point: 0.46'],
    ['comma', 'comma: 0,46'],
  ]),
  row('theme', 'Look', [
    ['system', 'as the system'],
    ['day', 'day'],
    ['dark', 'dark'],
    ['lamp', 'lamp: warm and dim'],
  ]),
  row('textScale', 'Size of text', [
    [0.9, 'smaller'],
    [1, 'usual'],
    [1.2, 'larger'],
    [1.5, 'largest'],
  ]),
  row('handedness', 'Hand that holds the knife', [
    ['right', 'right'],
    ['left', 'left'],
  ]),
  row(
    'pitchHz',
    'Your A',
    [438, 440, 441, 442, 443, 444, 446].map((hz) => [hz, `${hz} Hz`] as const),
  ),
  row('letterKeys', 'Keys of one letter', [
    [true, 'on'],
    [false, 'off'],
  ]),
  row('sounds', 'Sounds in a round', [
    ['off', 'none'],
    ['tones', 'tones'],
    ['speech', 'spoken'],
  ]),
] as const;

/** The maker's choices, how the library is kept, copies of it, and the bin. */
@customElement('bench-setup')
export class SetupScreen extends LitElement {
  static override styles = [
    base,
    controls,
    css`
      .page {
        display: grid;
        gap: var(--bench-space-5);
        max-width: 760px;
        padding: var(--bench-space-5) var(--bench-page-margin) var(--bench-space-7);
      }
      h1 {
        margin: 0;
        font: var(--bench-font-say);
      }
      h2 {
        margin: 0 0 var(--bench-space-2);
        font: var(--bench-font-head);
      }
      .row,
      li {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-2) var(--bench-space-4);
        align-items: center;
        justify-content: space-between;
        padding: var(--bench-space-2) 0;
        border-top: 1px solid var(--bench-rule);
      }
      select {
        min-height: var(--bench-touch);
        min-width: 14em;
        padding: 0 var(--bench-space-2);
        border: 1px solid var(--bench-rule2);
        border-radius: var(--bench-radius-control);
        background: var(--bench-plate);
        color: var(--bench-ink);
        font: var(--bench-font-body);
      }
      ul {
        margin: 0;
        padding: 0;
        list-style: none;
      }
      p {
        margin: 0;
        color: var(--bench-ink2);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  @state() private health: Health | undefined;

  override connectedCallback() {
    super.connectedCallback();
    void this.readHealth();
  }

  private async readHealth(): Promise<void> {
    await this.updateComplete;
    this.health = await this.library.store?.ledger.health();
  }

  private handleChoice(key: keyof Choices, event: Event) {
    const at = Number((event.target as HTMLSelectElement).value);
    const options = ROWS.find((one) => one.key === key)!.options;
    void this.library.store?.choose({ [key]: options[at]![0] });
  }

  private async handlePersist() {
    await this.library.store?.ledger.requestPersistence();
    await this.readHealth();
  }

  private handleRestore({ id }: LibraryDocument) {
    void this.library.store?.restore([id], 'out of the bin');
  }

  override render() {
    const { store } = this.library;
    if (!store) return nothing;
    const { choices } = this.library;
    return html`<div class="page">
      <h1>Setup</h1>
      <section>
        ${ROWS.map(
          ({ key, words, options }) =>
            html`<div class="row">
              <label for=${key}>${words}</label>
              <select id=${key} @change=${(event: Event) => this.handleChoice(key, event)}>
                ${options.map(
                  ([value, name], i) =>
                    html`<option value=${i} ?selected=${value === choices[key]}>${name}</option>`,
                )}
              </select>
            </div>`,
        )}
        <div class="row">
          <span>Grids and rounds</span>
          <a href=${hrefOf({ at: 'grids' })}>Change the rounds and their stations</a>
        </div>
      </section>
      <section>
        <h2>Keeping and copies</h2>
        ${this.renderHealth()}
        <bench-copies></bench-copies>
      </section>
      ${this.renderBin(store.snapshot.deleted)}
    </div>`;
  }

  private renderHealth() {
    const { health } = this;
    if (!health) return nothing;
    return html`<div class="row">
      <p>
        ${health.persisted ? 'The browser has promised not to clear the library away.' : 'The browser may clear the library away when the disk is full. Keep copies.'}
      </p>
      ${health.persisted ? nothing : html`<button @click=${this.handlePersist}>Ask it to keep it</button>`}
    </div>`;
  }

  private renderBin(deleted: readonly LibraryDocument[]) {
    const reeds = deleted.filter((document) => document.kind === 'reed' || document.kind === 'pass');
    const nameOf = (document: LibraryDocument) => {
      if (document.kind === 'reed') return document.label;
      if (document.kind !== 'pass') return document.kind;
      const reed = [...this.library.store!.reeds, ...deleted.filter((one) => one.kind === 'reed')].find(
        ({ id }) => id === document.reedId,
      );
      return `${reed?.label ?? 'a reed'}, pass ${document.index}`;
    };
    return html`<section>
      <h2>The bin</h2>
      ${
        reeds.length === 0
          ? html`<p>The bin is empty.</p>`
          : html`<ul>
              ${reeds.map(
                (document) =>
                  html`<li>
                    ${nameOf(document)}<button @click=${() => this.handleRestore(document)}>
                      Bring back
                    </button>
                  </li>`,
              )}
            </ul>`
      }
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-setup': SetupScreen;
  }
}
