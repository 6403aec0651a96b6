import { css, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { keyed } from 'lit/directives/keyed.js';
import type { Lot, Piece, Shape } from '../../shared/cane.ts';
import type { Id } from '../../shared/ids.ts';
import { byGouger } from '../../src/cane/gouge-drift.ts';
import { gougeNoise } from '../../src/cane/gouge-noise.ts';
import { lotFlow } from '../../src/cane/lot-flow.ts';
import { pieceColumns, type PieceColumn } from '../../src/cane/lot-pieces.ts';
import { originalCane } from '../../src/cane/original-cane.ts';
import { STARTING_GOUGE } from '../../src/cane/wished-gouge.ts';
import { apartText, sayCane } from '../../src/cane/say-cane.ts';
import { unbroken } from '../bench/question-element.ts';
import { hrefOf, type CaneRoute } from '../frame/routes.ts';
import { marks } from '../marks/marks.styles.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import '../caution/caution.ts';
import './gouge-drift.ts';
import './gouge-picture.ts';
import './lot-chart.ts';
import './lot-flow.ts';
import './lot-panel.ts';
import './lot-table.ts';
import './new-cane.ts';
import type { NewCane } from './new-cane.ts';
import type { PieceChosenEvent } from './piece-chosen-event.ts';
import './piece-panel.ts';
import './shape-outlines.ts';
import './shape-panel.ts';
import { usualPiece, usualShape } from './usual-cane.ts';

/** The cane: which piece went wrong, whether the gouger is moving, and what a lot becomes. */
@customElement('bench-cane')
export class CaneScreen extends BenchElement {
  static override styles = [
    controls,
    forms,
    fields,
    pages,
    marks,
    css`
      .page {
        gap: var(--bench-space-4);
      }
      h1 {
        max-width: none;
      }
      .three {
        display: flex;
        gap: var(--bench-space-4);
      }
      .three > * {
        flex: 1;
        min-width: 0;
      }
      .three > :nth-child(3) {
        flex-grow: 1.3;
      }
      .more {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(300px, 100%), 1fr));
        gap: 0 var(--bench-space-4);
      }
      details[open] {
        grid-column: 1 / -1;
      }
      .over {
        display: flex;
        flex-wrap: wrap;
        gap: 0 var(--bench-space-5);
        justify-content: space-between;
        align-items: center;
      }
      .lots {
        display: flex;
        flex-wrap: wrap;
        gap: 0 var(--bench-space-4);
        align-items: center;
      }
      .lots a {
        display: inline-flex;
        align-items: center;
        min-height: var(--bench-touch);
      }
      .lots a[aria-current] {
        font-weight: 600;
        text-decoration: none;
        border-bottom: 3px solid var(--bench-ink);
      }
      @media (max-width: 1000px) {
        .three {
          flex-direction: column;
        }
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @query('bench-new-cane') private readonly asker!: NewCane;
  @state() private chosenId = '';

  @property({ attribute: false }) route: CaneRoute = { at: 'cane' };

  override render() {
    const { store } = this.library;
    if (!store) return nothing;
    const { lot: lots, shape: shapes } = store.snapshot.live;
    const back = html`<a href=${hrefOf({ at: 'cane' })}>All lots and shapes</a>`;
    const { piece, shape } = this;
    return html`<div class="page">
      ${
        piece
          ? html`${back}${keyed(piece.id, html`<bench-piece-panel .piece=${piece}></bench-piece-panel>`)}`
          : shape
            ? html`${back}${keyed(shape.id, html`<bench-shape-panel .shape=${shape} .shapes=${shapes}></bench-shape-panel>`)}`
            : this.renderLots(lots, shapes)
      }
      <bench-caution about="machine knife dust"></bench-caution>
      <bench-new-cane></bench-new-cane>
    </div>`;
  }

  private get piece(): Piece | undefined {
    const { shown } = this.route;
    return shown?.kind === 'piece'
      ? this.library.store!.snapshot.live.piece.find(({ id }) => id === shown.id)
      : undefined;
  }

  private get shape(): Shape | undefined {
    const { shown } = this.route;
    return shown?.kind === 'shape'
      ? this.library.store!.snapshot.live.shape.find(({ id }) => id === shown.id)
      : undefined;
  }

  /** The lot of the address; else the one with the most pieces that were read. */
  private lotOfRoute(lots: readonly Lot[]): Lot | undefined {
    const { shown } = this.route;
    const own = lots.find(({ id }) => shown?.kind === 'lot' && id === shown.id);
    const count = ({ id }: Lot) =>
      this.library.store!.snapshot.live.piece.filter((one) => one.lotId === id && one.readings.length > 0)
        .length;
    return own ?? [...lots].sort((a, b) => count(b) - count(a))[0];
  }

  private renderLots(lots: readonly Lot[], shapes: readonly Shape[]) {
    const lot = this.lotOfRoute(lots);
    const { piece, reed, gauge } = this.library.store!.snapshot.live;
    const wished = this.library.choices.gouge ?? STARTING_GOUGE;
    const noise = gougeNoise(gauge.at(-1));
    const own = lot ? piece.filter(({ lotId }) => lotId === lot.id) : [];
    const columns = pieceColumns(own, reed, wished, noise);
    const chosen = this.chosen(columns);
    return html`<h1>${this.sentence(lots, columns)}</h1>
      <section class="plate">
        <div class="over">
          <h2>
            ${lot ? `Lot ${lot.code}, piece by piece` : 'Lots'}
            <small>${lot?.invented ? 'invented' : ''}</small>
          </h2>
          ${this.renderChoice(lots, shapes, lot?.id)}
        </div>
        ${
          lot
            ? html`<bench-lot-chart
                .columns=${columns}
                .wished=${wished}
                .writing=${this.library.writing}
                .code=${lot.code}
                .chosenId=${chosen?.piece.id ?? ''}
                @bench-piece-chosen=${({ pieceId }: PieceChosenEvent) => (this.chosenId = pieceId)}
              ></bench-lot-chart>`
            : html`<p class="say">
                A lot is drawn here piece by piece: the gouge at the middle and at both sides, the cut across,
                and what became of each.
              </p>`
        }
      </section>
      <div class="three">
        ${chosen ? this.renderChosen(chosen) : lot ? nothing : usualPiece(this.library.writing)}
        ${shapes.length > 0 ? this.renderShapes(shapes) : usualShape(this.library.writing)}
        ${lot ? this.renderFlow(lot) : nothing}
      </div>
      ${lot ? this.renderMore(lot, lots) : nothing}`;
  }

  private renderFlow(lot: Lot) {
    const { piece: pieces, reed: reeds, trial: trials } = this.library.store!.snapshot.live;
    return html`<section class="plate">
      <h2>From cane to good reed <small>lot ${lot.code}</small></h2>
      <bench-lot-flow
        .stages=${lotFlow(lot, { pieces, reeds, trials })}
        .code=${lot.code}
        .decimal=${this.library.choices.decimal}
      ></bench-lot-flow>
    </section>`;
  }

  private renderMore(lot: Lot, lots: readonly Lot[]) {
    return html`<div class="more">
      ${keyed(lot.id, html`<bench-lot-panel .lot=${lot}></bench-lot-panel>`)}
      <details>
        <summary>All lots side by side</summary>
        <bench-lot-table .shownId=${lot.id}></bench-lot-table>
        ${this.renderMachines(lots)}
      </details>
    </div>`;
  }

  private renderChoice(lots: readonly Lot[], shapes: readonly Shape[], shown: Id | undefined) {
    return html`<nav class="lots" aria-label="Lots and shapes">
      ${[...lots]
        .sort((a, b) => a.code.localeCompare(b.code))
        .map(
          ({ id, code }) =>
            html`<a
              href=${hrefOf({ at: 'cane', shown: { kind: 'lot', id } })}
              aria-current=${id === shown ? 'true' : nothing}
              >Lot ${code}</a
            >`,
        )}
      ${shapes.map(
        ({ id, name }) =>
          html`<a href=${hrefOf({ at: 'cane', shown: { kind: 'shape', id } })}>Shape ${name}</a>`,
      )}
      <button @click=${() => this.asker.show('lot')}>New lot</button>
      <button @click=${() => this.asker.show('shape')}>New shape</button>
    </nav>`;
  }

  /** The piece that was come to; else the last over its limit, else the last one read. */
  private chosen(columns: readonly PieceColumn[]): PieceColumn | undefined {
    return (
      columns.find(({ piece }) => piece.id === this.chosenId) ??
      columns.findLast(({ judged }) => judged === 'too different') ??
      columns.findLast(({ centre }) => centre !== undefined)
    );
  }

  private renderChosen(column: PieceColumn) {
    const { piece, reed, sideDifference, judged } = column;
    const noise = gougeNoise(this.library.store!.snapshot.live.gauge.at(-1));
    const { writing } = this.library;
    const apart = sideDifference ? apartText(sideDifference, writing) : '';
    return html`<section class="plate">
      <h2>
        <a href=${hrefOf({ at: 'cane', shown: { kind: 'piece', id: piece.id } })}>Piece ${piece.number}</a>
        <small>cut across, laid flat</small>
      </h2>
      <bench-gouge-picture
        of=${`Piece ${piece.number}`}
        .readings=${piece.readings}
        .curve=${originalCane(piece, noise)?.curve}
        .wished=${this.library.choices.gouge ?? STARTING_GOUGE}
        .writing=${writing}
      ></bench-gouge-picture>
      <p class="quiet">
        ${apart ? `Side 1 less side 2: ${apart}${judged === 'too different' ? ', over your limit' : ''}. ` : 'Its sides were not read. '}
        ${reed ? html`It became <a href=${hrefOf({ at: 'bench', reedId: reed.id, question: 'there' })}>${unbroken(reed.label)}</a>.` : nothing}
      </p>
    </section>`;
  }

  private renderShapes(shapes: readonly Shape[]) {
    return html`<section class="plate">
      <h2>Shapes <small>over each other; flare ten times</small></h2>
      <bench-shape-outlines .shapes=${shapes} .decimal=${this.library.choices.decimal}></bench-shape-outlines>
    </section>`;
  }

  private sentence(lots: readonly Lot[], columns: readonly PieceColumn[]) {
    const { piece: pieces, reed: reeds } = this.library.store!.snapshot.live;
    const { say, mind } = sayCane({ lots, pieces, reeds }, columns, this.library.writing);
    return html`${unbroken(say)} ${mind ? html`<em>${mind}</em>` : nothing}`;
  }

  /** The gouge of every machine over all lots. */
  private renderMachines(lots: readonly Lot[]) {
    const codes = new Map(lots.map(({ id, code }) => [id, code]));
    return byGouger(this.library.store!.snapshot.live.piece).map(
      ({ gouger, pieces }) =>
        html`<bench-gouge-drift .pieces=${pieces} .codes=${codes} .of=${gouger}></bench-gouge-drift>`,
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-cane': CaneScreen;
  }
}
