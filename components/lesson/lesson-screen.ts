import { Task } from '@lit/task';
import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Id } from '../../shared/ids.ts';
import type { Reed } from '../../shared/reed.ts';
import type { ReedAtPass } from '../../src/answers/benched-reed.ts';
import { besideTables } from '../../src/plan/beside-figures.ts';
import type { Compared } from '../../src/plan/compare.ts';
import { sayCompared } from '../../src/plan/say-compared.ts';
import { lessonOf } from '../../src/plan/lesson.ts';
import { unbroken } from '../bench/question-element.ts';
import '../caution/caution.ts';
import '../figures-table/figures-table.ts';
import { hrefOf } from '../frame/routes.ts';
import { KnifeController } from '../plan/knife-controller.ts';
import { adviceOf } from '../store/choices.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { forms, pages } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import './lesson-card.ts';

/** Two reeds side by side in a lesson: where they differ, three places to touch, and a card to take home. */
@customElement('bench-lesson')
export class LessonScreen extends LitElement {
  static override styles = [
    base,
    controls,
    forms,
    pages,
    css`
      select {
        max-width: 18em;
      }
      .card {
        padding: var(--bench-space-4);
        border: 1px solid var(--bench-rule);
        background: var(--bench-plate);
      }
      @media print {
        .page > :not(.two),
        .two > :not(.card) {
          display: none;
        }
        .page,
        .card {
          padding: 0;
          border: 0;
          background: none;
        }
        .page,
        .two,
        .card {
          display: block;
        }
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  private readonly knife = new KnifeController(this, this.library);

  /** The example, and the reed that is worked on. */
  @property({ attribute: false }) reedIds: readonly Id[] = [];

  private readonly fit = new Task(this, {
    task: async ([example, pupil]: [Reed | undefined, Reed | undefined, unknown]) => ({
      example: example && (await this.benched(example)),
      pupil: pupil && (await this.benched(pupil)),
    }),
    args: () =>
      [this.reedAt(0), this.reedAt(1), this.library.store?.snapshot] as [
        Reed | undefined,
        Reed | undefined,
        unknown,
      ],
  });

  private reedAt(place: 0 | 1): Reed | undefined {
    const id = this.reedIds[place];
    return id === undefined ? undefined : this.library.store?.reed(id);
  }

  /** A reed as it is followed: at the pass it is kept for, or as it is now. */
  private async benched(reed: Reed): Promise<ReedAtPass | undefined> {
    const store = this.library.store!;
    const benched = await store.models.settled(reed, store.passesOf(reed.id));
    const kept = benched.passes.findIndex(({ index }) => index === reed.favourite?.passIndex);
    return benched.model && { benched, pass: kept < 0 ? benched.passes.length - 1 : kept };
  }

  private handleChoose(place: 0 | 1, event: Event) {
    const chosen = (event.target as HTMLSelectElement).value;
    const [example, pupil] = [0, 1].map((i) => (i === place ? chosen : (this.reedIds[i] ?? ''))) as [
      string,
      string,
    ];
    const reedIds = [example, pupil].slice(0, example === '' ? 0 : pupil === '' ? 1 : 2);
    location.hash = hrefOf({ at: 'lesson', reedIds });
  }

  private handlePrint() {
    print();
  }

  override render() {
    const { store } = this.library;
    if (!store) return nothing;
    return html`<div class="page">
      <h1>Two reeds side by side. <em>The example first, then the one that is worked on.</em></h1>
      <form>
        ${this.renderChoice(0, 'The example')}
        ${this.reedIds.length > 0 ? this.renderChoice(1, 'The reed in hand') : nothing}
      </form>
      ${this.fit.render({
        pending: () => html`<p role="status">Fitting</p>`,
        complete: ({ example, pupil }) => this.renderLesson(example, pupil),
        error: (error) =>
          html`<p class="problem" role="alert">${error instanceof Error ? error.message : String(error)}</p>`,
      })}
      <bench-caution about="sharing knife"></bench-caution>
    </div>`;
  }

  private renderChoice(place: 0 | 1, words: string) {
    const other = this.reedIds[place === 0 ? 1 : 0];
    const reeds = this.library.store!.reeds.filter(({ id }) => id !== other);
    return html`<label
      >${words}<select @change=${(event: Event) => this.handleChoose(place, event)}>
        <option value="">–</option>
        ${reeds.map(
          ({ id, label, favourite }) =>
            html`<option value=${id} ?selected=${id === this.reedIds[place]}>
              ${label}${favourite ? ', favourite' : ''}
            </option>`,
        )}
      </select></label
    >`;
  }

  private renderLesson(example: ReedAtPass | undefined, pupil: ReedAtPass | undefined) {
    const chosen = [this.reedAt(0), this.reedAt(1)];
    const unread = [example, pupil].flatMap((one, i) => (chosen[i] && !one ? [chosen[i]] : []));
    if (!example)
      return html`${this.renderUnread(unread)}${chosen[0] ? nothing : html`<p class="say">Choose the example: a favourite, or the teacher’s reed.</p>`}`;
    const { writing } = this.library;
    const lesson = pupil && lessonOf(pupil, example, adviceOf(this.library.choices));
    return html`${this.renderUnread(unread)}
      <div class="two">
        <section>
          ${
            lesson
              ? this.renderCompared(lesson.compared)
              : html`<p class="say">The card shows the example alone until a reed is set beside it.</p>`
          }
          <div class="acts"><button @click=${this.handlePrint}>Print the lesson card</button></div>
        </section>
        <section class="card">
          <bench-lesson-card
            .example=${example}
            pupil=${pupil?.benched.reed.label ?? ''}
            .touches=${lesson?.touches ?? []}
            .knife=${this.knife.inHand(pupil?.benched.reed.id)}
            .writing=${writing}
          ></bench-lesson-card>
        </section>
      </div>`;
  }

  private renderUnread(reeds: readonly Reed[]) {
    return reeds.map(
      (reed) =>
        html`<p class="say">
          ${unbroken(reed.label)} is not read yet.
          <a href=${hrefOf({ at: 'round', reedId: reed.id })}>Read it quickly</a>: sixteen places, about a
          minute and a half.
        </p>`,
    );
  }

  private renderCompared(compared: Compared) {
    const { writing } = this.library;
    const { say, mind, aside } = sayCompared(compared, writing);
    return html`<p class="say">${unbroken(say)} ${mind ? html`<em>${unbroken(mind)}</em>` : nothing}</p>
      ${aside ? html`<p class="note">${aside}</p>` : nothing}
      <div class="scroll">
        <bench-figures-table .table=${besideTables(compared).zones} .writing=${writing}></bench-figures-table>
      </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-lesson': LessonScreen;
  }
}
