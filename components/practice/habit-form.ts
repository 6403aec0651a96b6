import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { habitSchema, signSchema, type Sign } from '../../shared/habit.ts';
import type { OwnHabit } from '../../src/plan/own-habits.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { fields, forms } from '../theme/forms.styles.ts';

const PHRASES = [
  ['symptom', 'What is heard or felt'],
  ['lookAt', 'What to look at in the figures'],
  ['longScrape', 'Long scrape: where'],
  ['shortScrape', 'Short scrape: where'],
  ['action', 'What to try, with care'],
  ['risk', 'What may go wrong'],
  ['whoSays', 'Who says so'],
] as const;

const SIGN_WORDS: Readonly<Record<Sign['is'], string>> = {
  over: 'thicker than what I follow',
  under: 'thinner than what I follow, or at its floor',
  uneven: 'uneven',
};

/** What can be typed of a row. */
const typedSchema = habitSchema.pick({
  symptom: true,
  lookAt: true,
  longScrape: true,
  shortScrape: true,
  action: true,
  risk: true,
  whoSays: true,
  signs: true,
});
export type TypedHabit = ReturnType<typeof typedSchema.parse>;

/** A row was typed and is sound. */
export class HabitTypedEvent extends Event {
  readonly typed: TypedHabit;
  constructor(typed: TypedHabit) {
    super('bench-habit-typed');
    this.typed = typed;
  }
}

/**
 * The form of one row of the maker's table.
 *
 * @event bench-habit-typed - The row was typed and is sound.
 * @event bench-habit-leave - It is to stay as it was.
 */
@customElement('bench-habit-form')
export class HabitForm extends BenchElement {
  static override styles = [
    controls,
    forms,
    fields,
    css`
      p {
        margin: 0;
      }
    `,
  ];

  /** Zones of all styles, each name once with its title. */
  @property({ attribute: false }) zones: readonly (readonly [name: string, title: string])[] = [];
  @property({ attribute: false }) habit: OwnHabit | undefined;
  @state() private problem = '';

  private handleSubmit(event: SubmitEvent) {
    event.preventDefault();
    const data = new FormData(event.currentTarget as HTMLFormElement);
    const phrases = Object.fromEntries(
      PHRASES.map(([name]) => [name, String(data.get(name) ?? '').trim() || undefined]),
    );
    const signs = this.zones.flatMap(([zone]) => {
      const sign = signSchema.safeParse({ zone, is: data.get(`sign ${zone}`) });
      return sign.success ? [sign.data] : [];
    });
    const filled = { ...phrases, lookAt: phrases['lookAt'] ?? '', action: phrases['action'] ?? '' };
    const result = typedSchema.safeParse({ ...filled, signs });
    if (!result.success) {
      const at = PHRASES.find(([name]) => name === result.error.issues[0]?.path[0])?.[1];
      this.problem = `${at ?? 'The row'}: write one to 240 letters.`;
      return;
    }
    this.problem = '';
    this.dispatchEvent(new HabitTypedEvent({ ...phrases, ...result.data }));
  }

  override render() {
    const { habit, problem } = this;
    if (!habit) return nothing;
    return html`<form @submit=${this.handleSubmit}>
      <div class="fields">
        ${PHRASES.map(
          ([name, words]) =>
            html`<label>${words}<input name=${name} maxlength="240" .value=${habit[name] ?? ''} /></label>`,
        )}
      </div>
      <details>
        <summary>Figures that speak for it</summary>
        <fieldset class="fields">
          <legend>The row comes first when one of these can be told from the readings</legend>
          ${this.zones.map(([zone, title]) => this.renderSign(habit, zone, title))}
        </fieldset>
      </details>
      ${problem ? html`<p class="problem" role="alert">${problem}</p>` : nothing}
      <div>
        <button class="main">Keep</button>
        <button type="button" @click=${() => this.dispatchEvent(new Event('bench-habit-leave'))}>
          Leave it
        </button>
      </div>
    </form>`;
  }

  private renderSign({ signs = [] }: OwnHabit, zone: string, title: string) {
    const is = signs.find((sign) => sign.zone === zone)?.is;
    return html`<label
      >${title}<select name=${`sign ${zone}`}>
        <option value="">says nothing</option>
        ${Object.entries(SIGN_WORDS).map(
          ([value, words]) => html`<option value=${value} ?selected=${value === is}>${words}</option>`,
        )}
      </select></label
    >`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-habit-form': HabitForm;
  }
}
