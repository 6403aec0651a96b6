import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Id } from '../../shared/ids.ts';
import { reedSchema, type Reed } from '../../shared/reed.ts';
import { quantityText } from '../../src/words/format.ts';
import { lotOf } from '../../src/cane/lot-of.ts';
import { hoursPlayed, timesPlayed } from '../../src/reed/waiting.ts';
import { historyOf, onOnePage, type Happening } from '../../src/rotation/history.ts';
import { unbroken } from '../bench/question-element.ts';
import { textIn } from '../form-fields.ts';
import { hrefOf } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls, tables } from '../theme/base.styles.ts';
import { forms, pages } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import '../rotation/played-form.ts';
import './photo-strip.ts';
import { dayWords } from '../day-words.ts';

const KIND_WORDS: Readonly<Record<Happening['kind'], string>> = {
  tied: 'Tied',
  pass: 'Scraped and read',
  trial: 'Tried',
  use: 'Played',
  retired: 'Retired',
};

/** The life of one reed: what was done, when it was played, what it is for, how it ended; as a sheet when printed. */
@customElement('bench-history')
export class HistoryScreen extends LitElement {
  static override styles = [
    base,
    controls,
    tables,
    forms,
    pages,
    css`
      header {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-2) var(--bench-space-5);
        align-items: baseline;
      }
      h1 {
        font: var(--bench-font-reed);
      }
      td,
      thead th:not(:first-child) {
        text-align: left;
      }
      td em {
        display: block;
        font: var(--bench-font-aside);
        font-style: italic;
      }
      td:first-child {
        white-space: nowrap;
      }
      .sheet {
        display: none;
      }
      @media print {
        .screen {
          display: none;
        }
        .sheet {
          display: table;
        }
        .two > section:not(.life),
        .acts,
        .note {
          display: none;
        }
        .page,
        .two,
        .life {
          display: block;
          padding: 0;
        }
        table {
          font-size: 13pt;
        }
        h1 {
          font-size: 40pt;
        }
        .facts {
          font-size: 14pt;
        }
        tr {
          break-inside: avoid;
        }
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  @state() private problem = '';

  @property({ attribute: false }) reedId: Id | undefined;

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
    return html`<div class="page">
      <header>
        <h1>${unbroken(reed.label)}</h1>
        <p class="facts">${this.facts(reed)}</p>
      </header>
      <div class="acts">
        <a href=${hrefOf({ at: 'bench', reedId: reed.id, question: 'there' })}>To the bench</a>
        <a href=${hrefOf({ at: 'lesson', reedIds: [reed.id] })}>Lesson card</a>

        <button @click=${this.handlePrint}>Print one page</button>
      </div>
      <div class="two">
        ${this.renderLife(reed)}
        <section>
          <h2>Played</h2>
          ${
            reed.state === 'retired'
              ? html`<p class="note">A retired reed is not played.</p>`
              : html`<bench-played-form .reeds=${[reed]}></bench-played-form>`
          }
          <h2>About it</h2>
          ${this.renderFacts(reed)}
          <h2>Photographs</h2>
          <bench-photo-strip .reed=${reed}></bench-photo-strip>
        </section>
      </div>
    </div>`;
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
          ({ at, kind, what, words }) =>
            html`<tr>
              <td>${at === undefined ? 'no date' : dayWords(at)}</td>
              <td>${KIND_WORDS[kind]}: ${what}${words ? html`<em>${words}</em>` : nothing}</td>
            </tr>`,
        )}
      </tbody>
    </table>`;
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
