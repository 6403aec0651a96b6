import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { engagementSchema, type Engagement } from '../../shared/room.ts';
import { moment } from '../../shared/moment.ts';
import { countWord, listed, sentence } from '../../src/words/figure-words.ts';
import type { Advice, Suggestion } from '../../src/rotation/suggest.ts';
import { numberIn, textIn } from '../form-fields.ts';
import { unbroken } from '../bench/question-element.ts';
import { hrefOf } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { forms, pages } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import { dayWords } from '../day-words.ts';

const WANTS = engagementSchema.shape.wants.element.options;
const SHOWN = 3;

/** An engagement with what is advised for it. */
export interface Advised {
  readonly engagement: Engagement;
  readonly advice: Advice;
}

/** What is to be played for, on which day, with a reed for each and the reasons; and a form for the next one. */
@customElement('bench-engagements')
export class EngagementList extends LitElement {
  static override styles = [
    base,
    controls,
    forms,
    pages,
    css`
      article {
        display: grid;
        gap: var(--bench-space-2);
        padding: var(--bench-space-3) 0;
        border-top: 1px solid var(--bench-rule);
      }
      h3 {
        margin: 0;
        font: var(--bench-font-aside);
      }
      h3 small {
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      ol {
        display: grid;
        gap: var(--bench-space-2);
        margin: 0;
        padding: 0;
        list-style: none;
      }
      fieldset {
        display: flex;
        flex-basis: 100%;
        flex-wrap: wrap;
        gap: 0 var(--bench-space-4);
        margin: 0;
        padding: 0;
        border: 0;
      }
      legend {
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      summary {
        min-height: var(--bench-touch);
        align-content: center;
        cursor: pointer;
      }
      p {
        margin: 0;
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  @state() private problem = '';

  @property({ attribute: false }) advised: readonly Advised[] = [];

  private async handleNew(event: SubmitEvent) {
    event.preventDefault();
    const target = event.currentTarget as HTMLFormElement;
    const form = new FormData(target);
    const [title, day] = [textIn(form, 'title'), textIn(form, 'day')];
    const air = {
      temperatureC: numberIn(form, 'temperature'),
      humidityPct: numberIn(form, 'humidity'),
      elevationM: numberIn(form, 'elevation'),
    };
    const known = Object.fromEntries(Object.entries(air).filter(([, value]) => value !== undefined));
    const hasAir = engagementSchema.pick({ temperatureC: true, humidityPct: true, elevationM: true });
    this.problem =
      title === undefined || day === undefined
        ? 'An engagement needs a name and a day.'
        : hasAir.safeParse(known).success
          ? ''
          : 'The air there cannot be: −40 to 60 °C, 0 to 100 % humidity, up to 9000 m.';
    if (this.problem || !this.library.store) return;
    const draft = {
      kind: 'engagement' as const,
      title: title!,
      at: moment(new Date(`${day}T19:00:00`)),
      wants: WANTS.filter((want) => form.getAll('wants').includes(want)),
      ...known,
    };
    if (await this.library.store.keep([draft], `engagement ${title}`)) target.reset();
  }

  private handleChoose(engagement: Engagement, event: Event) {
    const reedId = (event.target as HTMLSelectElement).value;
    const { reedId: _before, ...rest } = engagement;
    void this.library.store?.keep([reedId ? { ...rest, reedId } : rest], `reed for ${engagement.title}`);
  }

  private handleRemove({ id, title }: Engagement) {
    void this.library.store?.remove([id], `engagement ${title}`);
  }

  override render() {
    return html`<section>
      <h2>Engagements</h2>
      ${
        this.advised.length === 0
          ? html`<p class="say">
              Nothing to be played for. Write one down, and the bench says which reeds suit.
            </p>`
          : nothing
      }
      ${this.advised.map((one) => this.renderOne(one))} ${this.renderForm()}
      <p class="note">
        Reasons are common practice, no source, and never a score: you know the reeds and the hall.
      </p>
    </section>`;
  }

  private renderOne({ engagement, advice }: Advised) {
    const { at, title, wants } = engagement;
    const days = advice.days === 0 ? 'today' : advice.days < 0 ? 'past' : `in ${countWord(advice.days)} days`;
    return html`<article>
      <h3>${title} <small>${dayWords(at)}, ${days}${wants.length > 0 ? `; ${listed(wants)}` : ''}</small></h3>
      ${advice.makeReady ? html`<p>${unbroken(advice.makeReady)}</p>` : nothing}
      <ol>
        ${advice.play.slice(0, SHOWN).map((suggestion) => this.renderSuggestion(suggestion))}
      </ol>
      ${advice.journey.map((line) => html`<p class="note">${line}</p>`)}
      <div class="acts">
        <label
          >Take<select @change=${(event: Event) => this.handleChoose(engagement, event)}>
            <option value="">not chosen</option>
            ${advice.play.map(
              ({ row: { reed } }) =>
                html`<option value=${reed.id} ?selected=${reed.id === engagement.reedId}>
                  ${reed.label}
                </option>`,
            )}
          </select></label
        >
        <button @click=${() => this.handleRemove(engagement)}>Take off the list</button>
      </div>
    </article>`;
  }

  private renderSuggestion({ row, speaksFor, speaksAgainst }: Suggestion) {
    const reasons = [
      speaksFor.length > 0 && `${sentence(speaksFor.join('; '))}.`,
      speaksAgainst.length > 0 && `But: ${speaksAgainst.join('; ')}.`,
    ].filter(Boolean);
    return html`<li>
      <a href=${hrefOf({ at: 'history', reedId: row.reed.id })}>${unbroken(row.reed.label)}</a>
      <span>${reasons.length > 0 ? reasons.join(' ') : 'Nothing is known of it.'}</span>
    </li>`;
  }

  private renderForm() {
    const field = (name: string, words: string) =>
      html`<label>${words}<input name=${name} inputmode="decimal" autocomplete="off" /></label>`;
    return html`<details>
      <summary>Write down an engagement</summary>
      <form @submit=${this.handleNew}>
        <label>What<input name="title" maxlength="80" autocomplete="off" /></label>
        <label>Day<input name="day" type="date" /></label>
        <fieldset>
          <legend>What it asks for</legend>
          ${WANTS.map((want) => html`<label class="tick"><input type="checkbox" name="wants" value=${want} />${want}</label>`)}
        </fieldset>
        ${field('temperature', 'There, °C')} ${field('humidity', 'There, % humidity')}
        ${field('elevation', 'There, m above the sea')}
        <button>Keep this engagement</button>
        ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
      </form>
    </details>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-engagements': EngagementList;
  }
}
