import { html } from 'lit';
import { customElement } from 'lit/decorators.js';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { evenness, sayEvenness } from '../../src/answers/even.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import '../charts/whiskers.ts';
import { ReedPart } from './reed-part.ts';

/** Whether a reed is even: blade against blade, right against left, side 1 against side 2, zone by zone. */
@customElement('bench-reed-balance')
export class ReedBalance extends ReedPart {
  protected override renderReed(at: ReedAtPass) {
    const { writing } = this;
    const figures = figuresOf(at);
    const zones = evenness(figures);
    if (zones.length === 0) return html`<p>Only one blade was read: there is nothing to set it against.</p>`;
    const { say, mind } = sayEvenness(zones, writing);
    return html`<p>${say} ${mind}</p>
      <bench-whiskers
        .rows=${figures.table('balance').rows}
        .unit=${writing.unit}
        .decimal=${writing.decimal}
      ></bench-whiskers>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-balance': ReedBalance;
  }
}
