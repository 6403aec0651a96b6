import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Trial } from '../../shared/trial.ts';
import { hrefOf } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';

const STATES: readonly Reed['state'][] = ['blank', 'scraping', 'playing', 'resting', 'practice', 'retired'];
const VERDICTS: readonly NonNullable<Trial['verdict']>[] = [
  'concert',
  'rehearsal',
  'practice',
  'not yet',
  'no',
];

/** A text field's number with point or comma; undefined when it is blank, NaN when it is none. */
function numberIn(form: FormData, name: string): number | undefined {
  const text = String(form.get(name) ?? '').trim();
  return text === '' ? undefined : Number(text.replace(',', '.'));
}

const textIn = (form: FormData, name: string) => String(form.get(name) ?? '').trim() || undefined;

/** What is known of a reed and of one pass besides its readings: notes, trials, favourite, and what to do with it. */
@customElement('bench-notes')
export class Notes extends LitElement {
  static override styles = [
    base,
    controls,
    css`
      .columns {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(320px, 100%), 1fr));
        gap: var(--bench-space-6);
        max-width: 1180px;
        padding: var(--bench-space-5) var(--bench-page-margin) var(--bench-space-7);
      }
      h2 {
        margin: 0 0 var(--bench-space-3);
        font: var(--bench-font-head);
      }
      form,
      .acts {
        display: grid;
        gap: var(--bench-space-3);
        justify-items: start;
      }
      label {
        display: grid;
        gap: var(--bench-space-1);
        width: 100%;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      input,
      select,
      textarea {
        width: 100%;
        min-height: var(--bench-touch);
        padding: var(--bench-space-2);
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
      li {
        padding: var(--bench-space-2) 0;
        border-top: 1px solid var(--bench-rule);
      }
      .problem {
        margin: 0;
        color: var(--bench-stop);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);

  @property({ attribute: false }) reed: Reed | undefined;
  @property({ attribute: false }) pass: Pass | undefined;
  @state() private problem = '';

  private async handlePass(event: SubmitEvent) {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    const { pass } = this;
    if (!pass) return;
    const numbers = {
      overallLengthMm: numberIn(form, 'overall'),
      clipMm: numberIn(form, 'clip'),
      soakMin: numberIn(form, 'soak'),
      openingMm: numberIn(form, 'opening'),
      temperatureC: numberIn(form, 'temperature'),
      humidityPct: numberIn(form, 'humidity'),
    };
    const bad = Object.values(numbers).some(Number.isNaN);
    this.problem = bad
      ? 'One of these is not a number. Write it with a point or a comma, or leave it blank.'
      : '';
    if (bad) return;
    await this.library.store?.keep(
      [{ ...pass, ...numbers, note: textIn(form, 'note') }],
      `notes of pass ${pass.index}`,
    );
  }

  private async handleTrial(event: SubmitEvent) {
    event.preventDefault();
    const target = event.currentTarget as HTMLFormElement;
    const form = new FormData(target);
    const { reed, pass, library } = this;
    if (!reed || !library.store) return;
    const scale = (name: string) => numberIn(form, name);
    const trial = {
      kind: 'trial' as const,
      reedId: reed.id,
      ...(pass && { afterPass: pass.index }),
      playedAt: library.store.ledger.now(),
      pitchCents: [],
      response: scale('response'),
      resistance: scale('resistance'),
      stability: scale('stability'),
      verdict: textIn(form, 'verdict') as Trial['verdict'],
      words: textIn(form, 'words'),
    };
    if (await library.store.keep([trial], `playing ${reed.label}`)) target.reset();
  }

  private keepReed(change: Partial<Reed>, label: string) {
    void this.library.store?.keep([{ ...this.reed!, ...change }], label);
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
    const ids = [reed.id, ...library.store.passesOf(reed.id).map(({ id }) => id)];
    void library.store.remove(ids, `${reed.label} into the bin`);
    location.hash = hrefOf({ at: 'case' });
  }

  override render() {
    const { reed, pass } = this;
    if (!reed) return nothing;
    return html`<div class="columns">
      ${pass ? this.renderPass(pass) : nothing} ${this.renderTrials(reed)} ${this.renderReed(reed)}
    </div>`;
  }

  private renderPass(pass: Pass) {
    const field = (name: string, words: string, value: number | undefined) =>
      html`<label
        >${words}<input
          name=${name}
          inputmode="decimal"
          autocomplete="off"
          .value=${value === undefined ? '' : String(value)}
      /></label>`;
    return html`<section>
      <h2>Pass ${pass.index}</h2>
      <form @submit=${this.handlePass}>
        ${field('overall', 'Overall length, mm', pass.overallLengthMm)}
        ${field('clip', 'Clipped before it, mm', pass.clipMm)}
        ${field('soak', 'Soaked, minutes', pass.soakMin)} ${field('opening', 'Opening, mm', pass.openingMm)}
        ${field('temperature', 'Room, °C', pass.temperatureC)}
        ${field('humidity', 'Room, % humidity', pass.humidityPct)}
        <label>Note<textarea name="note" rows="3" .value=${pass.note ?? ''}></textarea></label>
        ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
        <button>Keep</button>
      </form>
    </section>`;
  }

  private renderTrials(reed: Reed) {
    const trials = this.library.store?.trialsOf(reed.id) ?? [];
    const scale = (name: string, words: string) =>
      html`<label
        >${words}<select name=${name}>
          <option value="">–</option>
          ${[1, 2, 3, 4, 5].map((step) => html`<option value=${step}>${step}</option>`)}
        </select></label
      >`;
    return html`<section>
      <h2>Played</h2>
      <ul>
        ${trials.map(
          ({ playedAt, afterPass, words, verdict, response, resistance, stability }) =>
            html`<li>
              ${playedAt.slice(0, 10)}${afterPass === undefined ? '' : `, after pass ${afterPass}`}:
              ${words ?? ''}
              ${[
                verdict,
                response && `response ${response}`,
                resistance && `resistance ${resistance}`,
                stability && `stability ${stability}`,
              ]
                .filter(Boolean)
                .join(', ')}
            </li>`,
        )}
      </ul>
      <form @submit=${this.handleTrial}>
        <label>In words<textarea name="words" rows="2"></textarea></label>
        ${scale('response', 'Response, 1 to 5')} ${scale('resistance', 'Resistance, 1 free to 5 hard')}
        ${scale('stability', 'Stability, 1 to 5')}
        <label
          >Verdict<select name="verdict">
            <option value="">–</option>
            ${VERDICTS.map((verdict) => html`<option>${verdict}</option>`)}
          </select></label
        >
        <button>Keep this trial</button>
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
      <p>
        Keep a mouldy reed out of the mouth, rinse and dry the others; a sore lip or a lasting cough is for a
        doctor.
      </p>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-notes': Notes;
  }
}
