import { Task, TaskStatus } from '@lit/task';
import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Id } from '../../shared/ids.ts';
import { reedSchema, type Reed } from '../../shared/reed.ts';
import { quantityText, UNIT_WORDS } from '../../src/words/format.ts';
import { lotOf } from '../../src/cane/lot-of.ts';
import { hoursPlayed, timesPlayed } from '../../src/reed/waiting.ts';
import { airLog } from '../../src/climate/air-log.ts';
import { lifeOf, sayLife, type LifePass } from '../../src/rotation/life-strip.ts';
import { historyOf, onOnePage, type Happening } from '../../src/rotation/history.ts';
import { fitKey } from '../bench/desk-fit.ts';
import { unbroken } from '../bench/question-element.ts';
import { SlotBodies } from '../case/slot-bodies.ts';
import '../figures-table/copy-table.ts';
import { textIn } from '../form-fields.ts';
import { hrefOf } from '../frame/routes.ts';
import '../map/usual-reed.ts';
import '../picture/picture.ts';
import { SMALL } from '../relief/small-bodies.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls, tables } from '../theme/base.styles.ts';
import { forms, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import '../rotation/played-form.ts';
import { styles } from './history.styles.ts';
import './life-pictures.ts';
import './photo-strip.ts';
import { dayWords } from '../../src/words/day-words.ts';

/** The life of one reed: what was done, when it was played, what it is for, how it ended; as a sheet when printed. */
@customElement('bench-history')
export class HistoryScreen extends BenchElement {
  static override styles = [controls, tables, forms, pages, styles];

  private readonly library = new LibraryController(this);
  @state() private problem = '';
  private readonly page = new CSSStyleSheet();
  private settledId: Id | undefined;

  private readonly fit = new Task(this, {
    task: ([key], { signal }) => {
      const { reed } = this;
      const { store } = this.library;
      return key && store && reed
        ? store.models.settled(reed, store.passesOf(reed.id), signal)
        : Promise.resolve(undefined);
    },
    args: () => {
      const { reed } = this;
      return [reed ? fitKey(this.library.store!, reed) : ''];
    },
  });

  private readonly bodies = new SlotBodies(this);

  @property({ attribute: false }) reedId: Id | undefined;

  override connectedCallback() {
    super.connectedCallback();
    this.page.replaceSync('@page { size: A4 landscape; margin: 10mm; }');
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, this.page];
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((sheet) => sheet !== this.page);
  }

  private get reed(): Reed | undefined {
    return this.reedId === undefined ? undefined : this.library.store?.reed(this.reedId);
  }

  private async handleFacts(event: SubmitEvent) {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    const { reed } = this;
    if (!reed) return;
    const { ownNumber: _number, purpose: _purpose, ...rest } = reed;
    const [ownNumber, purpose] = [textIn(form, 'number'), textIn(form, 'purpose')];
    const tags = [...new Set((textIn(form, 'tags') ?? '').split(',').map((tag) => tag.trim()))].filter(
      Boolean,
    );
    this.problem = reedSchema.shape.tags.safeParse(tags).success
      ? ''
      : 'A tag has up to 40 letters, and a reed up to 40 tags.';
    if (this.problem) return;
    const changed = {
      ...rest,
      tags,
      ...(ownNumber !== undefined && { ownNumber }),
      ...(purpose !== undefined && { purpose }),
    };
    await this.library.store?.keep([changed], `about ${reed.label}`);
  }

  private handlePrint() {
    print();
  }

  override render() {
    const { store } = this.library;
    if (!store) return nothing;
    const { reed } = this;
    if (!reed)
      return html`<div class="page">
        <h1>This reed is not in the library.</h1>
        <p><a href=${hrefOf({ at: 'find' })}>All reeds</a></p>
      </div>`;
    const passes = store.passesOf(reed.id);
    const { air } = store.snapshot.live;
    const trials = store.trialsOf(reed.id);
    const life = lifeOf(passes, trials, airLog({ air, trials, passes }));
    return html`<div class="page">
      <header>
        <h1>${this.renderBody(reed)}${unbroken(reed.label)}</h1>
        <p class="facts">
          ${life.length > 0 ? html`<span class="say">${sayLife(life)}</span>` : nothing} ${this.facts(reed)}
        </p>
        <div class="acts">
          <a href=${hrefOf({ at: 'bench', reedId: reed.id, question: 'there' })}>To the bench</a>
          <a href=${hrefOf({ at: 'lesson', reedIds: [reed.id] })}>Lesson card</a>
          <button @click=${this.handlePrint}>Print one page</button>
        </div>
      </header>
      ${this.renderPictures(reed, life)}
      ${
        this.hasSettled(reed)
          ? html`<div class="two">${this.renderLife(reed)} ${this.renderForms(reed)}</div>`
          : nothing
      }
    </div>`;
  }

  /** The reed as it is now, as a small body, once it is fitted and drawn. */
  private renderBody(reed: Reed) {
    const { value: benched } = this.fit;
    if (benched?.reed.id !== reed.id || !benched.model) return nothing;
    this.bodies.take(benched);
    const body = this.bodies.of(reed.id, this.theme.name);
    return body ? html`<img alt="" width=${SMALL.width} height=${SMALL.height} src=${body} />` : nothing;
  }

  private renderPictures(reed: Reed, life: readonly LifePass[]) {
    if (life.every(({ pass }) => !('readingCount' in pass) || pass.readingCount === 0))
      return html`<bench-usual-reed style-key=${reed.styleId}>
        Nothing is read yet. The blades after each pass will stand here, and between them what went.
        <a href=${hrefOf({ at: 'round', reedId: reed.id })}>Start a round</a>.
      </bench-usual-reed>`;
    return html`<section class="pictures" aria-label="Its life in pictures">
      ${this.renderLifePictures(reed, life)}
      ${life.length === 1 ? html`<p class="say">One pass so far. The next one will stand beside it.</p>` : nothing}
    </section>`;
  }

  /** The pictures as they were last worked out: they stay while the reed is fitted again. */
  private renderLifePictures(reed: Reed, life: readonly LifePass[]) {
    const { status, error, value: benched } = this.fit;
    if (status === TaskStatus.ERROR)
      return html`<p>${error instanceof Error ? error.message : String(error)}</p>`;
    if (benched?.reed.id !== reed.id) return html`<p role="status">Working out the passes.</p>`;
    return html`<bench-picture
      caption=${`The life of ${reed.label}: thickness after each pass, and what went between, ${UNIT_WORDS[this.library.writing.unit].caption}`}
      file-name=${`${reed.label} life`}
      ><bench-life-pictures
        .benched=${benched}
        .life=${life}
        .writing=${this.library.writing}
      ></bench-life-pictures
    ></bench-picture>`;
  }

  /** What stands under the pictures comes after them, and then stays: nothing moves away under the hand. */
  private hasSettled({ id }: Reed): boolean {
    const { status } = this.fit;
    if (status === TaskStatus.COMPLETE || status === TaskStatus.ERROR) this.settledId = id;
    return this.settledId === id;
  }

  /** What can be written here, folded: the place is for looking. */
  private renderForms(reed: Reed) {
    return html`<section class="forms">
      ${
        reed.state === 'retired'
          ? nothing
          : html`<details>
              <summary>Write down a playing</summary>
              <bench-played-form .reeds=${[reed]}></bench-played-form>
            </details>`
      }
      <details>
        <summary>What it is for, its number, its tags</summary>
        ${this.renderFacts(reed)}
      </details>
      <details>
        <summary>Photographs</summary>
        <bench-photo-strip .reed=${reed}></bench-photo-strip>
      </details>
    </section>`;
  }

  private facts(reed: Reed): string {
    const store = this.library.store!;
    const { use, trial, lot: lots } = store.snapshot.live;
    const hours = hoursPlayed(timesPlayed(use, trial), reed.id);
    const lot = lotOf(reed, lots);
    return [
      reed.state,
      lot && `lot ${lot.code}`,
      hours > 0 ? `${quantityText('hours', hours, this.library.writing)} played` : 'not played',
      reed.purpose && `best for ${reed.purpose}`,
      reed.slot && `slot ${reed.slot}`,
      reed.tags.join(', '),
      reed.invented && 'invented',
    ]
      .filter(Boolean)
      .join('; ');
  }

  private renderLife(reed: Reed) {
    const store = this.library.store!;
    const happenings = historyOf(
      reed,
      {
        passes: store.passesOf(reed.id),
        trials: store.trialsOf(reed.id),
        uses: store.snapshot.live.use.filter(({ reedId }) => reedId === reed.id),
      },
      this.library.writing,
    );
    return html`<section class="life">
      <h2>Its life</h2>
      ${
        happenings.length === 0
          ? html`<p class="say">Nothing is written of it yet.</p>`
          : html`${this.renderTable(happenings, 'screen')}
            ${this.renderTable(onOnePage(happenings, this.library.writing), 'sheet')}`
      }
    </section>`;
  }

  private renderTable(happenings: readonly Happening[], look: 'screen' | 'sheet') {
    return html`<table class=${look}>
        <thead>
          <tr>
            <th scope="col">Day</th>
            <th scope="col">What</th>
          </tr>
        </thead>
        <tbody>
          ${happenings.map(
            ({ at, title, what, words }) =>
              html`<tr>
                <td>${at === undefined ? 'no date' : dayWords(at)}</td>
                <td>${title}: ${what}${words ? html`<em>${words}</em>` : nothing}</td>
              </tr>`,
          )}
        </tbody>
      </table>
      ${look === 'screen' ? html`<bench-copy></bench-copy>` : nothing}`;
  }

  private renderFacts(reed: Reed) {
    return html`<form @submit=${this.handleFacts}>
      <label>Best for<input name="purpose" maxlength="120" .value=${reed.purpose ?? ''} /></label>
      <label>Own number<input name="number" maxlength="40" .value=${reed.ownNumber ?? ''} /></label>
      <label class="wide"
        >Tags, with commas between<input name="tags" .value=${reed.tags.join(', ')} autocomplete="off"
      /></label>
      <button>Keep</button>
      ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
    </form>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-history': HistoryScreen;
  }
}
