import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import type { Place } from '../../shared/blade.ts';
import { differenceWords } from '../../src/answers/difference-words.ts';
import { zonesAt, type FittedReed, type ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { besideTables } from '../../src/plan/beside-figures.ts';
import { besideGrid, compare, type Compared } from '../../src/plan/compare.ts';
import { sayCompared } from '../../src/plan/say-compared.ts';
import { targetFromReed } from '../../src/plan/target.ts';
import { UNIT_WORDS } from '../../src/words/format.ts';
import { lastResult } from '../last-result.ts';
import { PATCHES_NOTE, TARGET_ENDS, targetKey, targetPlate } from '../plan/target-plate.ts';
import type { Readings } from './given.ts';
import { listed, someOf } from './reed-part.ts';
import { ReedPlate } from './reed-plate.ts';
import { ReedSource } from './reed-source.ts';

const SHOWN = ['words', 'map', 'zones'];

/**
 * A reed beside another one, a favourite for example, placed from the tip: excess that can be scraped, and lack that
 * cannot be put back, each only where it can be told from nothing.
 */
@customElement('bench-reed-beside')
export class ReedBeside extends ReedPlate {
  private readonly example = new ReedSource(this, () => undefined);
  private readonly comparison = lastResult(
    (benched: FittedReed, pass: number, other: FittedReed, otherPass: number) => {
      const at = { benched, pass };
      return compare(at, targetFromReed({ benched: other, pass: otherPass }, besideGrid(at)));
    },
  );
  private readonly plate = lastResult(targetPlate);

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

  /** What it is set beside and how far it is from it, made already by `beside` of the core. */
  @property({ attribute: false }) compared: Compared | undefined;
  /** What is said under the maps; what their colours rest on unless told. */
  @property() note = PATCHES_NOTE;
  /** What is shown, words with blanks between: `words`, `map`, `zones`. */
  @property({ reflect: true, useDefault: true }) show = 'words map zones';

  protected override get misfit() {
    return super.misfit ?? someOf('show', this.show, SHOWN);
  }

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
    if (this.compared) return this.renderBeside(at, this.compared);
    const now = this.example.state;
    const other = this.compareFitted ?? (now.is === 'fitted' ? now.benched : undefined);
    if (!other)
      return this.renderSource(this.example, 'Nothing to set it beside yet: set compare or compareData.');
    return this.atPass(other, this.comparePass, ({ benched, pass }) =>
      this.renderBeside(at, this.comparison(at.benched, at.pass, benched, pass)),
    );
  }

  private renderBeside(at: ReedAtPass, compared: Compared) {
    const shown = listed(this.show);
    const { say, mind } = sayCompared(compared, this.writing);
    return html`${shown.includes('words') ? html`<p>${say} ${mind}</p>` : nothing}
    ${shown.includes('map') ? this.renderPlate(at, this.sheet(at, compared, say)) : nothing}
    ${
      shown.includes('zones')
        ? html`${guard([compared, this.unit, this.decimal], () => this.renderTable(besideTables(compared).zones))}
            <p class="note">Thickness explains only a part of how a reed plays.</p>`
        : nothing
    }`;
  }

  private sheet({ benched, pass }: ReedAtPass, { target, excess }: Compared, say: string) {
    const { label } = benched.reed;
    return {
      plate: this.plate(benched, pass, excess),
      quantity: 'difference' as const,
      heading: `${label} beside ${target.name}`,
      caption: `${label} less ${target.name}, ${UNIT_WORDS[this.unit].caption}.`,
      note: this.note,
      // Where the words stand beside it they are heard once.
      label: this.bare ? '' : say,
      ends: TARGET_ENDS,
      key: targetKey(target),
      carried: 'ghost' as const,
      probed: (place: Place) => differenceWords(excess, place, zonesAt(benched, pass), this.writing),
    };
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-beside': ReedBeside;
  }
}
