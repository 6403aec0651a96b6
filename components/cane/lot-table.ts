import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Lot } from '../../shared/cane.ts';
import type { Id } from '../../shared/ids.ts';
import { gougeDrift, meanOfPieces } from '../../src/cane/gouge-drift.ts';
import { gougeNoise } from '../../src/cane/gouge-noise.ts';
import { lotYield } from '../../src/cane/lot-yield.ts';
import { differenceFigure, UNIT_WORDS } from '../../src/words/format.ts';
import '../figures-table/copy-table.ts';
import { hrefOf } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const byCode = (a: Lot, b: Lot) => a.code.localeCompare(b.code, 'en', { numeric: true });

/** All lots of cane and what became of each. */
@customElement('bench-lot-table')
export class LotTable extends BenchElement {
  static override styles = [
    tables,
    css`
      .scroll {
        overflow-x: auto;
      }
      th a {
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
      td small {
        color: var(--bench-ink3);
      }
    `,
  ];

  private readonly library = new LibraryController(this);

  /** The lot that is shown beside the table. */
  @property({ attribute: false }) shownId: Id | undefined;

  override render() {
    const { store } = this.library;
    if (!store || store.snapshot.live.lot.length === 0) return nothing;
    return html`<div class="scroll">
      <table>
        <caption>
          What became of each lot; side 1 less side 2 in ${UNIT_WORDS[this.library.writing.unit].caption}, ±
          95 %
          <bench-copy></bench-copy>
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
          ${[...store.snapshot.live.lot].sort(byCode).map((lot) => this.renderLot(lot))}
        </tbody>
      </table>
    </div>`;
  }

  private renderLot(lot: Lot) {
    const { piece, reed, trial } = this.library.store!.snapshot.live;
    const found = lotYield(lot, { pieces: piece, reeds: reed, trials: trial });
    return html`<tr ?data-shown=${this.shownId === lot.id}>
      <th scope="row">
        <a
          href=${hrefOf({ at: 'cane', shown: { kind: 'lot', id: lot.id } })}
          aria-current=${this.shownId === lot.id ? 'true' : nothing}
          >${lot.code}${lot.invented ? ', invented' : ''}</a
        >
      </th>
      <td>${found.pieces}</td>
      <td>${found.kept}</td>
      <td>${found.reeds}</td>
      <td>${found.goodReeds}</td>
      <td>${this.sideDifference(lot)}</td>
    </tr>`;
  }

  private sideDifference(lot: Lot) {
    const pieces = this.library.store!.snapshot.live.piece.filter(({ lotId }) => lotId === lot.id);
    const noise = gougeNoise(this.library.store!.snapshot.live.gauge.at(-1));
    const mean = meanOfPieces(gougeDrift(pieces, 'sideDifference', noise).points);
    if (!mean) return '–';
    const { value, doubt } = differenceFigure(mean, this.library.writing);
    return html`${value} <small>${doubt}</small>`;
  }
}
