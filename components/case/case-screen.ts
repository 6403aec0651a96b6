import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import type { Reed } from '../../shared/reed.ts';
import type { BladeMapData } from '../map/map-data.ts';
import '../map/blade-map.ts';
import { hrefOf } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import './new-reed.ts';
import type { NewReed } from './new-reed.ts';
import { slotPicture } from './slot-picture.ts';

/** The invented reeds are asked for, or are to be cleared away. */
export class InventedReedsEvent extends Event {
  readonly wanted: boolean;

  constructor(wanted: boolean) {
    super('bench-invented-reeds', { bubbles: true, composed: true });
    this.wanted = wanted;
  }
}

/** A blank blade, for a reed that was not read. */
const BLANK: BladeMapData = {
  blade: 'A',
  bladeLengthMm: 23,
  ysMm: [0, 5, 11, 17, 23],
  us: [-1, 1],
  halfWidthMm: [3.5, 3.37, 2.96, 2.58, 2.32],
  valuesMm: [NaN, NaN, NaN, NaN, NaN, NaN, NaN, NaN, NaN, NaN],
  marks: [],
  zones: [],
};
const COUNT = [
  'No',
  'One',
  'Two',
  'Three',
  'Four',
  'Five',
  'Six',
  'Seven',
  'Eight',
  'Nine',
  'Ten',
  'Eleven',
  'Twelve',
];

/**
 * The case as it looks with the lid open: every reed with its picture, and what may be done next.
 *
 * @event bench-invented-reeds - The invented reeds are wanted, or are to be cleared away.
 */
@customElement('bench-case')
export class CaseScreen extends LitElement {
  static override styles = [
    base,
    controls,
    css`
      .page {
        display: grid;
        gap: var(--bench-space-4);
        padding: var(--bench-space-4) var(--bench-page-margin) var(--bench-space-7);
      }
      h1 {
        margin: 0;
        font: var(--bench-font-say);
      }
      .slots {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(112px, 1fr));
        gap: var(--bench-space-3);
        margin: 0;
        padding: var(--bench-space-4);
        border: 1px solid var(--bench-rule2);
        border-radius: var(--bench-radius-case);
        background: var(--bench-plate);
        list-style: none;
      }
      .slots a {
        display: grid;
        justify-items: center;
        padding: var(--bench-space-3) var(--bench-space-2);
        color: var(--bench-ink);
        text-align: center;
        text-decoration: none;
      }
      .slots a:hover {
        background: var(--bench-sunk);
      }
      bench-blade-map {
        width: 92px;
        height: 220px;
        pointer-events: none;
      }
      .label {
        font: var(--bench-font-aside);
      }
      .fact {
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      .bars {
        width: 56px;
        height: 6px;
        margin-top: var(--bench-space-1);
        border-block: 2px solid var(--bench-favourite);
      }
      .acts {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-3);
        align-items: center;
      }
      .acts a,
      .main {
        display: inline-flex;
        align-items: center;
        min-height: var(--bench-touch);
        padding: 0 var(--bench-space-4);
        border: 1px solid var(--bench-rule2);
        border-radius: var(--bench-radius-button);
        color: var(--bench-ink);
        text-decoration: none;
      }
      .acts .main {
        border-color: var(--bench-ink);
        background: var(--bench-ink);
        color: var(--bench-paper);
        font-weight: 600;
      }
      .clear {
        margin-left: auto;
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
      }
      .cautions {
        max-width: 60em;
        margin: 0;
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
      }
      .first {
        display: grid;
        gap: var(--bench-space-4);
        justify-items: center;
        padding: var(--bench-space-6) var(--bench-space-4);
        border: 1px solid var(--bench-rule2);
        border-radius: var(--bench-radius-case);
        background: var(--bench-plate);
        text-align: center;
      }
      .first p {
        max-width: 30em;
        margin: 0;
        font: var(--bench-font-say);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  private readonly asked = new Map<string, string>();
  @query('bench-new-reed') private readonly newReed!: NewReed;
  @state() private pictures: ReadonlyMap<string, BladeMapData> = new Map();

  override updated(changed: PropertyValues<this>) {
    super.updated(changed);
    const { store } = this.library;
    for (const reed of store?.reeds ?? []) {
      const passes = store!.passesOf(reed.id);
      const key = JSON.stringify([reed.versions, passes.map(({ versions }) => versions)]);
      if (passes.length === 0 || this.asked.get(reed.id) === key) continue;
      this.asked.set(reed.id, key);
      void store!.models.bench(reed, passes).then((benched) => {
        const picture = slotPicture(benched);
        if (picture) this.pictures = new Map([...this.pictures, [reed.id, picture]]);
      });
    }
  }

  private handleNew() {
    this.newReed.show();
  }

  private handleInvented(wanted: boolean) {
    this.dispatchEvent(new InventedReedsEvent(wanted));
  }

  override render() {
    const { store } = this.library;
    if (!store) return nothing;
    const alive = store.reeds.filter(({ state: now }) => now !== 'retired');
    return html`<div class="page">
        <h1>${this.sentence(alive)}</h1>
        ${store.reeds.length === 0 ? this.renderFirst() : this.renderSlots(store.reeds)}
        ${this.renderActs(alive)}
        <p class="cautions">
          Knives: a steady rest, fingers out of the edge’s path, the blade sheathed when you put it down.
          Dust: work wet or with extraction. Local rules and licensed practitioners come first.
        </p>
      </div>
      <bench-new-reed></bench-new-reed>`;
  }

  private sentence(alive: readonly Reed[]): string {
    if (alive.length === 0) return 'The case is empty.';
    const count = COUNT[alive.length] ?? String(alive.length);
    const favourites = alive.filter(({ favourite }) => favourite).map(({ label }) => label);
    const kept = favourites.length > 0 ? ` ${favourites.join(', ')} is kept as the example to follow.` : '';
    return `${count} ${alive.length === 1 ? 'reed' : 'reeds'} in the case.${kept}`;
  }

  private renderFirst() {
    return html`<div class="first">
      <bench-blade-map plain blank .data=${BLANK}></bench-blade-map>
      <p>Nothing here yet. Read a reed, bring in a sheet, or look at four invented ones.</p>
      <button @click=${() => this.handleInvented(true)}>Look at invented reeds</button>
    </div>`;
  }

  private renderSlots(reeds: readonly Reed[]) {
    return html`<ul class="slots" aria-label="Reeds">
      ${reeds.map((reed) => {
        const picture = this.pictures.get(reed.id);
        const passes = this.library.store!.passesOf(reed.id);
        return html`<li>
          <a href=${hrefOf({ at: 'bench', reedId: reed.id, question: 'there' })}>
            <bench-blade-map
              plain
              ?blank=${!picture}
              .data=${picture ?? BLANK}
              aria-hidden="true"
            ></bench-blade-map>
            ${reed.favourite ? html`<span class="bars"></span>` : nothing}
            <span class="label">${reed.label}</span>
            <span class="fact">${reed.favourite ? 'favourite' : (reed.purpose ?? reed.state)}</span>
            <span class="fact"
              >${passes.length === 0 ? 'not read' : `${passes.length} ${passes.length === 1 ? 'pass' : 'passes'}`}${reed.invented ? ', invented' : ''}</span
            >
          </a>
        </li>`;
      })}
    </ul>`;
  }

  private renderActs(alive: readonly Reed[]) {
    const onBench = alive.find(({ state: now }) => now === 'scraping') ?? alive[0];
    const invented = this.library.store!.reeds.some((reed) => reed.invented);
    return html`<div class="acts">
      ${
        onBench
          ? html`<a class="main" href=${hrefOf({ at: 'bench', reedId: onBench.id, question: 'there' })}
              >Go on with ${onBench.label}</a
            >`
          : nothing
      }
      <button @click=${this.handleNew}>New reed</button>
      <a href=${hrefOf({ at: 'bring-in' })}>Bring in readings</a>
      ${
        invented
          ? html`<span class="clear"
              >Reeds marked invented are examples.
              <button @click=${() => this.handleInvented(false)}>Clear them away</button></span
            >`
          : nothing
      }
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-case': CaseScreen;
  }
  interface HTMLElementEventMap {
    'bench-invented-reeds': InventedReedsEvent;
  }
}
