import { Task } from '@lit/task';
import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Id } from '../../shared/ids.ts';
import type { Reed } from '../../shared/reed.ts';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { besideTables } from '../../src/plan/beside-figures.ts';
import { sayCompared } from '../../src/plan/say-compared.ts';
import { NOTHING_TO_TAKE, sayStep } from '../../src/plan/say-step.ts';
import { lessonOf, type Lesson } from '../../src/plan/lesson.ts';
import { UNIT_WORDS } from '../../src/words/format.ts';
import { thicknessPlate, type Plate } from '../bench/plate-data.ts';
import { unbroken } from '../bench/question-element.ts';
import '../caution/caution.ts';
import '../figures-table/figures-table.ts';
import { hrefOf } from '../frame/routes.ts';
import { usualBlades } from '../map/usual-blades.ts';
import '../picture/picture.ts';
import { KnifeController } from '../plan/knife-controller.ts';
import { adviceOf } from '../store/choices.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { forms, heads, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './lesson-card.ts';
import type { Shown } from './lesson-pair.ts';
import './lesson-pair.ts';

/** Both reeds as they are read, and what a lesson says of them. */
interface Fitted {
  readonly example: ReedAtPass | undefined;
  readonly pupil: ReedAtPass | undefined;
  readonly lesson: Lesson | undefined;
  readonly plates: readonly [own: Plate | undefined, example: Plate | undefined];
}

/** Two reeds side by side in a lesson: three differences, what to do about one, and a card to take home. */
@customElement('bench-lesson')
export class LessonScreen extends BenchElement {
  static override styles = [
    controls,
    forms,
    pages,
    heads,
    css`
      .page {
        gap: var(--bench-space-3);
      }
      .head {
        align-items: end;
      }
      form {
        flex: 0 1 500px;
      }
      .deed {
        margin: 0;
        font: calc(clamp(20px, 3.47vw, 50px) * var(--bench-scale)) / 1.16 var(--bench-sans);
        text-wrap: balance;
      }
      /* As wide as the paper that it is printed on. */
      .card {
        max-width: 200mm;
        padding: var(--bench-space-4);
        border: 1px solid var(--bench-rule);
        background: var(--bench-plate);
      }
      @media print {
        .page > :not(.card) {
          display: none;
        }
        .page,
        .card {
          display: block;
          padding: 0;
          border: 0;
          background: none;
        }
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  private readonly knife = new KnifeController(this, this.library);

  /** The example, and the reed that is worked on. */
  @property({ attribute: false }) reedIds: readonly Id[] = [];

  private readonly fit = new Task(this, {
    task: async ([example, pupil]) => this.fitted(await this.benched(example), await this.benched(pupil)),
    args: () => {
      const { store } = this.library;
      const advice = store && JSON.stringify(adviceOf(this.library.choices));
      return [this.reedAt(0), this.reedAt(1), store?.snapshot, advice] as const;
    },
  });

  private fitted(example: ReedAtPass | undefined, pupil: ReedAtPass | undefined): Fitted {
    const lesson = example && pupil && lessonOf(pupil, example, adviceOf(this.library.choices));
    const [own, other] = [pupil, example].map((reed) => reed && thicknessPlate(reed.benched, reed.pass));
    return { example, pupil, lesson, plates: [own && withStrokes(own, lesson), other] };
  }

  private reedAt(place: 0 | 1): Reed | undefined {
    const id = this.reedIds[place];
    return id === undefined ? undefined : this.library.store?.reed(id);
  }

  /** A reed as it is followed: at the pass it is kept for, or as it is now. */
  private async benched(reed: Reed | undefined): Promise<ReedAtPass | undefined> {
    if (!reed) return undefined;
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
      <div class="head">
        <h1>
          Two reeds side by side. <em>The one that is worked on at the left, the example at the right.</em>
        </h1>
        <form>
          ${this.reedIds.length > 0 ? this.renderChoice(1, 'The reed in hand') : nothing}
          ${this.renderChoice(0, 'The example')}
        </form>
      </div>
      ${this.fit.render({
        pending: () => html`<p role="status">Fitting</p>`,
        complete: (fitted) => this.renderLesson(fitted),
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

  private renderLesson(fitted: Fitted) {
    const { example, pupil, lesson } = fitted;
    const chosen = [this.reedAt(0), this.reedAt(1)];
    const unread = [example, pupil].flatMap((one, i) => (chosen[i] && !one ? [chosen[i]] : []));
    return html`${this.renderUnread(unread)} ${this.renderPair(fitted)}
    ${lesson && pupil ? this.renderWords(lesson, pupil) : nothing}
    ${
      example
        ? html`<div class="acts"><button @click=${this.handlePrint}>Print the lesson card</button></div>
            <section class="card">
              <bench-lesson-card
                .example=${example}
                pupil=${pupil?.benched.reed.label ?? ''}
                .touches=${lesson?.touches ?? []}
                .knife=${this.knife.inHand(pupil?.benched.reed.id)}
                .writing=${this.library.writing}
              ></bench-lesson-card>
            </section>`
        : nothing
    }`;
  }

  /** Both reeds; where one is not chosen, the usual one of the style. */
  private renderPair({ example, pupil, lesson, plates: [own, other] }: Fitted) {
    const { writing } = this.library;
    const style = (example ?? pupil)?.benched.reed.styleId ?? 'long-scrape';
    const shown = (reed: ReedAtPass | undefined, plate: Plate | undefined): Shown =>
      reed && plate
        ? { label: reed.benched.reed.label, plate }
        : { label: 'usual', plate: usualBlades(style), isUsual: true };
    const words = !example
      ? 'Choose the example: a favourite, or the teacher’s reed. Until then the usual reed stands here.'
      : !pupil
        ? 'Choose the reed in hand. Until then the usual reed stands here.'
        : 'No zone differs by more than its doubt.';
    const [left, right] = [shown(pupil, own), shown(example, other)];
    return html`<bench-picture
      caption=${`${left.label} and ${right.label}: thickness, and what parts them the most, ${UNIT_WORDS[writing.unit].caption}`}
      file-name=${`${left.label} beside ${right.label}`}
      ><bench-lesson-pair
        .own=${left}
        .example=${right}
        .differences=${lesson?.differences ?? []}
        words=${words}
        .writing=${writing}
      ></bench-lesson-pair>
      ${
        lesson
          ? html`<details class="twin" slot="twin">
              <summary>All zones as a table</summary>
              <div class="scroll" tabindex="0" role="region" aria-label="All zones">
                <bench-figures-table
                  .table=${besideTables(lesson.compared).zones}
                  .writing=${writing}
                ></bench-figures-table>
              </div>
            </details>`
          : nothing
      }</bench-picture
    >`;
  }

  /** What to do about one difference, and the two reeds in words. */
  private renderWords({ compared, deed }: Lesson, pupil: ReedAtPass) {
    const { writing } = this.library;
    const { say, mind, aside } = sayCompared(compared, writing);
    const said =
      deed && sayStep(deed, compared.target.name, this.knife.inHand(pupil.benched.reed.id), writing);
    const [one, many] = UNIT_WORDS[writing.unit].spoken;
    return html`<p class="deed">
        ${said ? unbroken(`${said.where}: take ${said.take} ${said.take === '1' ? one : many}.`) : NOTHING_TO_TAKE}
      </p>
      <p class="say">${unbroken(say)} ${mind ? html`<em>${unbroken(mind)}</em>` : nothing}</p>
      ${aside ? html`<p class="note">${aside}</p>` : nothing}`;
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
}

/** The same blades with the strokes of the one deed outlined. */
function withStrokes(plate: Plate, lesson: Lesson | undefined): Plate {
  const drawn = Object.entries(plate).map(([blade, data]) => {
    const parts = lesson?.deed?.parts.filter((part) => part.blade === blade) ?? [];
    const nextStrokes = parts.flatMap(({ outlines }) =>
      outlines.map((corners) => corners.map(([fromTipMm, across]) => ({ fromTipMm, across }))),
    );
    return [blade, { ...data, nextStrokes }];
  });
  return Object.fromEntries(drawn);
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-lesson': LessonScreen;
  }
}
