import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Id } from '../../shared/ids.ts';
import type { PassFacts } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Trial } from '../../shared/trial.ts';
import { nearestNote } from '../../src/climate/pitch.ts';
import type { Crow } from '../../src/crow/crow.ts';
import '../caution/caution.ts';
import '../crow/crow-listener.ts';
import type { CrowHeardEvent } from '../crow/crow-listener.ts';
import { dayWords } from '../../src/words/day-words.ts';
import { renderFields } from '../forms/typed-form.ts';
import './note-field.ts';
import { TRIAL_PAGES, trialValues, withTyped, type TrialContent, type TrialField } from './trial-fields.ts';
import { noteText } from './trial-notes.ts';
import { WrittenForm } from './written-form.ts';

const NOTHING_YET: TrialContent = { pitchCents: [] };
const round1 = (value: number) => Math.round(value * 10) / 10;

/** A trial was begun by what was written first, or another blank one is wanted. */
export class TrialChosenEvent extends Event {
  readonly trialId: Id | undefined;
  constructor(trialId: Id | undefined) {
    super('bench-trial-chosen');
    this.trialId = trialId;
  }
}

/**
 * How a reed played after a pass, by ear or with the microphone: kept as it is written, in pages of at most eight fields.
 *
 * @event bench-trial-chosen - A new trial was begun, or is wanted.
 */
@customElement('bench-trial-form')
export class TrialForm extends WrittenForm {
  static override styles = [
    ...WrittenForm.styles,
    css`
      .fields {
        grid-template-columns: repeat(auto-fill, minmax(min(100%, 300px), 1fr));
        align-items: start;
      }
      .over,
      .under {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-2) var(--bench-space-4);
        align-items: center;
        justify-content: space-between;
      }
      h2 {
        font: var(--bench-font-aside);
      }
      section,
      form {
        gap: var(--bench-space-2);
      }
    `,
  ];

  private heard: Crow | undefined;
  private shown: TrialContent = NOTHING_YET;

  @property({ attribute: false }) reed: Reed | undefined;
  /** The pass that a new trial follows. */
  @property({ attribute: false }) pass: PassFacts | undefined;
  /** The trial that is written; a new one begins with the first thing written. */
  @property({ attribute: false }) trialId: Id | undefined;

  private get trial(): Trial | undefined {
    return this.trialOf(this.trialId);
  }

  private trialOf(trialId: Id | undefined): Trial | undefined {
    return this.library.store?.trialsOf(this.reed!.id).find(({ id }) => id === trialId);
  }

  private get fields(): readonly TrialField[] {
    return TRIAL_PAGES[this.page]!.fields;
  }

  override willUpdate() {
    if (!this.keeping.isWriting) this.shown = this.trial ?? NOTHING_YET;
  }

  protected override keep() {
    const { reed, form, fields } = this;
    if (!reed || !form || !this.library.store) return;
    const data = new FormData(form);
    const before = this.trial ?? NOTHING_YET;
    const typed = withTyped(before, data, fields);
    this.tell('problem' in typed ? typed : undefined);
    if ('problem' in typed || JSON.stringify(typed.trial) === JSON.stringify(before)) return;
    this.write((trial) => {
      const now = withTyped(trial, data, fields);
      return 'trial' in now ? now.trial : trial;
    });
  }

  /** Keeps what is made of the trial as it stands when its turn comes. */
  private write(change: (trial: TrialContent) => TrialContent) {
    const { reed, pass, trialId } = this;
    const store = this.library.store!;
    const id = trialId ?? store.ledger.newId();
    const begun = {
      kind: 'trial' as const,
      id,
      reedId: reed!.id,
      ...(pass && { afterPass: pass.index }),
      playedAt: store.ledger.now(),
    };
    void store.keepLatest(() => {
      const content = change(this.trialOf(id) ?? NOTHING_YET);
      const crow = content.crow && { ...content.crow, ...this.fromMicrophone(content.crow.lowestNote) };
      return [{ ...begun, ...content, ...(crow && { crow }) }];
    }, `playing ${reed!.label}`);
    if (trialId === id) return;
    this.trialId = id;
    this.dispatchEvent(new TrialChosenEvent(id));
  }

  private handleHeard({ crow }: CrowHeardEvent) {
    this.heard = crow;
    const { note, cents } = nearestNote(crow.hz, this.library.choices.pitchHz);
    this.write((trial) => ({
      ...trial,
      crow: { ...trial.crow, lowestNote: note, cents: Math.round(cents) },
    }));
    const field = this.renderRoot.querySelector<HTMLElement & { value: string }>('[name=crow]');
    if (field) field.value = noteText({ note, cents: Math.round(cents) }, this.library.writing);
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

  private handleAnother() {
    this.keeping.flush();
    this.heard = undefined;
    this.page = 0;
    this.dispatchEvent(new TrialChosenEvent(undefined));
  }

  private handleRemove() {
    void this.library.store!.remove([this.trialId!], `a trial of ${this.reed!.label}`);
    this.dispatchEvent(new TrialChosenEvent(undefined));
  }

  override render() {
    const { reed, pass, trial } = this;
    if (!reed || !this.library.store) return nothing;
    const { pitchHz, decimal } = this.library.choices;
    const after = trial ? trial.afterPass : pass?.index;
    return html`<section>
      <div class="over">
        <h2>
          ${trial ? dayWords(trial.playedAt) : 'Today'}${after === undefined ? '' : `, after pass ${after}`},
          at A ${pitchHz} Hz
        </h2>
        ${this.renderPages(TRIAL_PAGES)}
      </div>
      ${this.renderForm(
        this.fields.map((field) => this.renderField(field)),
        html`<div class="under">
            ${
              this.page === 0
                ? html`<bench-crow-listener
                    .standardHz=${pitchHz}
                    .decimal=${decimal}
                    @bench-crow-heard=${this.handleHeard}
                  ></bench-crow-listener>`
                : nothing
            }
            <p class="quiet" role="status">
              ${trial ? 'Kept as you write.' : 'Kept as you write; blank stays blank.'}
            </p>
            ${trial ? this.renderActs() : nothing}
          </div>
          ${this.renderProblem()}`,
      )}
      <bench-caution about="mouth sharing"></bench-caution>
    </section>`;
  }

  private renderActs() {
    return html`<div class="acts">
      <button type="button" @click=${this.handleAnother}>Another trial</button>
      <button type="button" @click=${this.handleRemove}>Put this trial into the bin</button>
    </div>`;
  }

  private renderField(field: TrialField) {
    const { writing } = this.library;
    const values = trialValues(this.shown, writing);
    if (field.usual === undefined) return renderFields([field], values, writing);
    return html`<bench-note-field
      name=${field.name}
      words=${field.words}
      hint=${field.hint ?? ''}
      usual=${field.usual}
      .value=${String(values[field.name] ?? '')}
      .uCents=${field.name === 'crow' ? this.shown.crow?.uCents : undefined}
      decimal=${writing.decimal}
      @input=${this.keeping.written}
      @change=${this.keeping.written}
    ></bench-note-field>`;
  }
}
