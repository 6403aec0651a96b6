import { html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import type { Probed } from '../../src/answers/probe-words.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import { sayThereNow } from '../../src/answers/there-now.ts';
import { sentence } from '../../src/words/figure-words.ts';
import { SEEN, type Plate } from '../bench/plate-data.ts';
import { PRINTED, readingKey } from '../bench/printed.ts';
import '../map/blade-pair.ts';
import { quantityUnit } from '../map/quantity-text.ts';
import { oneOf, ReedPart } from './reed-part.ts';

/**
 * Both blades of a reed as maps, bark side, tip up, with their readings.
 *
 * Keys: Tab comes to a blade, arrows walk its readings, `x` goes to the facing place of the other blade.
 */
@customElement('bench-reed-map')
export class ReedMap extends ReedPart {
  /**
   * What the colours stand for: `thickness`, `through` (the surface through every reading), `doubt` (the ± of each place),
   * `believable` (the smallest change to believe) or `slope`.
   */
  @property({ reflect: true, useDefault: true }) shows: Probed = 'thickness';

  protected override get misfit() {
    return super.misfit ?? oneOf('shows', this.shows, Object.keys(PRINTED));
  }

  protected override renderReed(at: ReedAtPass) {
    return guard([at.benched, at.pass, this.shows, this.unit, this.decimal], () => this.renderPair(at));
  }

  private renderPair(at: ReedAtPass) {
    const { writing } = this;
    const { words, quantity, plate, note } = PRINTED[this.shows];
    const { A, B }: Plate = plate(at.benched, at.pass);
    return html`<bench-blade-pair
      .a=${A}
      .b=${B}
      .quantity=${quantity}
      .unit=${writing.unit}
      .decimal=${writing.decimal}
      heading=${words}
      caption=${`${sentence(quantityUnit(quantity, writing.unit))}. ${SEEN}`}
      note=${note(writing)}
      label=${sayThereNow(figuresOf(at), writing).say}
      .key=${readingKey(quantity)}
    ></bench-blade-pair>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-map': ReedMap;
  }
}
