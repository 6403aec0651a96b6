import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Blade } from '../../shared/blade.ts';
import type { ThicknessUnit } from '../../shared/units.ts';
import { UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import { figureText, signedFigureText } from '../figure-text.ts';
import { BenchElement } from '../theme/bench-element.ts';
import type { Corner, OpeningData } from './chart-data.ts';
import { sectionPath, type SectionFrame } from './section-path.ts';

const WIDTH = 384;
const HEIGHT = 210;
const CENTRE = WIDTH / 2;
const MIDDLE = 104;
const UNITS_PER_MM = 36;
/** Thickness is drawn this many times larger than width and opening. */
export const THICKNESS_FACTOR = 5;

/**
 * Where each corner's number stands, seen from the cork towards the tip with A up. A shows its bark upwards, so its own left
 * is on the left; B shows its bark downwards under it, so B's right is on the left.
 */
const PLACES: Readonly<Record<Corner, { readonly x: number; readonly y: number }>> = {
  AL: { x: 34, y: 44 },
  AR: { x: WIDTH - 34, y: 44 },
  BR: { x: 34, y: 164 },
  BL: { x: WIDTH - 34, y: 164 },
};

const CORNER_WORDS: Readonly<Record<Corner, string>> = {
  AL: "A's left",
  AR: "A's right",
  BL: "B's left",
  BR: "B's right",
};

/**
 * The opening seen from the cork, tip away: A up, side 1 on the left. The four corners' numbers stand where the corners
 * are, and those that face each other are joined, with A less B between.
 *
 * @csspart picture - The drawing.
 */
@customElement('bench-opening')
export class Opening extends BenchElement {
  static override styles = css`
    svg {
      display: block;
      width: 100%;
      height: auto;
      fill: none;
    }
    .blade {
      fill: var(--bench-thickness-1);
      stroke: var(--bench-ink);
      stroke-width: 1.6;
      stroke-linejoin: round;
    }
    .joint {
      stroke: var(--bench-ink);
    }
    text {
      fill: var(--bench-ink2);
      font: 13px var(--bench-sans);
      text-anchor: middle;
      dominant-baseline: central;
    }
    .corner {
      fill: var(--bench-ink);
      font-size: 20px;
      font-weight: 600;
    }
    .name {
      fill: var(--bench-ink);
      font: 20px var(--bench-serif);
    }
    .side-1 {
      fill: var(--bench-ink);
    }
    p {
      margin: var(--bench-space-2) 0 0;
      color: var(--bench-ink3);
      font: var(--bench-font-caption);
    }
  `;

  @property({ attribute: false }) data: OpeningData | undefined;
  @property() unit: ThicknessUnit = 'hundredths';
  /** The maker's decimal sign. */
  @property() decimal: NumberFormat['decimal'] = 'point';

  private figure(corner: Corner): string {
    return figureText(this.data!.cornersMm[corner], this);
  }

  private get words(): string {
    const { facingMm } = this.data!;
    const corners = (['AL', 'BR', 'AR', 'BL'] as const).map(
      (corner) => `${CORNER_WORDS[corner]} ${this.figure(corner)}`,
    );
    const [side1, side2] = [facingMm.side1, facingMm.side2].map((value) => signedFigureText(value, this));
    return `Corners of the opening seen from the cork, A up, ${UNIT_WORDS[this.unit].spoken[1]}. Side 1, on the left: ${corners[0]}, facing ${corners[1]}, A less B ${side1}. Side 2: ${corners[2]}, facing ${corners[3]}, A less B ${side2}.`;
  }

  override render() {
    if (!this.data) return nothing;
    return html`<svg part="picture" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label=${this.words}>
        ${this.renderBlade('A')} ${this.renderBlade('B')}
        <text class="name" x=${CENTRE} y="22">A</text>
        <text class="name" x=${CENTRE} y="190">B</text>
        ${(Object.keys(PLACES) as Corner[]).map(
          (corner) =>
            svg`<text class="corner" data-corner=${corner} x=${PLACES[corner].x} y=${PLACES[corner].y}
              >${this.figure(corner)}</text>`,
        )}
        ${this.renderJoint('side1', 34, 1)} ${this.renderJoint('side2', WIDTH - 34, -1)}
        <text x="28" y="192">side 1</text>
        <circle class="side-1" cx="58" cy="192" r="4"></circle>
        <text x=${WIDTH - 28} y="192">side 2</text>
      </svg>
      <p part="words">
        Seen from the cork, the tip away. Thickness drawn ${THICKNESS_FACTOR} ×. Facing corners are joined;
        the figure between is A less B.
      </p>`;
  }

  private renderJoint(side: 'side1' | 'side2', x: number, inward: 1 | -1) {
    const text = signedFigureText(this.data!.facingMm[side], this);
    const arm = (from: number, to: number) => `M${x + inward * 18} ${from}H${x}V${to}`;
    return svg`<path class="joint" d=${arm(62, 92) + arm(146, 116)}></path>
      <text data-facing=${side} x=${x} y=${MIDDLE}>${text}</text>`;
  }

  private renderBlade(blade: Blade) {
    const { edges, widthMm, openingMm } = this.data!;
    const frame: SectionFrame = {
      centre: CENTRE,
      middle: MIDDLE,
      unitsPerMm: UNITS_PER_MM,
      thicknessFactor: THICKNESS_FACTOR,
      widthMm,
      // A shallow bow: the opening in the middle, closed at the sides. Drawn for the eye, not measured.
      apartMm: (across) => openingMm * (1 - across * across),
    };
    return svg`<path class="blade" data-blade=${blade} d=${sectionPath(frame, blade, edges[blade])}></path>`;
  }
}
