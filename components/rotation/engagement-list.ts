import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { engagementSchema, type Engagement } from '../../shared/room.ts';
import { moment } from '../../shared/moment.ts';
import { countWord, listed } from '../../src/words/figure-words.ts';
import type { Proposal } from '../../src/rotation/proposals.ts';
import { hiddenProblem, numberIn, textIn } from '../form-fields.ts';
import { unbroken } from '../bench/question-element.ts';
import { hrefOf } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { forms, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { shortDay } from '../../src/words/day-words.ts';
import { mark } from '../marks/marks.ts';
import { marks } from '../marks/marks.styles.ts';
import { NO_FIGURE } from '../../src/words/format.ts';

const WANTS = engagementSchema.shape.wants.element.options;
const SHOWN = 4;

/** What is to be played for, on which day, with a reed for each and the reasons; and a form for the next one. */
@customElement('bench-engagements')
export class EngagementList extends BenchElement {
  static override styles = [
    controls,
    forms,
    pages,
    marks,
    css`
      section {
        gap: var(--bench-space-1);
      }
      article {
        display: grid;
        grid-template-columns: 112px 92px minmax(0, 1fr);
        gap: 0 var(--bench-space-3);
        padding: var(--bench-space-1) 0;
        border-top: 1px solid var(--bench-rule);
      }
      h3 {
        margin: 0;
        font: var(--bench-font-table);
        font-weight: 600;
      }
      h3 small {
        display: block;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      .reed {
        display: flex;
        gap: var(--bench-space-1);
        align-items: start;
        font: var(--bench-font-aside);
      }
      article p,
      article details {
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      h3,
      .reed {
        grid-row: span 2;
      }
      article details {
        grid-column: 3;
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
      .wide {
        flex-basis: 100%;
      }
      .air {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-3);
        align-items: end;
      }
      legend {
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      p {
        margin: 0;
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @state() private problem = '';

  @property({ attribute: false }) proposals: readonly Proposal[] = [];

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
    this.problem ||= hiddenProblem(target.querySelector<HTMLInputElement>('[name=title]')!);
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
    const shown = this.proposals.slice(0, SHOWN);
    const more = this.proposals.slice(SHOWN);
    return html`<section>
      <h2>Engagements</h2>
      ${
        shown.length === 0
          ? html`<p class="say">Nothing to be played for. Write one down, and a reed is proposed for it.</p>`
          : nothing
      }
      ${shown.map((one) => this.renderOne(one))}
      ${
        more.length > 0
          ? html`<details>
              <summary>${countWord(more.length)} more</summary>
              ${more.map((one) => this.renderOne(one))}
            </details>`
          : nothing
      }
      ${this.renderForm()}
    </section>`;
  }

  private renderOne({ engagement, advice, first, isSure, words }: Proposal) {
    const { at, title, wants } = engagement;
    const reed = first?.row.reed;
    return html`<article>
      <h3>${shortDay(at)} <small>${title}${wants.length > 0 ? `; ${listed(wants)}` : ''}</small></h3>
      <div class="reed">
        ${
          reed
            ? html`<svg viewBox="-8 -8 16 16" width="16" height="22" aria-hidden="true">
                  ${mark(isSure ? 'read' : 'unsure', 0, 0)}</svg
                ><a href=${hrefOf({ at: 'history', reedId: reed.id })}
                  >${unbroken(reed.label)}${isSure ? '' : html`<span class="said">, not sure</span>`}</a
                >`
            : NO_FIGURE
        }
      </div>
      <p>${unbroken(words)} ${advice.makeReady ? unbroken(advice.makeReady) : ''}</p>
      ${this.renderOthers({ engagement, advice, isSure, words, day: 0 })}
    </article>`;
  }

  private renderOthers({ engagement, advice }: Proposal) {
    return html`<details>
      <summary>Another reed</summary>
      ${advice.journey.map((line) => html`<p>${line}</p>`)}
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
    </details>`;
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
        <details class="wide">
          <summary>The air there</summary>
          <div class="air">
            ${field('temperature', 'There, °C')} ${field('humidity', 'There, % humidity')}
            ${field('elevation', 'There, m above the sea')}
          </div>
        </details>
        <button>Keep this engagement</button>
        <p class="note">
          Reasons are common practice, no source, and never a score: you know the reeds and the hall.
        </p>
        ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
      </form>
    </details>`;
  }
}
