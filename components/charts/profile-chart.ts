import { html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ThicknessUnit } from '../../shared/units.ts';
import {
  joined,
  NO_FIGURE,
  numberText,
  thicknessFigure,
  UNIT_WORDS,
  type NumberFormat,
  plainText,
} from '../../src/words/format.ts';
import { figureText } from '../figure-text.ts';
import '../figures-table/copy-table.ts';
import { between, locate } from '../map/blade-drawing.ts';
import { WidthController } from '../marks/width-controller.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import type { ChartBand, ChartCrossing, ChartLine } from './chart-data.ts';
import { chartFrame, distanceAxis, thicknessAxis, type ChartFrame } from './chart-frame.ts';
import { chartLine, crossingMark, doubtBand, favouriteBand, strokeOf } from './chart-lines.ts';
import { styles } from './chart.styles.ts';

/** Rows of the table twin: how far apart, in the unit of the line. */
const TABLE_STEP = { down: 1, across: 0.2 };
/** Narrower charts are drawn for less room, CSS pixels. */
const NARROW_PX = 290;
const AXIS = { down: { step: 1, labelEach: 5 }, across: { step: 0.1, labelEach: 0.5 } };

/** Where a curve is drawn at a place: straight between two of its points; NaN beyond its ends. */
function drawnAt(at: ArrayLike<number>, values: ArrayLike<number>, where: number): number {
  if (where < at[0]! - 1e-6 || where > at[at.length - 1]! + 1e-6) return NaN;
  const [k, share] = locate(at, where);
  return between(values, k, share);
}

/**
 * Thickness along one line of a blade: several blades, passes or favourites in one picture, each with its own dash, their
 * 95 % doubt as bands, readings as marks. Everything drawn stands in the table under it.
 *
 * @csspart picture - The drawing.
 */
@customElement('bench-profile-chart')
export class ProfileChart extends BenchElement {
  static override styles = [tables, styles];

  private readonly size = new WidthController(this);

  /** Down a line from the tip to the thread, or across a blade from edge to edge. */
  @property() along: 'down' | 'across' = 'down';
  @property() unit: ThicknessUnit = 'hundredths';
  /** The maker's decimal sign. */
  @property() decimal: NumberFormat['decimal'] = 'point';
  @property({ attribute: false }) lines: readonly ChartLine[] = [];
  @property({ attribute: false }) band: ChartBand | undefined;
  @property({ attribute: false }) crossings: readonly ChartCrossing[] = [];
  /** What the chart shows, in a sentence. */
  @property() label = 'Thickness along a line';

  private get frame(): ChartFrame {
    const { lines, band } = this;
    const at = [...lines.flatMap((line) => Array.from(line.at)), ...Array.from(band?.at ?? [])];
    const read = lines.flatMap(({ readings = [] }) => readings.map(({ thicknessMm }) => thicknessMm));
    const drawn = lines.flatMap(({ thicknessMm }) => Array.from(thicknessMm));
    const all = [...drawn, ...read, ...Array.from(band?.highMm ?? [])];
    const isNarrow = this.size.width > 0 && this.size.width < NARROW_PX;
    return chartFrame(at, all, isNarrow ? 'narrow' : 'usual');
  }

  override render() {
    if (this.lines.length === 0) return nothing;
    return html`${this.renderPicture(this.frame)} ${this.renderKey()} ${this.renderTable()}`;
  }

  private renderPicture(frame: ChartFrame) {
    const { lines, band, crossings, label } = this;
    const axis = AXIS[this.along];
    return html`<svg
      part="picture"
      viewBox="0 0 ${frame.width} ${frame.height}"
      role="img"
      aria-label=${label}
    >
      <defs>
        <pattern id="upright" width="5" height="5" patternUnits="userSpaceOnUse">
          <path class="upright" d="M2.5 0V5"></path>
        </pattern>
      </defs>
      ${thicknessAxis(frame, this)} ${distanceAxis(frame, axis, this)}
      ${band ? favouriteBand(frame, band) : nothing} ${lines.map((line) => doubtBand(frame, line))}
      ${lines.map((line) => chartLine(frame, line))}
      ${crossings.map((crossing) => {
        const isLast = crossings.every(({ at }) => at <= crossing.at);
        return crossingMark(frame, crossing, numberText(crossing.at, 1, this), isLast);
      })}
    </svg>`;
  }

  private renderKey() {
    const { lines, band } = this;
    return html`<ul>
      ${lines.map(
        (line) =>
          html`<li>
            <svg part="picture key" viewBox="0 0 30 12" aria-hidden="true">
              ${strokeOf(line, 'M0 5H30')}
              ${line.look === 'floor' ? svg`<path class="teeth" d="M6 5l-4 7m10-7l-4 7m10-7l-4 7m10-7l-4 7"></path>` : nothing}
            </svg>
            <span part="words">${line.name}</span>
          </li>`,
      )}
      ${
        band
          ? html`<li>
              <svg part="picture key" viewBox="0 0 30 12" aria-hidden="true">
                <rect class="band" width="30" height="12"></rect>
              </svg>
              <span part="words">${band.name}</span>
            </li>`
          : nothing
      }
    </ul>`;
  }

  private renderTable() {
    const { lines, along, unit } = this;
    const step = TABLE_STEP[along];
    const longest = lines.reduce((best, line) => (line.at.length > best.at.length ? line : best));
    const ends = [Math.min(...Array.from(longest.at)), Math.max(...Array.from(longest.at))] as const;
    const first = Math.ceil(ends[0] / step - 1e-6);
    const places = Array.from(
      { length: Math.floor(ends[1] / step + 1e-6) - first + 1 },
      (_, k) => step * (first + k),
    );
    const head = along === 'down' ? 'mm from the tip' : 'across';
    return html`<details>
      <summary>The same as a table</summary>
      <table>
        <caption>
          ${this.label}, ${UNIT_WORDS[unit].caption}. ± is 95 %.
          <bench-copy></bench-copy>
        </caption>
        <thead>
          <tr>
            <th scope="col">${head}</th>
            ${lines.map(({ name }) => html`<th scope="col">${name}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${places.map(
            (at) =>
              html`<tr>
                <th scope="row">${plainText(at, this)}</th>
                ${lines.map((line) => html`<td>${this.cell(line, at)}</td>`)}
              </tr>`,
          )}
        </tbody>
      </table>
    </details>`;
  }

  /** What a line is drawn at at a place; a dash where it is not drawn. */
  private cell({ at, thicknessMm, uMm }: ChartLine, where: number): string {
    const valueMm = drawnAt(at, thicknessMm, where);
    if (Number.isNaN(valueMm)) return NO_FIGURE;
    if (!uMm) return figureText(valueMm, this);
    return joined(thicknessFigure({ valueMm, uMm: drawnAt(at, uMm, where) }, this));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-profile-chart': ProfileChart;
  }
}
