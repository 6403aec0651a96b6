import { scaleLinear } from 'd3-scale';
import { css, html, LitElement, nothing, svg } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
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
import { base } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';

/** Where one reed's blend stands. */
export interface BlendMark {
  readonly label: string;
  /** Of the reed's record, with its value and doubt. */
  readonly figure: Figure & Required<Pick<Figure, 'value' | 'u'>>;
  readonly favourite: boolean;
  readonly retired: boolean;
}

/** Width until the page has given one, and the least that is drawn, CSS pixels. */
const WIDTH = { first: 900, least: 280 };
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
export class BlendScale extends LitElement {
  static override styles = [
    base,
    css`
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
      .tick-label {
        fill: var(--bench-ink2);
        font-size: 13px;
      }
      .axis {
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
    `,
  ];

  protected readonly theme = new ThemeController(this);
  // In the next frame: a drawing that grows while it is being measured is measured again, and the browser complains.
  private readonly size = new ResizeObserver(([entry]) =>
    requestAnimationFrame(() => {
      this.width = Math.max(Math.round(entry!.contentRect.width), WIDTH.least);
    }),
  );

  /** Width of the drawing, CSS pixels: type keeps its size on every screen. */
  @state() private width = WIDTH.first;
  @property({ attribute: false }) marks: readonly BlendMark[] = [];
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  override connectedCallback() {
    super.connectedCallback();
    this.size.observe(this);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.size.disconnect();
  }

  override render() {
    const { marks, width } = this;
    if (marks.length === 0) return nothing;
    const values = marks.map(({ figure }) => figure.value);
    const low = Math.floor(Math.min(...values) * 2 - 0.4) / 2;
    const high = Math.ceil(Math.max(...values) * 2 + 0.4) / 2;
    const x = scaleLinear([low, high], [EDGE, width - EDGE]);
    const placed = rowsOf(marks, x);
    const axisY = 26 + ROW * (1 + Math.max(...placed.map(({ row }) => row)));
    const ticks = Array.from({ length: Math.round((high - low) / TICK_MM) + 1 }, (_, i) => i);
    return html`<svg part="picture" viewBox="0 0 ${width} ${axisY + 30}" role="img" aria-label=${this.words}>
      <path class="axis" d=${`M${EDGE} ${axisY}H${width - EDGE}`}></path>
      ${ticks.map((i) => {
        const mm = low + i * TICK_MM;
        const labelled = i % LABEL_EACH === 0;
        return svg`<path class="axis" d=${`M${x(mm)} ${axisY}v${labelled ? 9 : 5}`}></path>
          ${labelled ? svg`<text class="tick-label" x=${x(mm)} y=${axisY + 25}>${numberText(mm, 1, this.writing)}</text>` : nothing}`;
      })}
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

declare global {
  interface HTMLElementTagNameMap {
    'bench-blend-scale': BlendScale;
  }
}
