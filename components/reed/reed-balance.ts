import { html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { evenness, sayEvenness } from '../../src/answers/even.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import '../charts/whiskers.ts';
import { listed, ReedPart, someOf } from './reed-part.ts';

const SHOWN = ['words', 'figures'];

/** Whether a reed is even: blade against blade, right against left, side 1 against side 2, zone by zone. */
@customElement('bench-reed-balance')
export class ReedBalance extends ReedPart {
  /** What is shown, words with blanks between: `words`, `figures`. */
  @property({ reflect: true, useDefault: true }) show = 'words figures';

  protected override get misfit() {
    return super.misfit ?? someOf('show', this.show, SHOWN);
  }

  protected override renderReed(at: ReedAtPass) {
    const { writing } = this;
    const figures = figuresOf(at);
    const zones = evenness(figures);
    if (zones.length === 0) return html`<p>Only one blade was read: there is nothing to set it against.</p>`;
    const { say, mind } = sayEvenness(zones, writing);
    const shown = listed(this.show);
    return html`${shown.includes('words') ? html`<p>${say} ${mind}</p>` : nothing}
    ${
      shown.includes('figures')
        ? html`<bench-whiskers
            .rows=${figures.table('balance').rows}
            .unit=${writing.unit}
            .decimal=${writing.decimal}
          ></bench-whiskers>`
        : nothing
    }`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-balance': ReedBalance;
  }
}
