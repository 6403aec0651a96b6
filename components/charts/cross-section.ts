import { css, html, LitElement, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { BLADES, type Blade } from '../../shared/blade.ts';
import type { ThicknessUnit } from '../../shared/units.ts';
import { acrossWords } from '../../src/words/figure-words.ts';
import { joined, stationText, thicknessFigure, UNIT_WORDS, type Writing } from '../../src/words/format.ts';
import { figureText } from '../figure-text.ts';
import { base } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import { bandColour } from '../map/colour-layer.ts';
import type { CrossSectionData, Edge } from './chart-data.ts';
import { sectionPath, sectionPoint, type SectionFrame } from './section-path.ts';

const WIDTH = 384;
const HEIGHT = 190;
const MIDDLE = HEIGHT / 2;
/** Bare paper between the insides of the blades, mm. */
const APART_MM = 0.35;
const THICKNESS_FACTOR = 3;

/**
 * Both blades cut across at one distance from the tip, seen from the cork: A above, and under each place of A what faces it
 * on B.
 *
 * @csspart picture - The drawing.
 */
@customElement('bench-cross-section')
export class CrossSection extends LitElement {
  static override styles = [
    base,
    css`
      svg {
        display: block;
        width: 100%;
        height: auto;
        fill: none;
      }
      .blade {
        stroke: var(--bench-ink);
        stroke-width: 1.6;
        stroke-linejoin: round;
      }
      text {
        fill: var(--bench-ink);
        font: 13px var(--bench-sans);
        text-anchor: middle;
        dominant-baseline: central;
      }
      .name {
        font: 20px var(--bench-serif);
      }
      .side {
        fill: var(--bench-ink2);
      }
      .side-1 {
        fill: var(--bench-ink);
      }
      p {
        margin: var(--bench-space-1) 0 0;
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
      }
      .cane {
        shape-rendering: crispedges;
        forced-color-adjust: none;
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);

  @property({ attribute: false }) data: CrossSectionData | undefined;
  @property() unit: ThicknessUnit = 'hundredths';
  /** The maker's decimal sign. */
  @property() decimal: Writing['decimal'] = 'point';

  private get frame(): SectionFrame {
    return {
      centre: WIDTH / 2,
      middle: MIDDLE,
      unitsPerMm: 36,
      thicknessFactor: THICKNESS_FACTOR,
      widthMm: this.data!.widthMm,
      apartMm: () => APART_MM,
    };
  }

  private get words(): string {
    const { fromTipMm, numbers } = this.data!;
    const blade = (name: Blade) =>
      numbers[name]
        ?.map((figure) => `${acrossWords(figure.across)} ${joined(thicknessFigure(figure, this))}`)
        .join(', ');
    const read = BLADES.filter((name) => numbers[name]);
    return `Cut across at ${stationText(fromTipMm, this)} from the tip, seen from the cork, A above, side 1 on the left, ${UNIT_WORDS[this.unit].spoken[1]}. ${read.map((name) => `${name}, from its own left: ${blade(name)}`).join('. ')}.`;
  }

  override render() {
    if (!this.data) return nothing;
    return html`<svg part="picture" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label=${this.words}>
        ${BLADES.map((blade) => this.renderBlade(blade))}
        <text class="side" x="28" y=${MIDDLE - 12}>side 1</text>
        <circle class="side-1" cx="28" cy=${MIDDLE + 6} r="4"></circle>
        <text class="side" x=${WIDTH - 28} y=${MIDDLE}>side 2</text>
      </svg>
      <p>
        Seen from the cork: A above, and under each place what faces it on B. Laid flat, thickness drawn
        ${THICKNESS_FACTOR} ×.
      </p>`;
  }

  /** The cut face in the colours of the map, a strip between each two places. */
  private renderCane(frame: SectionFrame, blade: Blade, { across, thicknessMm }: Edge) {
    const strips = Array.from(across).slice(1);
    return svg`<g class="cane">${strips.map((to, k) => {
      const [from, here, next] = [across[k]!, thicknessMm[k]!, thicknessMm[k + 1]!];
      const strip: Edge = { across: [from, to], thicknessMm: [here, next] };
      return svg`<path fill=${bandColour('thickness', (here + next) / 2)} d=${sectionPath(frame, blade, strip)}></path>`;
    })}</g>`;
  }

  private renderBlade(blade: Blade) {
    const { edges, numbers } = this.data!;
    const edge = edges[blade];
    if (!edge) return nothing;
    const { frame } = this;
    const up = blade === 'A' ? -1 : 1;
    const top = sectionPoint(frame, blade, 0, Math.max(...Array.from(edge.thicknessMm)));
    return svg`${this.renderCane(frame, blade, edge)}<path class="blade" data-blade=${blade} d=${sectionPath(frame, blade, edge)}></path>
      <text class="name" x="28" y=${blade === 'A' ? 24 : HEIGHT - 24}>${blade}</text>
      ${(numbers[blade] ?? []).map(({ across, valueMm }) => {
        const { x } = sectionPoint(frame, blade, across, valueMm);
        return svg`<text data-blade=${blade} data-across=${across} x=${x} y=${top.outer + up * 12}
          >${figureText(valueMm, this)}</text>`;
      })}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-cross-section': CrossSection;
  }
}
