import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { NO_FIGURE, type FigureText } from '../../src/words/format.ts';
import { base, tables } from '../theme/base.styles.ts';

/** One cell: a figure with its doubt, a plain text, or the reason why there is none. */
export type FigureCell = FigureText | string | { readonly none: string };

export interface FigureRow {
  readonly title: string;
  readonly cells: readonly FigureCell[];
  /** The row of the place that the answer points out. */
  readonly marked?: boolean;
  /** Something odd stands in it: a lozenge, and this sentence. */
  readonly odd?: string;
}

/**
 * A table of figures, each with its doubt set smaller; what is inside its doubt is pale and in brackets. A missing figure is a
 * dash that says why.
 */
@customElement('bench-figures-table')
export class FiguresTable extends LitElement {
  static override styles = [
    base,
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
      tbody th {
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

  override render() {
    return html`<table>
      <caption>
        ${this.caption}
      </caption>
      <thead>
        <tr>
          ${this.heads.map((head) => html`<th scope="col">${head}</th>`)}
        </tr>
      </thead>
      <tbody>
        ${this.rows.map((row) => this.renderRow(row))}
      </tbody>
    </table>`;
  }

  private renderRow({ title, cells, marked, odd }: FigureRow) {
    return html`<tr ?data-marked=${marked}>
      <th scope="row">
        ${odd ? html`<span class="lozenge" role="img" aria-label=${odd} title=${odd}>&#9671;</span>` : nothing}
        ${title}
      </th>
      ${cells.map((cell) => html`<td>${this.renderCell(cell)}</td>`)}
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
