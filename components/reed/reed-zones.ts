import { html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { TABLE_NAMES, type TableName } from '../../src/answers/record/record.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import '../figures-table/figures-table.ts';
import { oneOf, ReedPart } from './reed-part.ts';

/** A table of a reed's figures, each with its ± at 95 %: the means of its zones, unless another table is asked for. */
@customElement('bench-reed-zones')
export class ReedZones extends ReedPart {
  /** Which table: `zones`, `balance`, `crossings`, `ratios`, `extent` or `believable`. */
  @property({ reflect: true, useDefault: true }) table: TableName = 'zones';

  protected override get misfit() {
    return super.misfit ?? oneOf('table', this.table, TABLE_NAMES);
  }

  protected override renderReed(at: ReedAtPass) {
    return html`<div class="scroll" tabindex="0" role="group" aria-label="Table">
      <bench-figures-table
        .table=${figuresOf(at).table(this.table)}
        .writing=${this.writing}
      ></bench-figures-table>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-zones': ReedZones;
  }
}
