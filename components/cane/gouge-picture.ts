import { css, html, LitElement, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { GougeReading } from '../../shared/cane.ts';
import type { WishedGouge } from '../../shared/settings.ts';
import { MM_PER } from '../../shared/units.ts';
import type { GougeCurve } from '../../src/cane/gouge-curve.ts';
import { COVERAGE, numberText, UNIT_WORDS, type Writing, plainText } from '../../src/words/format.ts';
import { base } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import { canePicture } from './cane-picture.styles.ts';

const WIDTH = 560;
const HEIGHT = 250;
const EDGE = { left: 44, right: 14, top: 22, bottom: 40 };
const MOST_ARC_MM = 5;
const STEP_MM = 0.1;
const LEAST_MM = 0.3;
const MOST_MM = 0.7;

const x = (arcMm: number) =>
  EDGE.left + ((arcMm + MOST_ARC_MM) / (2 * MOST_ARC_MM)) * (WIDTH - EDGE.left - EDGE.right);
const y = (mm: number) =>
  HEIGHT - EDGE.bottom - ((mm - LEAST_MM) / (MOST_MM - LEAST_MM)) * (HEIGHT - EDGE.top - EDGE.bottom);

/** A gouged piece cut across and laid flat: its readings, the inner curve with its doubt, and the wished gouge. */
@customElement('bench-gouge-picture')
export class GougePicture extends LitElement {
  static override styles = [
    base,
    canePicture,
    css`
      svg {
        max-width: 680px;
      }
      .hair {
        stroke: var(--bench-rule);
      }
      .doubt {
        fill: var(--bench-ink);
        opacity: 0.14;
      }
      .curve {
        fill: none;
        stroke: var(--bench-ink);
        stroke-width: 2;
      }
      .wished {
        fill: none;
        stroke: var(--bench-ink2);
        stroke-width: 2;
        stroke-dasharray: 1.5 4;
      }
      circle {
        fill: var(--bench-ink);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);

  @property({ attribute: false }) readings: readonly GougeReading[] = [];
  @property({ attribute: false }) curve: GougeCurve | undefined;
  @property({ attribute: false }) wished: WishedGouge | undefined;
  @property({ attribute: false }) writing: Writing = { unit: 'hundredths', decimal: 'point' };

  private get arcs(): number[] {
    const count = Math.round((2 * MOST_ARC_MM) / STEP_MM);
    return Array.from({ length: count + 1 }, (_, i) => -MOST_ARC_MM + i * STEP_MM);
  }

  override render() {
    const { writing, readings } = this;
    const text = (mm: number) =>
      numberText(
        mm / MM_PER[writing.unit],
        writing.unit === 'mm' ? 2 : writing.unit === 'thou' ? 1 : 0,
        writing,
      );
    const said = readings
      .map(({ arcMm, thicknessMm }) => `${text(thicknessMm)} at ${plainText(arcMm, writing)} mm`)
      .join(', ');
    return html`<svg
      part="picture"
      viewBox="0 0 ${WIDTH} ${HEIGHT}"
      role="img"
      aria-label=${`Thickness across the piece in ${UNIT_WORDS[writing.unit].caption}, side 1 on the left: ${said || 'not read'}`}
    >
      ${[0.3, 0.4, 0.5, 0.6, 0.7].map(
        (mm) => svg`<path class="hair" d=${`M${EDGE.left} ${y(mm)}H${WIDTH - EDGE.right}`}></path>
          <text x=${EDGE.left - 8} y=${y(mm) + 4} text-anchor="end">${text(mm)}</text>`,
      )}
      ${[-4, -2, 0, 2, 4].map(
        (mm) =>
          svg`<text x=${x(mm)} y=${HEIGHT - 18} text-anchor="middle">${numberText(mm, 0, writing)}</text>`,
      )}
      <text x=${EDGE.left} y="15">side 1</text>
      <text x=${WIDTH - EDGE.right} y="15" text-anchor="end">side 2</text>
      <text x=${WIDTH / 2} y=${HEIGHT - 3} text-anchor="middle">mm along the bark from the middle</text>
      ${this.renderWished()} ${this.renderCurve()}
      ${readings.map(
        ({ arcMm, thicknessMm }) => svg`<circle cx=${x(arcMm)} cy=${y(thicknessMm)} r="4"></circle>`,
      )}
    </svg>`;
  }

  private renderCurve() {
    const { curve } = this;
    if (!curve) return nothing;
    const found = this.arcs.map((arc) => ({ arc, ...curve.thicknessAt(arc) }));
    const edge = (sign: 1 | -1) =>
      found.map(({ arc, valueMm, uMm }) => `${x(arc)} ${y(valueMm + sign * COVERAGE * uMm)}`);
    return svg`<path class="doubt" d=${`M${[...edge(1), ...edge(-1).reverse()].join('L')}Z`}></path>
      <path class="curve" d=${`M${found.map(({ arc, valueMm }) => `${x(arc)} ${y(valueMm)}`).join('L')}`}></path>`;
  }

  private renderWished() {
    const { wished } = this;
    if (!wished) return nothing;
    const places = [-wished.sideArcMm, 0, wished.sideArcMm];
    const heights = [wished.sideMm, wished.centreMm, wished.sideMm];
    return places.map(
      (place, i) => svg`<path class="wished" d=${`M${x(place) - 26} ${y(heights[i]!)}h52`}></path>`,
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-gouge-picture': GougePicture;
  }
}
