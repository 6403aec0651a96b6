import { range } from 'd3-array';
import { scaleLinear } from 'd3-scale';
import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Figure } from '../../src/figures/figure.ts';
import {
  amountText,
  COVERAGE,
  distanceFigure,
  joined,
  numberText,
  type NumberFormat,
} from '../../src/words/format.ts';
import { BLEND_MM } from '../../src/figures/crossing.ts';
import { figureName } from '../figures-table/laid-out.ts';
import { ruler } from '../marks/axes.ts';
import { WidthController } from '../marks/width-controller.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** Where one reed's blend stands. */
export interface BlendMark {
  readonly label: string;
  /** Of the reed's record, with its value and doubt. */
  readonly figure: Figure & Required<Pick<Figure, 'value' | 'u'>>;
  readonly favourite: boolean;
  readonly retired: boolean;
}

const EDGE = 30;
const LABEL = 86;
const ROW = 22;
const TICK_MM = 0.1;
const LABEL_EACH = 5;

/** Marks with the row their label stands in, so that no two labels meet. */
function rowsOf(marks: readonly BlendMark[], x: (mm: number) => number) {
  const ends: number[] = [];
  return [...marks]
    .sort((a, b) => a.figure.value - b.figure.value)
    .map((mark) => {
      const at = x(mark.figure.value);
      const free = ends.findIndex((end) => end < at - LABEL / 2);
      const row = free < 0 ? ends.length : free;
      ends[row] = at + LABEL / 2;
      return { mark, at, row };
    });
}

/**
 * Where the blends of the reeds lie, on one scale of millimetres from the tip. Each mark has its 95 % doubt as a bar.
 *
 * @csspart picture - The drawing.
 */
@customElement('bench-blend-scale')
export class BlendScale extends BenchElement {
  static override styles = css`
    svg {
      display: block;
      width: 100%;
      height: auto;
      overflow: visible;
    }
    text {
      fill: var(--bench-ink);
      font: 14px var(--bench-sans);
      text-anchor: middle;
    }
    .axis text {
      fill: var(--bench-ink2);
      font-size: 13px;
      dominant-baseline: central;
    }
    .rule {
      fill: none;
      stroke: var(--bench-rule2);
    }
    .mark {
      stroke: var(--bench-ink);
      stroke-width: 2;
    }
    .doubt {
      stroke: var(--bench-ink3);
      stroke-width: 3;
    }
    .favourite {
      stroke: var(--bench-favourite);
    }
    .retired {
      stroke-dasharray: 2 3;
    }
    .leader {
      stroke: var(--bench-rule);
    }
  `;

  private readonly size = new WidthController(this);

  @property({ attribute: false }) marks: readonly BlendMark[] = [];
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  override render() {
    const { marks } = this;
    const { width } = this.size;
    if (marks.length === 0 || width === 0) return nothing;
    const values = marks.map(({ figure }) => figure.value);
    const low = Math.floor(Math.min(...values) * 2 - 0.4) / 2;
    const high = Math.ceil(Math.max(...values) * 2 + 0.4) / 2;
    // A doubt that is wider than the scale ends with it.
    const x = scaleLinear([low, high], [EDGE, width - EDGE]).clamp(true);
    const placed = rowsOf(marks, x);
    const axisY = 26 + ROW * (1 + Math.max(...placed.map(({ row }) => row)));
    const fine = range(0, Math.round((high - low) / TICK_MM) + 1).map((k) => low + k * TICK_MM);
    const coarse = fine.filter((_, k) => k % LABEL_EACH === 0);
    return html`<svg part="picture" viewBox="0 0 ${width} ${axisY + 30}" role="img" aria-label=${this.words}>
      ${ruler(x, axisY, fine, coarse, (mm) => numberText(mm, 1, this.writing))}
      ${placed.map(({ mark, at, row }) => this.renderMark(mark, at, axisY, axisY - 26 - ROW * row, x))}
    </svg>`;
  }

  private renderMark(mark: BlendMark, at: number, axisY: number, labelY: number, x: (mm: number) => number) {
    const { value, u } = mark.figure;
    const half = COVERAGE * u;
    const look = `mark ${mark.favourite ? 'favourite' : ''} ${mark.retired ? 'retired' : ''}`;
    const line = (dx: number) => svg`<path class=${look} d=${`M${at + dx} ${axisY}v-18`}></path>`;
    return svg`<path class="leader" d=${`M${at} ${axisY - 18}V${labelY + 4}`}></path>
      <path class="doubt" d=${`M${x(value - half)} ${axisY}H${x(value + half)}`}></path>
      ${mark.favourite ? [line(-2), line(2)] : line(0)}
      <text x=${at} y=${labelY}>${mark.label} <tspan data-figure=${figureName(mark.figure)}>${this.written(mark).value}</tspan></text>`;
  }

  private get words(): string {
    const each = this.marks.map((mark) => `${mark.label} ${joined(this.written(mark))}`);
    return `Where the centre passes ${amountText(BLEND_MM, this.writing)}, mm from the tip, ± is 95 %: ${each.join(', ')}`;
  }

  private written({ figure: { value, u } }: BlendMark) {
    return distanceFigure({ valueMm: value, uMm: u }, this.writing);
  }
}
