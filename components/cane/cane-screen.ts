import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { keyed } from 'lit/directives/keyed.js';
import type { Lot, Piece, Shape } from '../../shared/cane.ts';
import type { Id } from '../../shared/ids.ts';
import { gougeDrift, meanOfPieces } from '../../src/cane/gouge-drift.ts';
import { lotYield } from '../../src/cane/lot-yield.ts';
import { countWord, sentence } from '../../src/answers/figure-words.ts';
import { differenceFigure, UNIT_WORDS } from '../../src/report/format.ts';
import { hrefOf, type CaneRoute } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls, tables } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import '../caution/caution.ts';
import './lot-panel.ts';
import './piece-panel.ts';
import './shape-panel.ts';

const lotOrder = (a: Lot, b: Lot) => a.code.localeCompare(b.code, 'en', { numeric: true });

/** The cane: lots and what became of them, pieces and how they were gouged, shapes and how they differ. */
@customElement('bench-cane')
export class CaneScreen extends LitElement {
  static override styles = [
    base,
    controls,
    forms,
    fields,
    pages,
    tables,
    css`
      .page {
        display: grid;
        grid-template-columns: minmax(0, 440px) minmax(0, 1fr);
        gap: var(--bench-space-5) 44px;
        padding: var(--bench-space-4) var(--bench-page-margin) var(--bench-space-7);
      }
      .left {
        display: grid;
        gap: var(--bench-space-6);
        align-content: start;
      }
      th a,
      li a {
        display: inline-flex;
        align-items: center;
        min-height: var(--bench-touch);
        padding-right: var(--bench-space-4);
        font: var(--bench-font-aside);
        text-underline-offset: 3px;
      }
      tr[data-shown] {
        background: var(--bench-sunk);
      }
      ul {
        margin: 0;
        padding: 0;
        list-style: none;
      }
      li {
        border-bottom: 1px solid var(--bench-rule);
      }
      td small {
        color: var(--bench-ink3);
      }
      .back {
        display: none;
        align-items: center;
        min-height: var(--bench-touch);
      }
      @media (max-width: 1000px) {
        .page {
          grid-template-columns: minmax(0, 1fr);
        }
        .page[data-shown] .left {
          display: none;
        }
        .page[data-shown] .back {
          display: inline-flex;
        }
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  @query('dialog') private readonly dialog!: HTMLDialogElement;
  @state() private making: 'lot' | 'shape' = 'lot';
  @state() private problem = '';

  @property({ attribute: false }) route: CaneRoute = { at: 'cane' };

  private get lots(): readonly Lot[] {
    return [...this.library.store!.snapshot.live.lot].sort(lotOrder);
  }

  private get shapes(): readonly Shape[] {
    return this.library.store!.snapshot.live.shape;
  }

  private handleNew(kind: 'lot' | 'shape') {
    this.making = kind;
    this.problem = '';
    this.dialog.querySelector('form')!.reset();
    this.dialog.showModal();
  }

  private handleLeave() {
    this.dialog.close();
  }

  private async handleMake(event: SubmitEvent) {
    event.preventDefault();
    const name = String(new FormData(event.currentTarget as HTMLFormElement).get('name') ?? '').trim();
    const store = this.library.store!;
    const id = store.ledger.newId();
    const isLot = this.making === 'lot';
    const taken = isLot
      ? this.lots.some(({ code }) => code === name)
      : this.shapes.some((one) => one.name === name);
    const most = isLot ? 8 : 80;
    if (name === '' || taken || name.length > most) {
      this.problem = taken ? `There is a ${name} already.` : `Write a name of 1 to ${most} letters.`;
      return;
    }
    const kept = isLot
      ? await store.keep([{ kind: 'lot', id, code: name }], `new lot ${name}`)
      : await store.keep([{ kind: 'shape', id, name, widths: STARTING_WIDTHS }], `new shape ${name}`);
    if (!kept) return;
    this.dialog.close();
    location.hash = hrefOf({ at: 'cane', shown: { kind: this.making, id } });
  }

  override render() {
    if (!this.library.store) return nothing;
    const { lots } = this;
    return html`<div class="page" ?data-shown=${this.route.shown !== undefined}>
      <div class="left">
        <section>
          <h1>${this.sentence(lots)}</h1>
          ${lots.length > 0 ? this.renderLots(lots) : nothing}
          <div class="acts"><button @click=${() => this.handleNew('lot')}>New lot</button></div>
        </section>
        <section>
          <h2>Shapes</h2>
          ${this.renderShapes()}
          <div class="acts"><button @click=${() => this.handleNew('shape')}>New shape</button></div>
        </section>
        <bench-caution about="machine knife dust"></bench-caution>
      </div>
      <div>
        <a class="back" href=${hrefOf({ at: 'cane' })}>All lots and shapes</a>
        ${this.renderShown(lots)}
      </div>
      ${this.renderDialog()}
    </div>`;
  }

  private sentence(lots: readonly Lot[]) {
    if (lots.length === 0) return 'No lots. A reed may live without one.';
    const { piece, reed } = this.library.store!.snapshot.live;
    const ofLots = reed.filter(({ lotId }) => lots.some(({ id }) => id === lotId)).length;
    const words = `${countWord(lots.length)} ${lots.length === 1 ? 'lot' : 'lots'}, ${countWord(piece.length)} ${piece.length === 1 ? 'piece' : 'pieces'} gouged, ${countWord(ofLots)} ${ofLots === 1 ? 'reed' : 'reeds'} made.`;
    return sentence(words);
  }

  private get shownLotId(): Id | undefined {
    const { shown } = this.route;
    if (shown?.kind === 'lot') return shown.id;
    return this.shownPiece?.lotId;
  }

  private get shownPiece(): Piece | undefined {
    const { shown } = this.route;
    return shown?.kind === 'piece'
      ? this.library.store!.snapshot.live.piece.find(({ id }) => id === shown.id)
      : undefined;
  }

  private renderLots(lots: readonly Lot[]) {
    const { piece, reed, trial } = this.library.store!.snapshot.live;
    return html`<div class="scroll">
      <table>
        <caption>
          What became of each lot; side 1 less side 2 in ${UNIT_WORDS[this.library.writing.unit].caption}, ±
          95 %
        </caption>
        <thead>
          <tr>
            <th scope="col">Lot</th>
            <th scope="col">Pieces</th>
            <th scope="col">Kept</th>
            <th scope="col">Reeds</th>
            <th scope="col">Good</th>
            <th scope="col">Side difference</th>
          </tr>
        </thead>
        <tbody>
          ${lots.map((lot) => {
            const found = lotYield(lot, { pieces: piece, reeds: reed, trials: trial });
            return html`<tr ?data-shown=${this.shownLotId === lot.id}>
              <th scope="row">
                <a
                  href=${hrefOf({ at: 'cane', shown: { kind: 'lot', id: lot.id } })}
                  aria-current=${this.shownLotId === lot.id ? 'true' : nothing}
                  >${lot.code}${lot.invented ? ', invented' : ''}</a
                >
              </th>
              <td>${found.pieces}</td>
              <td>${found.kept}</td>
              <td>${found.reeds}</td>
              <td>${found.goodReeds}</td>
              <td>${this.sideDifference(lot)}</td>
            </tr>`;
          })}
        </tbody>
      </table>
    </div>`;
  }

  private sideDifference(lot: Lot) {
    const pieces = this.library.store!.snapshot.live.piece.filter(({ lotId }) => lotId === lot.id);
    const mean = meanOfPieces(gougeDrift(pieces, 'sideDifference').points);
    if (!mean) return '–';
    const { value, doubt } = differenceFigure(mean, this.library.writing);
    return html`${value} <small>${doubt}</small>`;
  }

  private renderShapes() {
    const { shapes } = this;
    if (shapes.length === 0) return html`<p class="quiet">None yet. A shape gives a blade its outline.</p>`;
    return html`<ul>
      ${shapes.map(
        ({ id, name, invented }) =>
          html`<li>
            <a href=${hrefOf({ at: 'cane', shown: { kind: 'shape', id } })}
              >${name}${invented ? ', invented' : ''}</a
            >
          </li>`,
      )}
    </ul>`;
  }

  private renderShown(lots: readonly Lot[]) {
    const { shown } = this.route;
    if (shown?.kind === 'shape') {
      const shape = this.shapes.find(({ id }) => id === shown.id);
      return shape
        ? keyed(
            shape.id,
            html`<bench-shape-panel .shape=${shape} .shapes=${this.shapes}></bench-shape-panel>`,
          )
        : nothing;
    }
    const piece = this.shownPiece;
    if (piece) return keyed(piece.id, html`<bench-piece-panel .piece=${piece}></bench-piece-panel>`);
    const lot = lots.find(({ id }) => id === this.shownLotId);
    return lot ? keyed(lot.id, html`<bench-lot-panel .lot=${lot}></bench-lot-panel>`) : nothing;
  }

  private renderDialog() {
    const isLot = this.making === 'lot';
    return html`<dialog aria-labelledby="title">
      <h2 id="title">New ${this.making}</h2>
      <form @submit=${this.handleMake}>
        <label
          >${isLot ? 'Letters that begin the labels of its reeds' : 'Name of the shape'}<input
            name="name"
            autofocus
            autocomplete="off"
        /></label>
        ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
        <div class="acts">
          <button class="main">Keep</button><button type="button" @click=${this.handleLeave}>Leave it</button>
        </div>
      </form>
    </dialog>`;
  }
}

/** A new shape begins with a usual outline, for the maker to overwrite. Common practice, no source. */
const STARTING_WIDTHS: Shape['widths'] = [
  [0, 7],
  [2, 6.96],
  [5, 6.74],
  [8, 6.36],
  [11, 5.93],
  [15, 5.39],
  [19, 4.94],
  [23, 4.65],
  [26, 4.55],
].map(([fromFoldMm, widthMm]) => ({ fromFoldMm: fromFoldMm!, widthMm: widthMm! }));

declare global {
  interface HTMLElementTagNameMap {
    'bench-cane': CaneScreen;
  }
}
