import { css, html, LitElement, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Shape } from '../../shared/cane.ts';
import { numberText, type Writing } from '../../src/words/format.ts';
import { base } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';

const WIDTH = 420;
const SCALE = { along: 10, across: 28 };
const TOP = 16;

/** Outlines of one or two shapes, laid over each other at the fold; width drawn 2.8 times length. */
@customElement('bench-shape-outlines')
export class ShapeOutlines extends LitElement {
  static override styles = [
    base,
    css`
      svg {
        display: block;
        width: 100%;
        max-width: 460px;
        border: 1px solid var(--bench-rule);
        background: var(--bench-plate);
      }
      text {
        fill: var(--bench-ink2);
        font-size: 13px;
        font-variant-numeric: tabular-nums;
      }
      .own {
        fill: none;
        stroke: var(--bench-ink);
        stroke-width: 2;
      }
      .other {
        fill: none;
        stroke: var(--bench-ink2);
        stroke-width: 2;
        stroke-dasharray: 8 4;
      }
      p {
        margin: var(--bench-space-1) 0 0;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);

  @property({ attribute: false }) shape: Shape | undefined;
  @property({ attribute: false }) other: Shape | undefined;
  @property() decimal: Writing['decimal'] = 'point';

  override render() {
    const { shape, other } = this;
    if (!shape) return nothing;
    const longest = Math.max(...[shape, other].map((one) => one?.widths.at(-1)?.fromFoldMm ?? 0));
    const height = TOP * 2 + longest * SCALE.along;
    const side = ({ widths }: Shape, sign: 1 | -1) =>
      widths.map(
        ({ fromFoldMm, widthMm }) =>
          `${WIDTH / 2 + (sign * widthMm * SCALE.across) / 2} ${TOP + fromFoldMm * SCALE.along}`,
      );
    const outline = (one: Shape) => `M${[...side(one, -1), ...side(one, 1).reverse()].join('L')}`;
    const ticks = Array.from({ length: Math.floor(longest / 5) + 1 }, (_, i) => 5 * i);
    return html`<svg
        part="picture"
        viewBox="0 0 ${WIDTH} ${height}"
        role="img"
        aria-label=${this.words(shape, other)}
      >
        ${ticks.map((mm) => svg`<text x="6" y=${TOP + mm * SCALE.along + 4}>${mm}</text>`)}
        <path class="own" d=${outline(shape)}></path>
        ${other ? svg`<path class="other" d=${outline(other)}></path>` : nothing}
      </svg>
      <p part="words">
        mm from the fold; width drawn 2.8 times length${other ? `; dashes: ${other.name}` : ''}
      </p>`;
  }

  private words(shape: Shape, other: Shape | undefined): string {
    const { widths, name } = shape;
    const text = (mm: number) => numberText(mm, 2, this);
    return `Outline of ${name}: ${text(widths[0]!.widthMm)} mm wide at the fold, ${text(widths.at(-1)!.widthMm)} at the end${other ? `; with ${other.name} over it` : ''}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-shape-outlines': ShapeOutlines;
  }
}
