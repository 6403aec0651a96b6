import { css, html } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { BenchElement } from '../theme/bench-element.ts';
import { copyButton } from './copy-cells.ts';
import { tableCells } from './table-cells.ts';

/** Copies a table as plain cells: the one in whose caption it stands, or right behind which. */
@customElement('bench-copy')
export class CopyTable extends BenchElement {
  static override styles = css`
    :host {
      display: var(--bench-copy-display, inline);
    }
    button {
      min-height: var(--bench-touch);
      /* As high as a finger needs, without parting the lines of a caption. */
      margin-block: calc((1lh - var(--bench-touch)) / 2);
      padding: 0 var(--bench-space-2);
      border: 0;
      background: none;
      color: var(--bench-ink2);
      font: var(--bench-font-caption);
      text-decoration: underline;
      text-underline-offset: 3px;
      cursor: pointer;
    }
    @media print {
      :host {
        display: none;
      }
    }
  `;

  @state() private said = '';

  /** The cells, where the table's own text is not what is to be copied. */
  @property({ attribute: false }) cells: (() => readonly (readonly string[])[]) | undefined;

  private readonly read = () => {
    const table = this.closest('table') ?? this.previousElementSibling;
    return this.cells?.() ?? (table instanceof HTMLTableElement ? tableCells(table) : []);
  };

  override render() {
    return html`${copyButton('Copy', this.read, (said) => (this.said = said))}
      <span class="said" role="status">${this.said}</span>`;
  }
}
