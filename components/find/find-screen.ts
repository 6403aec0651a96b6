import { css, html, nothing } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import type { Id } from '../../shared/ids.ts';
import { reedStateSchema, type Reed } from '../../shared/reed.ts';
import { STARTING_STYLES } from '../../src/blade/starting-styles.ts';
import { quantityText } from '../../src/words/format.ts';
import {
  findReeds,
  gatherReeds,
  SORTINGS,
  tagsOf,
  type FoundReed,
  type Query,
  type Sorting,
} from '../../src/rotation/find-reeds.ts';
import '../caution/caution.ts';
import { threadNumbers, type ThreadNumber } from '../../src/rotation/thread-number.ts';
import type { Snapshot } from '../../src/ledger/snapshot.ts';
import { unbroken } from '../bench/question-element.ts';
import '../figures-table/copy-table.ts';
import { hrefOf } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls, tables } from '../theme/base.styles.ts';
import { forms, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './label-sheet.ts';
import { dayWords } from '../../src/words/day-words.ts';

/** As many rows as are drawn at once: more than are in sight. */
const MOST_ROWS = 50;

/** What is looked through. */
interface Gathered {
  readonly of: Snapshot;
  readonly reeds: readonly FoundReed[];
  readonly numbers: ReadonlyMap<Id, ThreadNumber>;
}

/** All reeds: search, filter, sort, and labels to print for those that are found. */
@customElement('bench-find')
export class FindScreen extends BenchElement {
  static override styles = [
    controls,
    tables,
    forms,
    pages,
    css`
      td,
      thead th:not(:first-child) {
        text-align: left;
      }
      td {
        white-space: nowrap;
      }
      td.tags {
        white-space: normal;
      }
      tbody th a {
        display: inline-flex;
        align-items: center;
        min-height: var(--bench-touch);
        font: var(--bench-font-aside);
        white-space: nowrap;
      }
      /* What a telephone has no room for stands in the reed's history. */
      @media (max-width: 640px) {
        form .search {
          flex-basis: 100%;
        }
        tr > :is(:nth-child(2), :nth-child(4), :nth-child(8), :nth-child(9)) {
          display: none;
        }
        td {
          white-space: normal;
        }
      }
      @media print {
        .page > :not(.labels),
        .labels details > :not(bench-label-sheet) {
          display: none;
        }
        .page,
        .labels {
          display: block;
          padding: 0;
        }
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  private gathered: Gathered | undefined;
  @query('input[type="search"]') private readonly search!: HTMLInputElement | null;
  @state() private wanted: Query = { text: '', sort: 'label' };
  @state() private most = MOST_ROWS;
  @state() private labelling = false;

  override firstUpdated() {
    this.search?.focus();
  }

  /** Gathered anew only when the library has changed. */
  private get all(): Gathered {
    const { snapshot } = this.library.store!;
    if (this.gathered?.of !== snapshot) {
      const { reed: reeds, lot: lots, pass: passes, trial: trials, use: uses } = snapshot.live;
      this.gathered = {
        of: snapshot,
        reeds: gatherReeds({ reeds, lots, passes, trials, uses }),
        numbers: threadNumbers(reeds),
      };
    }
    return this.gathered;
  }

  private want(change: Partial<Query>) {
    this.wanted = { ...this.wanted, ...change };
    this.most = MOST_ROWS;
  }

  private handleToggle(event: Event) {
    this.labelling = (event.target as HTMLDetailsElement).open;
  }

  private handlePrint() {
    print();
  }

  override render() {
    const { store } = this.library;
    if (!store) return nothing;
    const { reeds: all } = this.all;
    const found = findReeds(all, this.wanted);
    const count = `${found.length} of ${all.length} ${all.length === 1 ? 'reed' : 'reeds'}`;
    return html`<div class="page">
      <h1><span role="status">${all.length === 0 ? 'No reeds yet.' : `${count}.`}</span></h1>
      ${
        all.length === 0
          ? html`<p class="say">
              A row for each reed will stand here.
              <a href=${hrefOf({ at: 'case' })}>Begin with one in the case</a>.
            </p>`
          : html`${this.renderQuery(store.reeds)}
              <div class="scroll">${this.renderTable(found.slice(0, this.most))}</div>`
      }
      ${
        found.length > this.most
          ? html`<button @click=${() => (this.most = found.length)}>Show all ${found.length}</button>`
          : nothing
      }
      ${this.renderLabels(found)}
    </div>`;
  }

  private renderQuery(reeds: readonly Reed[]) {
    const { wanted } = this;
    const value = (event: Event) => (event.target as HTMLSelectElement).value;
    const choice = (
      words: string,
      options: readonly (readonly [string, string])[],
      take: (chosen: string) => void,
    ) =>
      html`<label
        >${words}<select @change=${(event: Event) => take(value(event))}>
          ${options.map(([key, name]) => html`<option value=${key}>${name}</option>`)}
        </select></label
      >`;
    return html`<form role="search" @submit=${(event: Event) => event.preventDefault()}>
      <label class="search"
        >Search<input
          type="search"
          placeholder="label, tag, lot, words of a trial"
          .value=${wanted.text}
          @input=${(event: Event) => this.want({ text: value(event) })}
      /></label>
      ${choice(
        'State',
        [['', 'any'], ['alive', 'alive'], ...reedStateSchema.options.map((name) => [name, name] as const)],
        (chosen) => this.want({ state: (chosen || undefined) as Query['state'] } as Partial<Query>),
      )}
      ${choice('Style', [['', 'any'], ...STARTING_STYLES.map(({ key, name }) => [key, name] as const)], (styleId) => this.want({ styleId }))}
      ${choice('Tag', [['', 'any'], ...tagsOf(reeds).map((tag) => [tag, tag] as const)], (tag) => this.want({ tag }))}
      ${choice(
        'Order',
        SORTINGS.map((name) => [name, name] as const),
        (sort) => this.want({ sort: sort as Sorting }),
      )}
      <label class="tick"
        ><input
          type="checkbox"
          @change=${(event: Event) => this.want({ favourites: (event.target as HTMLInputElement).checked })}
        />favourites only</label
      >
    </form>`;
  }

  private renderTable(found: readonly FoundReed[]) {
    const { writing } = this.library;
    const { numbers } = this.all;
    return html`<table>
        <thead>
          <tr>
            ${['Reed', 'On the thread', 'State', 'Lot', 'Passes', 'Played', 'Last played', 'Verdict', 'Tags'].map((head) => html`<th scope="col">${head}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${found.map(({ reed, lot, passes, hours, lastPlayed, verdict }) => {
            const number = numbers.get(reed.id)!;
            return html`<tr>
              <th scope="row">
                <a href=${hrefOf({ at: 'history', reedId: reed.id })}>${unbroken(reed.label)}</a>
              </th>
              <td>${'text' in number ? number.text : 'own number needed'}</td>
              <td>${reed.state}${reed.favourite ? ', favourite' : ''}</td>
              <td>${lot ?? '–'}</td>
              <td>${passes}</td>
              <td>${quantityText('hours', hours, writing)}</td>
              <td>${lastPlayed === undefined ? 'never' : dayWords(lastPlayed)}</td>
              <td>${verdict ?? '–'}</td>
              <td class="tags">${reed.tags.join(', ')}</td>
            </tr>`;
          })}
        </tbody>
      </table>
      <bench-copy></bench-copy>`;
  }

  private renderLabels(found: readonly FoundReed[]) {
    if (found.length === 0) return nothing;
    return html`<section class="labels">
      <details @toggle=${this.handleToggle}>
        <summary>Labels of ${found.length === 1 ? 'this reed' : `these ${found.length} reeds`}</summary>
        <p class="note">
          Flags of 45 by 18 mm. The figure after the dot is the number for the thread: write it under the
          varnish, with the dot at side 1.
        </p>
        <bench-caution about="varnish"></bench-caution>
        <button @click=${this.handlePrint}>Print the labels</button>
        <bench-label-sheet
          .labelled=${this.labelling ? found : []}
          .numbers=${this.all.numbers}
        ></bench-label-sheet>
      </details>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-find': FindScreen;
  }
}
