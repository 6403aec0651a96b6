import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { trialSchema, type Trial } from '../../shared/trial.ts';
import { nearestNote } from '../../src/climate/pitch.ts';
import type { Crow } from '../../src/crow/crow.ts';
import '../caution/caution.ts';
import '../crow/crow-listener.ts';
import type { CrowHeardEvent } from '../crow/crow-listener.ts';
import { markField, readFields, renderFields } from '../forms/typed-form.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import { AIR_FIELDS, CROW_FIELDS, crowSchema, PLAYING_FIELDS, readNotes } from './trial-fields.ts';
import './trial-list.ts';

const round1 = (value: number) => Math.round(value * 10) / 10;

/** How a reed played after a pass: what was played before, and a new trial by ear or with the microphone. */
@customElement('bench-trials')
export class Trials extends LitElement {
  static override styles = [
    base,
    controls,
    forms,
    fields,
    pages,
    css`
      h3 {
        margin: var(--bench-space-2) 0 0;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  @query('form') private readonly form!: HTMLFormElement;
  @state() private problem = '';
  @state() private heard: Crow | undefined;

  @property({ attribute: false }) reed: Reed | undefined;
  /** The pass that a new trial follows. */
  @property({ attribute: false }) pass: Pass | undefined;

  private handleHeard({ crow }: CrowHeardEvent) {
    this.heard = crow;
    const { note, cents } = nearestNote(crow.hz, this.library.choices.pitchHz);
    this.fill('lowestNote', note);
    this.fill('cents', String(Math.round(cents)));
  }

  private fill(name: string, text: string) {
    const field = this.form.elements.namedItem(name);
    if (field instanceof HTMLInputElement) field.value = text;
  }

  /** What the microphone adds, as long as its note still stands in the form. */
  private fromMicrophone(lowestNote: string | undefined): Partial<Trial['crow'] & object> {
    const { heard } = this;
    if (!heard || nearestNote(heard.hz, this.library.choices.pitchHz).note !== lowestNote) return {};
    return {
      from: 'microphone',
      hz: round1(heard.hz),
      uCents: round1(heard.uCents),
      wanderCents: round1(heard.wanderCents),
      ...(heard.octaveBalanceDb && { octaveBalanceDb: round1(heard.octaveBalanceDb.value) }),
    };
  }

  private typed(data: FormData) {
    const pitchCents = readNotes(String(data.get('pitch') ?? ''));
    if (typeof pitchCents === 'string') return { problem: pitchCents, name: 'pitch' };
    const crow = readFields(data, CROW_FIELDS, crowSchema);
    const playing = readFields(data, [...PLAYING_FIELDS, ...AIR_FIELDS], trialSchema);
    if ('problem' in crow) return crow;
    if ('problem' in playing) return playing;
    const heardCrow = Object.values(crow.values).some((value) => value !== undefined);
    return {
      values: {
        ...playing.values,
        pitchCents,
        ...(heardCrow && { crow: { ...crow.values, ...this.fromMicrophone(crow.values.lowestNote) } }),
      },
    };
  }

  private async handleKeep(event: SubmitEvent) {
    event.preventDefault();
    const { reed, pass, form } = this;
    const { store } = this.library;
    if (!reed || !store) return;
    const typed = this.typed(new FormData(form));
    this.problem = 'problem' in typed ? typed.problem : '';
    markField(form, 'problem' in typed ? typed.name : undefined);
    if ('problem' in typed) return;
    const trial = {
      kind: 'trial' as const,
      reedId: reed.id,
      ...(pass && { afterPass: pass.index }),
      playedAt: store.ledger.now(),
      ...typed.values,
    };
    if (!(await store.keep([trial], `playing ${reed.label}`))) return;
    form.reset();
    this.heard = undefined;
  }

  override render() {
    const { reed, pass } = this;
    const { store } = this.library;
    if (!reed || !store) return nothing;
    const { pitchHz, decimal } = this.library.choices;
    return html`<section>
      <h2>Played</h2>
      <bench-trial-list
        .trials=${store.trialsOf(reed.id)}
        .decimal=${decimal}
        .standardHz=${pitchHz}
      ></bench-trial-list>
      <form @submit=${this.handleKeep} @bench-crow-heard=${this.handleHeard}>
        <p class="quiet">
          A new trial${pass ? `, after pass ${pass.index}` : ''}. Leave blank what you did not try.
        </p>
        <bench-crow-listener .standardHz=${pitchHz} .decimal=${decimal}></bench-crow-listener>
        <div class="fields">${renderFields(CROW_FIELDS)}</div>
        <label
          >Notes and their cents at A ${pitchHz}, as A4 +2, D5 −3<input name="pitch" autocomplete="off"
        /></label>
        <div class="fields">${renderFields(PLAYING_FIELDS)}</div>
        <details>
          <summary>The room it was played in</summary>
          <div class="fields">${renderFields(AIR_FIELDS)}</div>
        </details>
        ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
        <div class="acts"><button class="main">Keep this trial</button></div>
      </form>
      <bench-caution about="mouth sharing"></bench-caution>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-trials': Trials;
  }
}
