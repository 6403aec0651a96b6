import { html, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import type { FittedReed, ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { besideTables } from '../../src/plan/beside-figures.ts';
import { besideGrid, compare } from '../../src/plan/compare.ts';
import { sayCompared } from '../../src/plan/say-compared.ts';
import { targetFromReed } from '../../src/plan/target.ts';
import { UNIT_WORDS } from '../../src/words/format.ts';
import '../figures-table/figures-table.ts';
import '../map/blade-pair.ts';
import { PATCHES_NOTE, TARGET_ENDS, TARGET_KEY, targetPlate } from '../plan/target-plate.ts';
import type { Readings } from './given.ts';
import { ReedPart } from './reed-part.ts';
import { ReedSource } from './reed-source.ts';

/**
 * A reed beside another one, a favourite for example, placed from the tip: excess that can be scraped, and lack that
 * cannot be put back, each only where it can be told from nothing.
 */
@customElement('bench-reed-beside')
export class ReedBeside extends ReedPart {
  private readonly example = new ReedSource(this, () => undefined);

  /** Address of the other reed's readings. */
  @property({ reflect: true, useDefault: true }) compare = '';
  /** The other reed's readings themselves, as of `data`. */
  @property({ attribute: false }) compareData: Readings | undefined;
  /** The other reed, fitted already. */
  @property({ attribute: false }) compareFitted: FittedReed | undefined;
  /** Label of the other reed, where its readings hold several. */
  @property({ attribute: 'compare-reed', reflect: true, useDefault: true }) compareReed = '';
  /** Number of the other reed's pass; its last one while absent. */
  @property({ type: Number, attribute: 'compare-pass', reflect: true }) comparePass: number | undefined;

  override willUpdate(changed: PropertyValues) {
    super.willUpdate(changed);
    const isOther = ['compare', 'compareData', 'compareFitted', 'compareReed', 'reedStyle'].some((name) =>
      changed.has(name),
    );
    if (!isOther || this.misfit) return;
    const { compare, compareData, compareReed: label, reedStyle: styleId } = this;
    const given = compareData !== undefined ? { data: compareData } : compare ? { src: compare } : undefined;
    this.example.give(given && !this.compareFitted ? { given, label, styleId } : undefined);
  }

  protected override renderReed(at: ReedAtPass) {
    const now = this.example.state;
    const other = this.compareFitted ?? (now.is === 'fitted' ? now.benched : undefined);
    if (!other)
      return this.renderSource(this.example, 'Nothing to set it beside yet: set compare or compareData.');
    return this.atPass(other, this.comparePass, (example) =>
      guard([at.benched, at.pass, example.benched, example.pass, this.unit, this.decimal], () =>
        this.renderBeside(at, example),
      ),
    );
  }

  private renderBeside(at: ReedAtPass, example: ReedAtPass) {
    const { writing } = this;
    const compared = compare(at, targetFromReed(example, besideGrid(at)));
    const { A, B } = targetPlate(at.benched, at.pass, compared.excess);
    const { say, mind } = sayCompared(compared, writing);
    const [own, other] = [at.benched.reed.label, compared.target.name];
    return html`<p>${say} ${mind}</p>
      <bench-blade-pair
        .a=${A}
        .b=${B}
        quantity="difference"
        .unit=${writing.unit}
        .decimal=${writing.decimal}
        heading=${`${own} beside ${other}`}
        .ends=${TARGET_ENDS}
        caption=${`${own} less ${other}, ${UNIT_WORDS[writing.unit].caption}.`}
        note=${PATCHES_NOTE}
        label=${say}
        .key=${TARGET_KEY}
      ></bench-blade-pair>
      <div class="scroll" tabindex="0" role="group" aria-label=${`Zones of ${own} and of ${other}`}>
        <bench-figures-table .table=${besideTables(compared).zones} .writing=${writing}></bench-figures-table>
      </div>
      <p class="note">Thickness explains only a part of how a reed plays.</p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-beside': ReedBeside;
  }
}
