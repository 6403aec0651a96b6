import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { keyed } from 'lit/directives/keyed.js';
import { passSchema, type Pass, type PassFacts, type PassHead } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { withBelongings } from '../../src/reed/belonging.ts';
import '../caution/caution.ts';
import { hrefOf } from '../frame/routes.ts';
import { markField, readFields, renderFields, type Field } from '../forms/typed-form.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import '../trials/trials.ts';
import '../tying/own-lengths.ts';
import '../tying/tying.ts';
import './reed-files.ts';

const STATES: readonly Reed['state'][] = ['blank', 'scraping', 'playing', 'resting', 'practice', 'retired'];
const PASS_FIELDS: readonly Field<Extract<keyof Pass, string>>[] = [
  { name: 'overallLengthMm', words: 'Overall length, mm', kind: 'number' },
  { name: 'clipMm', words: 'Clipped before it, mm', kind: 'number' },
  { name: 'soakMin', words: 'Soaked, minutes', kind: 'number' },
  { name: 'openingMm', words: 'Opening, mm', kind: 'number' },
  { name: 'temperatureC', words: 'Room, °C', kind: 'number' },
  { name: 'humidityPct', words: 'Room, % humidity', kind: 'number' },
  { name: 'note', words: 'Note', kind: 'long' },
];

/** What is known of a reed and of one pass besides its readings: notes, trials, favourite, and what to do with it. */
@customElement('bench-notes')
export class Notes extends LitElement {
  static override styles = [
    base,
    controls,
    forms,
    fields,
    pages,
    css`
      .columns {
        display: grid;
        grid-template-columns: minmax(0, 1fr) minmax(0, 1fr) minmax(220px, 300px);
        gap: var(--bench-space-6);
        max-width: 1320px;
        padding: var(--bench-space-5) var(--bench-page-margin) var(--bench-space-7);
      }
      .columns > div {
        display: grid;
        gap: var(--bench-space-6);
        align-content: start;
      }
      .acts {
        align-items: end;
      }
      @media (max-width: 1100px) {
        .columns {
          grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
        }
        bench-trials {
          grid-row: span 2;
        }
      }
      @media (max-width: 700px) {
        .columns {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);

  @property({ attribute: false }) reed: Reed | undefined;
  @property({ attribute: false }) pass: Pass | PassHead | undefined;
  @state() private problem = '';

  private async handlePass(event: SubmitEvent) {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const { pass } = this;
    if (!pass) return;
    const typed = readFields(new FormData(form), PASS_FIELDS, passSchema);
    this.problem = 'problem' in typed ? typed.problem : '';
    markField(form, 'problem' in typed ? typed.name : undefined);
    const store = this.library.store!;
    const latest = () => store.passesOf(pass.reedId).find(({ id }) => id === pass.id) ?? pass;
    if ('values' in typed)
      await store.keepLatest(() => [{ ...latest(), ...typed.values }], `notes of pass ${pass.index}`);
  }

  private keepReed(change: Partial<Reed>, label: string) {
    const [reed, store] = [this.reed!, this.library.store!];
    void store.keepLatest(() => [{ ...(store.reed(reed.id) ?? reed), ...change }], label);
  }

  private handleFavourite() {
    const { reed, pass } = this;
    if (!reed || !pass) return;
    const since = this.library.store!.ledger.now();
    if (reed.favourite) this.keepReed({ favourite: undefined }, `${reed.label} no longer a favourite`);
    else this.keepReed({ favourite: { passIndex: pass.index, since } }, `${reed.label} as a favourite`);
  }

  private handleState(event: Event) {
    this.keepReed(
      { state: (event.target as HTMLSelectElement).value as Reed['state'] },
      `state of ${this.reed!.label}`,
    );
  }

  private handleRemove() {
    const { reed, library } = this;
    if (!reed || !library.store) return;
    const documents = Object.values(library.store.snapshot.live).flat();
    void library.store.remove(withBelongings(documents, reed.id), `${reed.label} into the bin`);
    location.hash = hrefOf({ at: 'case' });
  }

  private handleRemovePass(pass: PassFacts) {
    const { reed, library } = this;
    if (!reed || !library.store) return;
    void library.store.remove([pass.id], `pass ${pass.index} of ${reed.label} into the bin`);
    location.hash = hrefOf({ at: 'bench', reedId: reed.id, question: 'notes' });
  }

  override render() {
    const { reed, pass } = this;
    if (!reed) return nothing;
    return html`<div class="columns">
      ${keyed(
        reed.id,
        html`<bench-trials .reed=${reed} .pass=${pass}></bench-trials>
          <bench-tying .reed=${reed}></bench-tying>`,
      )}
      <div>
        ${pass ? keyed(pass.id, this.renderPass(pass)) : nothing} ${this.renderReed(reed)}
        ${keyed(reed.id, html`<bench-own-lengths .reed=${reed} .pass=${pass}></bench-own-lengths>`)}
        <bench-reed-files .reed=${reed} .pass=${pass}></bench-reed-files>
      </div>
    </div>`;
  }

  private renderPass(pass: PassFacts) {
    return html`<section>
      <h2>Pass ${pass.index}</h2>
      <form @submit=${this.handlePass}>
        <div class="fields">${renderFields(PASS_FIELDS, pass, this.library.writing)}</div>
        ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
        <div class="acts">
          <button class="main">Keep</button>
          <button type="button" @click=${() => this.handleRemovePass(pass)}>
            Put pass ${pass.index} into the bin
          </button>
        </div>
      </form>
    </section>`;
  }

  private renderReed(reed: Reed) {
    return html`<section>
      <h2>The reed</h2>
      <div class="acts">
        <label
          >State<select @change=${this.handleState}>
            ${STATES.map((name) => html`<option ?selected=${name === reed.state}>${name}</option>`)}
          </select></label
        >
        <button
          ?disabled=${!this.pass}
          aria-pressed=${reed.favourite ? 'true' : 'false'}
          @click=${this.handleFavourite}
        >
          ${reed.favourite ? `Favourite, as of pass ${reed.favourite.passIndex}` : 'Mark as favourite'}
        </button>
        <button @click=${this.handleRemove}>Put into the bin</button>
      </div>
      <bench-caution about="mould"></bench-caution>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-notes': Notes;
  }
}
