import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { retirementSchema, type Reed } from '../../shared/reed.ts';
import { readFields, renderFields, type Field } from '../forms/typed-form.ts';
import { dayWords } from '../../src/words/day-words.ts';
import { hrefOf } from '../frame/routes.ts';
import { WrittenForm } from './written-form.ts';

const FIELDS: readonly Field<keyof typeof retirementSchema.shape>[] = [
  {
    name: 'cause',
    words: 'What ended it',
    kind: 'steps',
    options: retirementSchema.shape.cause.options.map((cause) => [cause, cause] as const),
  },
  { name: 'on', words: 'Ended on', kind: 'day' },
  { name: 'lesson', words: 'One sentence: what to do differently', kind: 'long' },
];
const fieldsSchema = retirementSchema.partial();

/** Ends a reed, with a cause and one sentence for the next; mends that, or brings the reed back. */
@customElement('bench-retire-form')
export class RetireForm extends WrittenForm {
  static override styles = [...WrittenForm.styles, css``];

  private shown: Reed['retirement'];

  @property({ attribute: false }) reed: Reed | undefined;

  override willUpdate() {
    if (!this.keeping.isWriting) this.shown = this.reed?.retirement;
  }

  private get today(): string {
    return this.library.store!.ledger.now().slice(0, 10);
  }

  private typed() {
    if (!this.form) return undefined;
    const typed = readFields(new FormData(this.form), FIELDS, fieldsSchema);
    this.tell('problem' in typed ? typed : undefined);
    if ('problem' in typed) return undefined;
    const { cause, on = this.today, lesson } = typed.values;
    if (cause) return { on, cause, ...(lesson !== undefined && { lesson }) };
    this.problem = 'Choose what ended it: the bench learns how long reeds last from that.';
    return undefined;
  }

  /** Before the reed is retired nothing is kept: that is an act of its own. */
  protected override keep() {
    if (this.reed?.state === 'retired') this.retire('the end of');
  }

  private handleRetire(event: SubmitEvent) {
    event.preventDefault();
    this.retire('retiring');
  }

  private retire(words: string) {
    const retirement = this.typed();
    if (retirement)
      this.change((reed) => ({ ...reed, slot: undefined, state: 'retired', retirement }), words);
  }

  private handleBack() {
    this.change((reed) => ({ ...reed, retirement: undefined, state: 'resting' }), 'bringing back');
  }

  private change(change: (reed: Reed) => Reed, words: string) {
    const [reed, store] = [this.reed!, this.library.store!];
    void store.keepLatest(() => [change(store.reed(reed.id) ?? reed)], `${words} ${reed.label}`);
  }

  override render() {
    const { reed, problem } = this;
    const { store } = this.library;
    if (!reed || !store) return nothing;
    const isRetired = reed.state === 'retired';
    const { retirement } = reed;
    return html`<section>
      <h2>
        ${isRetired ? `Retired${retirement ? ` on ${dayWords(retirement.on)}: ${retirement.cause}` : ''}` : 'Not retired; a retired reed keeps its label and its readings'}
      </h2>
      <p class="aside">${this.lastMap(reed)}</p>
      <form @submit=${this.handleRetire} @input=${this.keeping.written} @change=${this.keeping.written}>
        <div class="fields">
          ${renderFields(FIELDS, { ...(!isRetired && { on: this.today }), ...this.shown })}
        </div>
        ${problem ? html`<p class="problem" role="alert">${problem}</p>` : nothing}
        <div class="acts">
          ${
            isRetired
              ? html`<button type="button" @click=${this.handleBack}>Bring back</button>`
              : html`<button class="main">Retire</button>
                  <a href=${hrefOf({ at: 'round', reedId: reed.id })}>Read it all over once more</a>`
          }
        </div>
      </form>
      <p class="quiet">
        ${isRetired ? 'Kept as you write.' : 'It leaves the case for the drawer. “Bring back” undoes this at any time.'}
      </p>
    </section>`;
  }

  /** What would be lost: the last pass that was read all over, as far as its number of readings tells. */
  private lastMap(reed: Reed): string {
    const passes = this.library.store!.passesOf(reed.id).filter(({ readingCount }) => readingCount > 0);
    const most = Math.max(0, ...passes.map(({ readingCount }) => readingCount));
    const fullest = passes.findLast(({ readingCount }) => readingCount === most);
    if (!fullest) return 'It was never read: once gone, nothing tells what it was like.';
    const day = fullest.takenAt ? `, ${dayWords(fullest.takenAt)}` : '';
    const since = fullest === passes.at(-1) ? '' : ' It was changed since.';
    return `Last read most fully in pass ${fullest.index}${day}: ${most} readings.${since}`;
  }
}
