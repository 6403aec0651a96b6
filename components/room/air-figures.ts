import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { airFiguresWithDoubt, type AirFigure } from '../../src/climate/air-doubt.ts';
import type { Air } from '../../src/climate/travel.ts';
import { COVERAGE, doubtDigits, numberText, signedText, type Writing } from '../../src/report/format.ts';
import { base, tables } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import { FIGURE_WORDS } from './air-words.ts';

type Name = keyof typeof FIGURE_WORDS;
const NAMES = Object.keys(FIGURE_WORDS) as Name[];

/** What follows from the air of one place, or of two side by side, each figure with its doubt and source. */
@customElement('bench-air-figures')
export class AirFigureTable extends LitElement {
  static override styles = [
    base,
    tables,
    css`
      .scroll {
        overflow-x: auto;
      }
      small {
        color: var(--bench-ink3);
      }
      td:last-child,
      thead th:last-child {
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
        text-align: left;
        padding-left: var(--bench-space-3);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);

  @property({ attribute: false }) here: Air | undefined;
  @property({ attribute: false }) there: Air | undefined;
  @property() decimal: Writing['decimal'] = 'point';

  override render() {
    const { here, there } = this;
    if (!here) return nothing;
    const [own, other] = [airFiguresWithDoubt(here), there && airFiguresWithDoubt(there)];
    return html`<div class="scroll" tabindex="0" role="region" aria-label="Computed figures of the air">
      <table>
        <caption>
          Computed, ± 95 % for a thermometer good to 0.8 °C and a hygrometer good to 5 %
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
            <th scope="col">Source</th>
          </tr>
        </thead>
        <tbody>
          ${NAMES.map((name) => this.renderRow(name, own[name], other?.[name], other !== undefined))}
        </tbody>
      </table>
    </div>`;
  }

  private renderRow(name: Name, own: AirFigure | undefined, other: AirFigure | undefined, two: boolean) {
    const [words, unit, usual, source] = FIGURE_WORDS[name];
    const cell = (figure: AirFigure | undefined) => {
      if (!figure) return html`<td>–</td>`;
      const digits = doubtDigits(COVERAGE * figure.u, usual);
      return html`<td>
        ${numberText(figure.value, digits, this)}
        <small>±${numberText(COVERAGE * figure.u, digits, this)}</small>
      </td>`;
    };
    return html`<tr>
      <th scope="row">${words}, ${unit}</th>
      ${cell(own)}
      ${
        two
          ? html`${cell(other)}
              <td>${own && other ? signedText(other.value - own.value, usual, this) : '–'}</td>`
          : nothing
      }
      <td>${source}</td>
    </tr>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-air-figures': AirFigureTable;
  }
}
