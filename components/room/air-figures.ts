import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { airFiguresWithDoubt, INPUT_U, type AirFigure } from '../../src/climate/air-doubt.ts';
import type { Air } from '../../src/climate/travel.ts';
import { COVERAGE, doubtDigits, numberText, signedText, type NumberFormat } from '../../src/words/format.ts';
import '../figures-table/copy-table.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { FIGURE_WORDS } from './air-words.ts';

type Name = keyof typeof FIGURE_WORDS;
const NAMES = Object.keys(FIGURE_WORDS) as Name[];

/** What follows from the air of one place, or of two side by side, each figure with its doubt and source. */
@customElement('bench-air-figures')
export class AirFigureTable extends BenchElement {
  static override styles = [
    tables,
    css`
      .scroll {
        overflow-x: auto;
      }
      td {
        white-space: nowrap;
      }
      small {
        color: var(--bench-ink3);
      }
      p {
        max-width: 60ch;
        margin: var(--bench-space-2) 0 0;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
    `,
  ];

  @property({ attribute: false }) here: Air | undefined;
  @property({ attribute: false }) there: Air | undefined;
  @property() decimal: NumberFormat['decimal'] = 'point';

  override render() {
    const { here, there } = this;
    if (!here) return nothing;
    const [own, other] = [airFiguresWithDoubt(here), there && airFiguresWithDoubt(there)];
    return html`<div
        class="scroll"
        tabindex="0"
        role="region"
        aria-label=${there ? 'Computed figures, here and there' : 'Computed figures of the air'}
      >
        <table>
          <caption>
            Computed, ± 95 % for a thermometer good to ${numberText(COVERAGE * INPUT_U.temperatureC, 1, this)}
            °C and a hygrometer good to ${numberText(COVERAGE * INPUT_U.humidityPct, 0, this)} %
            <bench-copy></bench-copy>
          </caption>
          <thead>
            <tr>
              <th scope="col">Figure</th>
              <th scope="col">${other ? 'Here' : 'Now'}</th>
              ${
                other
                  ? html`<th scope="col">There</th>
                      <th scope="col">Change</th>`
                  : nothing
              }
            </tr>
          </thead>
          <tbody>
            ${NAMES.map((name) => this.renderRow(name, own[name], other?.[name], other !== undefined))}
          </tbody>
        </table>
      </div>
      <p>
        Sources. ${NAMES.map((name) => `${FIGURE_WORDS[name][0]}: ${FIGURE_WORDS[name][3]}`).join('; ')}.
      </p>`;
  }

  private renderRow(name: Name, own: AirFigure | undefined, other: AirFigure | undefined, two: boolean) {
    const [words, unit, usual] = FIGURE_WORDS[name];
    const per = unit === 'hPa' ? 100 : 1;
    const shown = (figure: AirFigure | undefined) =>
      figure && { value: figure.value / per, u: figure.u / per };
    const [here, there] = [shown(own), shown(other)];
    const change = here && there && { value: there.value - here.value, u: Math.hypot(here.u, there.u) };
    return html`<tr>
      <th scope="row">${words}, ${unit}</th>
      ${this.renderFigure(here, usual)}
      ${two ? html`${this.renderFigure(there, usual)} ${this.renderFigure(change, usual, true)}` : nothing}
    </tr>`;
  }

  private renderFigure(figure: AirFigure | undefined, usual: number, isChange = false) {
    if (!figure) return html`<td>–</td>`;
    const doubt = COVERAGE * figure.u;
    const digits = doubtDigits(doubt, usual);
    const number = (isChange ? signedText : numberText)(figure.value, digits, this);
    const inside = isChange && Math.abs(figure.value) <= doubt;
    return html`<td>
      ${inside ? `(${number})` : number} <small>±${numberText(doubt, digits, this)}</small>
    </td>`;
  }
}
