import { html } from 'lit';
import { customElement } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { openingOf } from '../bench/opening-data.ts';
import '../charts/opening.ts';
import { ReedPart } from './reed-part.ts';

/** The opening of a reed seen from the cork, with the thickness of its four corners. */
@customElement('bench-reed-opening')
export class ReedOpening extends ReedPart {
  protected override renderReed({ benched, pass }: ReedAtPass) {
    return guard([benched, pass, this.unit, this.decimal], () => {
      const opening = openingOf(benched, pass);
      if (!opening) return html`<p>Only one blade was read: there is no opening to show.</p>`;
      return html`<bench-opening
        .data=${opening}
        .unit=${this.unit}
        .decimal=${this.decimal}
      ></bench-opening>`;
    });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-opening': ReedOpening;
  }
}
