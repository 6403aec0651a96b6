import { html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import { takenTable } from '../../src/answers/record/taken-tables.ts';
import { sayTakenOff } from '../../src/answers/say-taken-off.ts';
import { sentence } from '../../src/words/figure-words.ts';
import { UNIT_WORDS } from '../../src/words/format.ts';
import { SEEN } from '../bench/plate-data.ts';
import { TAKEN_ENDS, TAKEN_KEY, TAKEN_NOTE, takenPlate } from '../bench/taken-plate.ts';
import '../figures-table/figures-table.ts';
import '../map/blade-pair.ts';
import { ReedPart } from './reed-part.ts';

/** What came off a reed between two passes: by place, coloured only where the gauge can tell it from nothing, and by zone. */
@customElement('bench-reed-taken')
export class ReedTaken extends ReedPart {
  /** Number of the earlier pass; the one before the pass that is shown while absent. */
  @property({ type: Number, reflect: true }) since: number | undefined;

  protected override renderReed(at: ReedAtPass) {
    const numbers = at.benched.assembled.passes.map(({ index }) => index);
    const before = this.since === undefined ? at.pass - 1 : numbers.indexOf(this.since);
    if (this.since !== undefined && (before < 0 || before >= at.pass))
      return html`<p role="alert" part="problem">There is no pass ${this.since} before this one.</p>`;
    if (before < 0) return html`<p>One pass so far: nothing was taken off between two.</p>`;
    return guard([at.benched, at.pass, before, this.unit, this.decimal], () =>
      this.renderTaken(at, before, numbers),
    );
  }

  private renderTaken(at: ReedAtPass, before: number, numbers: readonly number[]) {
    const { writing } = this;
    const figures = figuresOf(at);
    const { A, B } = takenPlate(at.benched, at.pass, before);
    const { say, mind } = sayTakenOff(at.benched, figures.taken(before), writing);
    return html`<p>${say} ${mind}</p>
      <bench-blade-pair
        .a=${A}
        .b=${B}
        quantity="difference"
        .unit=${writing.unit}
        .decimal=${writing.decimal}
        heading=${`Taken off between pass ${numbers[before]} and pass ${numbers[at.pass]}`}
        .ends=${TAKEN_ENDS}
        caption=${`${sentence(UNIT_WORDS[writing.unit].caption)}. ${SEEN}`}
        note=${TAKEN_NOTE}
        label=${say}
        .key=${TAKEN_KEY}
      ></bench-blade-pair>
      <div class="scroll" tabindex="0" role="group" aria-label="Taken off by zone">
        <bench-figures-table .table=${takenTable(figures, before)} .writing=${writing}></bench-figures-table>
      </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-taken': ReedTaken;
  }
}
