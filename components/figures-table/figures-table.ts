import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { FigureTable } from '../../src/figures/figure.ts';
import { NO_FIGURE, type NumberFormat } from '../../src/words/format.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './copy-table.ts';
import { figureCells } from './figure-cells.ts';
import { laidOut, type FigureCell, type FigureRow } from './laid-out.ts';

/**
 * A table of figures, each with its doubt set smaller; what is inside its doubt is pale and in brackets. A missing figure is a
 * dash that says why.
 */
@customElement('bench-figures-table')
export class FiguresTable extends BenchElement {
  static override styles = [
    tables,
    css`
      tr[data-marked] > * {
        background: var(--bench-sunk);
      }
      td,
      th {
        padding-block: var(--bench-row-padding, 5px);
        white-space: nowrap;
      }
      tbody th,
      thead th:first-child {
        white-space: normal;
      }
      td:last-child,
      thead th:last-child {
        padding-right: 0;
      }
      .doubt,
      .in-doubt,
      .none {
        color: var(--bench-ink3);
      }
      .doubt {
        font-size: 0.86em;
      }
      .lozenge {
        color: var(--bench-excess);
      }
    `,
  ];

  /** What is counted, in which unit, and what ± means. */
  @property() caption = '';
  /** Headings, the first over the names of the rows. */
  @property({ attribute: false }) heads: readonly string[] = [];
  @property({ attribute: false }) rows: readonly FigureRow[] = [];

  /** A table of a record; caption, heads and rows are its own then. */
  @property({ attribute: false }) table: FigureTable | undefined;
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  override render() {
    const { caption, heads, rows } = this.table ? laidOut(this.table, this.writing) : this;
    return html`<table>
      <caption>
        ${caption}
        <bench-copy .cells=${() => figureCells(heads, rows)}></bench-copy>
      </caption>
      <thead>
        <tr>
          ${heads.map((head) => html`<th scope="col">${head}</th>`)}
        </tr>
      </thead>
      <tbody>
        ${rows.map((row) => this.renderRow(row))}
      </tbody>
    </table>`;
  }

  private renderRow({ title, cells, names, marked, odd }: FigureRow) {
    return html`<tr ?data-marked=${marked}>
      <th scope="row">
        ${odd ? html`<span class="lozenge" role="img" aria-label=${odd} title=${odd}>&#9671;</span>` : nothing}
        ${title}
      </th>
      ${cells.map((cell, i) => html`<td data-figure=${names?.[i] ?? nothing}>${this.renderCell(cell)}</td>`)}
    </tr>`;
  }

  private renderCell(cell: FigureCell) {
    if (typeof cell === 'string') return cell;
    if ('none' in cell)
      return html`<span class="none" title=${cell.none} aria-hidden="true">${NO_FIGURE}</span
        ><span class="said">${cell.none}</span>`;
    const { value, doubt, inDoubt } = cell;
    return html`<span class=${inDoubt ? 'in-doubt' : ''}>${value}</span> <span class="doubt">${doubt}</span>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-figures-table': FiguresTable;
  }
}
