import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import '../caution/caution.ts';
import { BLADES, type Blade } from '../../shared/blade.ts';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { pointFunctional, valueMm } from '../../src/figures/functional.ts';
import type { KnifeInHand } from '../../src/plan/knife-yield.ts';
import { sayStep, stepInWords } from '../../src/plan/say-step.ts';
import type { Step } from '../../src/plan/step.ts';
import { UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import { unbroken } from '../bench/question-element.ts';
import { placeText } from '../figure-text.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** Everything on the card is drawn so many times its size. */
const TIMES = 10;
/** The drawing of one blade, mm on paper: its width, and room above and below the wood. */
const CARD_MM = 88;
const ABOVE_MM = 9;
const BELOW_MM = 12;
const CENTRE_MM = 48;
const ROWS_MM = [0.5, 1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20];
const POSITIONS = [-0.8, -0.4, 0, 0.4, 0.8];
const EDGE_STEP_MM = 0.5;

/** The middle between two rows of figures that is nearest to a place: a number there lies over none of them. */
function betweenRows(fromTipMm: number): number {
  const middles = ROWS_MM.slice(2).map((mm, k) => (ROWS_MM[k + 1]! + mm) / 2);
  return middles.reduce((best, mm) => (Math.abs(mm - fromTipMm) < Math.abs(best - fromTipMm) ? mm : best));
}

/**
 * The example's blades ten times enlarged with its thickness at every place, and the places to touch outlined and
 * numbered: a card to hang over the desk. Printed, it has its true scale.
 */
@customElement('bench-lesson-card')
export class LessonCard extends BenchElement {
  static override styles = css`
    header {
      display: flex;
      flex-wrap: wrap;
      gap: 0 var(--bench-space-4);
      align-items: baseline;
    }
    h2 {
      margin: 0;
      font: 24px / 1.2 var(--bench-serif);
    }
    p,
    ol {
      margin: 0;
      font: 15px / 1.4 var(--bench-sans);
    }
    .blades {
      position: relative;
      display: flex;
      flex-wrap: wrap;
      gap: 4mm;
    }
    svg {
      display: block;
      flex: 1 1 260px;
      max-width: 88mm;
      height: auto;
      fill: none;
    }
    text {
      fill: var(--bench-ink);
      font: 3.6px var(--bench-sans);
      text-anchor: middle;
      dominant-baseline: central;
      paint-order: stroke;
      stroke: var(--bench-plate);
      stroke-width: 1.4;
    }
    .name {
      font: 6px var(--bench-serif);
    }
    .scale {
      fill: var(--bench-ink2);
      font-size: 3px;
    }
    .outline {
      stroke: var(--bench-ink);
      stroke-width: 0.6;
    }
    .touch {
      stroke: var(--bench-ink);
      stroke-width: 1;
      stroke-dasharray: 3 1.6;
    }
    .number {
      stroke: none;
      fill: var(--bench-paper);
      font-weight: 700;
    }
    .disc {
      fill: var(--bench-ink);
    }
    .on-paper {
      display: none;
    }
    @media print {
      .on-paper {
        --bench-font-caption: 400 7pt / 1.25 var(--bench-sans);
        position: absolute;
        bottom: 8mm;
        /* Beside the back of B, where paper is left. */
        left: 168mm;
        display: block;
        width: 22mm;
      }
      text {
        fill: #000;
        stroke: #fff;
      }
      .disc {
        fill: #000;
      }
      .number {
        fill: #fff;
      }
      .outline,
      .touch {
        stroke: #000;
      }
      svg {
        flex: none;
        width: 88mm;
      }
      p,
      ol {
        font-size: 11pt;
        color: #000;
      }
      h2 {
        color: #000;
      }
      :host {
        break-inside: avoid;
      }
    }
  `;

  @property({ attribute: false }) example: ReedAtPass | undefined;
  /** Label of the reed that is worked on. */
  @property() pupil = '';
  @property({ attribute: false }) touches: readonly Step[] = [];
  /** The knife that it is worked with. */
  @property({ attribute: false }) knife: KnifeInHand = { name: undefined, known: undefined };
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  override render() {
    const { example, pupil, touches, writing } = this;
    if (!example?.benched.model) return nothing;
    const { reed } = example.benched;
    return html`<header>
        <h2>${unbroken(reed.label)}${pupil ? `, for ${unbroken(pupil)}` : ''}</h2>
        <p>
          ${UNIT_WORDS[writing.unit].name}, ten times enlarged, bark side, tip
          up${reed.invented ? '; invented' : ''}
        </p>
      </header>
      ${
        touches.length > 0
          ? html`<ol>
              ${touches.map(
                (touch) =>
                  html`<li>${unbroken(stepInWords(sayStep(touch, reed.label, this.knife, writing)))}</li>`,
              )}
            </ol>`
          : nothing
      }
      <div class="blades">
        ${BLADES.filter((blade) => example.benched.model!.blades[blade]).map((blade) => this.renderBlade(example, blade))}
        <bench-caution class="on-paper" about="knife dust sharing"></bench-caution>
      </div>`;
  }

  private renderBlade({ benched, pass }: ReedAtPass, blade: Blade) {
    const model = benched.model!;
    const geometry = benched.assembled.passes[pass]!;
    const { bladeLengthMm, halfWidthMm } = geometry;
    const y = (fromTipMm: number) => ABOVE_MM + TIMES * fromTipMm;
    const x = (fromTipMm: number, across: number) => CENTRE_MM + TIMES * across * halfWidthMm(fromTipMm);
    const along = Array.from(
      { length: Math.floor(bladeLengthMm / EDGE_STEP_MM) + 1 },
      (_, i) => i * EDGE_STEP_MM,
    );
    const point = (fromTipMm: number, across: number) =>
      `${x(fromTipMm, across).toFixed(2)} ${y(fromTipMm).toFixed(2)}`;
    const edge = (across: number) => along.map((mm) => point(mm, across));
    const outline = `M${[...edge(-1), ...edge(1).reverse()].join('L')}Z`;
    const readTo = Math.max(...geometry.readings.map(({ fromTipMm }) => fromTipMm));
    const rows = ROWS_MM.filter((mm) => mm <= Math.min(bladeLengthMm, readTo));
    const thickness = (fromTipMm: number, across: number) =>
      placeText(valueMm(model, pointFunctional(model, { blade, pass, fromTipMm, across })), this.writing);
    const height = y(bladeLengthMm) + BELOW_MM;
    return html`<svg
      viewBox="0 0 ${CARD_MM} ${height}"
      role="img"
      aria-label=${`Blade ${blade} of ${benched.reed.label}, ten times enlarged, with its thickness at ${rows.length * POSITIONS.length} places`}
    >
      <text class="name" x=${CENTRE_MM} y="4">${blade}</text>
      <path class="outline" d=${outline}></path>
      ${this.touches.map((touch, i) =>
        touch.parts
          .filter((part) => part.blade === blade)
          .map(({ outlines }) => {
            const path = outlines.map((corners) => `M${corners.map(([mm, u]) => point(mm, u)).join('L')}Z`);
            const [mm, across] = outlines
              .flat()
              .reduce((right, corner) => (corner[1] > right[1] ? corner : right));
            const [left, top] = [x(mm, across), y(betweenRows(mm))];
            return svg`<path class="touch" d=${path.join('')}></path>
              <circle class="disc number-disc" cx=${left} cy=${top} r="2.6"></circle>
              <text class="number" x=${left} y=${top}>${i + 1}</text>`;
          }),
      )}
      ${rows.map(
        (mm) => svg`<text class="scale" x="5" y=${y(mm)}>${mm < 1 ? '' : mm}</text>
          ${POSITIONS.map((across) => svg`<text x=${x(mm, across)} y=${y(mm)}>${thickness(mm, across)}</text>`)}`,
      )}
      <circle
        class="disc"
        cx=${x(bladeLengthMm, blade === 'A' ? -0.8 : 0.8)}
        cy=${y(bladeLengthMm) + 5}
        r="1.4"
      ></circle>
      <text class="scale" x=${CENTRE_MM} y=${y(bladeLengthMm) + 5}>side 1 where the dot is</text>
    </svg>`;
  }
}
