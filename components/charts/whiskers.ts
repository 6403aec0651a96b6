import { scaleLinear } from 'd3-scale';
import { css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { MM_PER, type ThicknessUnit } from '../../shared/units.ts';
import {
  COVERAGE,
  joined,
  NO_FIGURE,
  UNIT_WORDS,
  writtenFigure,
  type NumberFormat,
} from '../../src/words/format.ts';
import { rowTitle, type Figure, type TableRow } from '../../src/figures/figure.ts';
import { sentence } from '../../src/words/figure-words.ts';
import '../figures-table/copy-table.ts';
import { figureName } from '../figures-table/laid-out.ts';
import { differenceText } from '../figure-text.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const WIDTH = 76;
const HEIGHT = 22;
/** Hundredths of a mm that a scale may reach to; what lies beyond the last is drawn at its end. */
const REACHES = [2, 3, 4, 6, 8, 10, 15, 20, 50];
/** Room at each side of the scale for a dot that stands at its end. */
const EDGE = 8;

const COLUMNS = [
  { name: 'blade', meaning: 'A \u2212 B' },
  { name: 'hand', meaning: 'right \u2212 left' },
  { name: 'side', meaning: 'side 1 \u2212 2' },
] as const;

/**
 * Blade, hand and side for each zone: a dot for the contrast, a line for its 95 % doubt. Filled is measurable, hollow is
 * not. A table: each cell holds the figures in words beside its picture.
 */
@customElement('bench-whiskers')
export class Whiskers extends BenchElement {
  static override styles = [
    tables,
    css`
      thead th:not(:first-child) {
        text-align: center;
      }
      thead strong {
        display: block;
        color: var(--bench-ink);
        font: var(--bench-font-head);
      }
      th,
      td {
        padding: 2px 0;
        border: 0;
        text-align: center;
      }
      tbody th {
        padding-right: var(--bench-space-2);
        text-align: left;
      }
      tfoot td {
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
      }
      .ends {
        display: flex;
        justify-content: space-between;
        /* As wide as the scale between its ends, so that the ends of two columns do not meet. */
        width: 62px;
        margin-inline: auto;
      }
      svg {
        display: block;
        margin-inline: auto;
        fill: none;
      }
      .zero {
        stroke: var(--bench-rule2);
      }
      .end {
        stroke: var(--bench-rule);
      }
      .doubt {
        stroke: var(--bench-ink2);
        stroke-width: 1.4;
      }
      .dot {
        fill: var(--bench-paper);
        stroke: var(--bench-ink2);
        stroke-width: 1.5;
      }
      .dot.sure {
        fill: var(--bench-ink);
        stroke: var(--bench-ink);
      }
    `,
  ];

  @property({ attribute: false }) rows: readonly TableRow[] = [];
  @property() unit: ThicknessUnit = 'hundredths';
  /** The maker's decimal sign. */
  @property() decimal: NumberFormat['decimal'] = 'point';

  /** Each scale runs from minus this to plus this, mm: the least round figure that holds every whisker. */
  private get reachMm(): number {
    const most = Math.max(
      0,
      ...this.rows.flatMap(({ figures }) =>
        figures.map(({ value = 0, u = 0 }) => Math.abs(value) + COVERAGE * u),
      ),
    );
    return (
      (REACHES.find((reach) => reach * MM_PER.hundredths >= most) ?? REACHES.at(-1)!) * MM_PER.hundredths
    );
  }

  override render() {
    const { rows, unit, reachMm } = this;
    const ends = [-reachMm, reachMm].map((end) => differenceText(end, this));
    return html`<table>
      <caption part="words">
        ${sentence(UNIT_WORDS[unit].name)}, with their 95 % doubt. Hollow: not measurable.
        <bench-copy></bench-copy>
      </caption>
      <thead>
        <tr>
          <th scope="col"><span class="said">Zone</span></th>
          ${COLUMNS.map(({ name, meaning }) => html`<th scope="col"><strong part="words">${name}</strong><span part="words">${meaning}</span></th>`)}
        </tr>
      </thead>
      <tbody>
        ${rows.map(
          (row) =>
            html`<tr>
              <th scope="row" part="words">${rowTitle(row, this)}</th>
              ${row.figures.map((figure) => html`<td data-figure=${figureName(figure)}>${this.renderFigure(figure)}</td>`)}
            </tr>`,
        )}
      </tbody>
      <tfoot aria-hidden="true">
        <tr>
          <td></td>
          ${COLUMNS.map(
            () =>
              html`<td>
                <span class="ends"
                  ><span part="words">${ends[0]}</span><span part="words">${ends[1]}</span></span
                >
              </td>`,
          )}
        </tr>
      </tfoot>
    </table>`;
  }

  private renderFigure(figure: Figure) {
    const { value, u } = figure;
    const text = writtenFigure(figure, this);
    if (value === undefined || u === undefined || typeof text === 'string' || 'none' in text)
      return html`<span title=${figure.absent ?? ''}>${NO_FIGURE}</span>`;
    const { reachMm } = this;
    const x = scaleLinear()
      .domain([-reachMm, reachMm])
      .range([EDGE, WIDTH - EDGE])
      .clamp(true);
    const half = COVERAGE * u;
    const middle = HEIGHT / 2;
    const words = `${joined(text)}${text.inDoubt ? ', not measurable' : ''}`;
    return html`<span class="said">${words}</span>
      <svg part="picture" viewBox="0 0 ${WIDTH} ${HEIGHT}" width=${WIDTH} height=${HEIGHT} aria-hidden="true">
        <path class="end" d="M${EDGE} 0V${HEIGHT}M${WIDTH - EDGE} 0V${HEIGHT}"></path>
        <path class="zero" d="M${x(0)} 0V${HEIGHT}"></path>
        <path class="doubt" d="M${x(value - half)} ${middle}H${x(value + half)}"></path>
        <circle class=${text.inDoubt ? 'dot' : 'dot sure'} cx=${x(value)} cy=${middle} r="4.6"></circle>
      </svg>`;
  }
}
