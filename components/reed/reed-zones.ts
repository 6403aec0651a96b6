import { customElement, property } from 'lit/decorators.js';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { TABLE_NAMES, type TableName } from '../../src/answers/record/record.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
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
    return this.renderTable(figuresOf(at).table(this.table));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-zones': ReedZones;
  }
}
