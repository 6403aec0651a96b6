import { css, html, nothing, svg, type PropertyValues } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import { lampSums, type LampSum } from '../../src/answers/lamp-sums.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import { stationText, thicknessFigure, UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import { placeText } from '../figure-text.ts';
import { bladeDrawing, outlinePath, WIDTH_FACTOR, type BladeDrawing } from '../map/blade-drawing.ts';
import * as layers from '../map/blade-layers.ts';
import type { BladeMapData, OutlinePoint } from '../map/map-data.ts';
import { isOtherFormat, LibraryController } from '../store/library-controller.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { paintLight, throughput, USUAL_ATTENUATION_PER_MM } from './light.ts';

const PX_PER_UNIT = 1.5;
const MARGIN = 8;
/** Rows nearer than this to the one above have no figures, mm: they would lie on each other. */
const LEAST_ROW_MM = 1.4;
/** Brighter places carry dark figures. */
const BRIGHT = 0.18;

/**
 * A reed held to the lamp, at the scale of the blades beside it: A in front, B behind, with the sums of both in figures.
 *
 * @csspart canvas - The light.
 * @csspart picture - Outline and figures.
 */
@customElement('bench-lamp-blade')
export class LampBlade extends BenchElement {
  static override styles = css`
    :host {
      position: relative;
      padding-top: 38px;
      border-radius: var(--bench-radius-plate);
      /* A dark ground in every look: light is judged against the dark. */
      background: #0b0805;
      color: #e2c79c;
      forced-color-adjust: none;
    }
    h2,
    p {
      position: absolute;
      top: 4px;
      left: 12px;
      margin: 0;
      font: var(--bench-font-head);
    }
    p {
      top: 23px;
      font: var(--bench-font-caption);
    }
    .light {
      position: relative;
    }
    canvas {
      position: absolute;
      width: 100%;
    }
    svg {
      position: relative;
      display: block;
      width: 100%;
      height: auto;
      overflow: visible;
      fill: none;
    }
    text {
      fill: #f6dfb4;
      font: 13px var(--bench-sans);
      dominant-baseline: central;
    }
    .sum {
      text-anchor: middle;
    }
    text.dark {
      fill: #1c0f02;
    }
    text.thinner {
      font-weight: 700;
    }
    .outline,
    .lozenge {
      stroke: #d9a860;
      stroke-width: 1.2;
    }
    .thread path {
      stroke: #a8834c;
    }
    .thread text {
      fill: #c7a171;
      font-size: 12.5px;
    }
    .side-1 {
      fill: #f6dfb4;
    }
    .probe path {
      stroke: #fff3d6;
      stroke-width: 2;
    }
  `;

  private readonly library = new LibraryController(this);
  private sums: readonly LampSum[] = [];

  @query('canvas') private readonly canvas!: HTMLCanvasElement | null;

  @property({ attribute: false }) benched: FittedReed | undefined;
  /** Place of the pass that is shown. */
  @property({ type: Number }) pass = 0;
  /** Its thickness, as it is drawn beside. */
  @property({ attribute: false }) reed: Readonly<Partial<Record<'A' | 'B', BladeMapData>>> = {};
  /** A place to mark, seen on A. */
  @property({ attribute: false }) probe: OutlinePoint | undefined;
  @property({ attribute: false, hasChanged: isOtherFormat }) writing: NumberFormat = {
    unit: 'hundredths',
    decimal: 'point',
  };

  private get perMm(): number {
    return this.library.choices.lampAttenuationPerMm ?? USUAL_ATTENUATION_PER_MM;
  }

  override willUpdate(changed: PropertyValues<this>) {
    if (this.benched && (changed.has('benched') || changed.has('pass')))
      this.sums = lampSums(this.benched, this.pass);
  }

  override updated() {
    const { canvas, drawing } = this;
    if (!canvas || !drawing) return;
    canvas.width = Math.ceil(this.box(drawing).width * PX_PER_UNIT);
    canvas.height = Math.ceil(drawing.lengthMm * drawing.unitsPerMm * PX_PER_UNIT);
    const pxPerMm = drawing.unitsPerMm * PX_PER_UNIT;
    const sheet = { width: canvas.width, height: canvas.height, pxPerMm, widthFactor: WIDTH_FACTOR };
    canvas.getContext('2d')!.putImageData(paintLight(this.reed, this.perMm, sheet), 0, 0);
    canvas.style.top = `${(100 * drawing.y(0)) / drawing.height}%`;
  }

  private get drawing(): BladeDrawing | undefined {
    const { A, B } = this.reed;
    return A && B && bladeDrawing(A, Math.max(A.bladeLengthMm, B.bladeLengthMm));
  }

  /** The part of a blade's drawing that is shown: without its scale. */
  private box({ centre, width }: BladeDrawing) {
    const reach = width - centre - MARGIN;
    return { left: centre - reach - MARGIN, width: 2 * (reach + MARGIN) };
  }

  /** The usual doubt of a sum: that of the middle one of all. */
  private get doubt(): string {
    const doubts = this.sums.map(({ sum }) => sum.uMm).sort((a, b) => a - b);
    const middle = doubts[Math.floor(doubts.length / 2)];
    return middle === undefined
      ? ''
      : `, ${thicknessFigure({ valueMm: 0, uMm: middle }, this.writing).doubt}`;
  }

  private get label(): string {
    const { writing } = this;
    const thinner = this.sums.filter(({ isThinner }) => isThinner);
    const where = thinner.map(
      ({ fromTipMm, across, sum }) =>
        `side ${across < 0 ? 1 : 2} at ${stationText(fromTipMm, writing)}, ${placeText(sum.valueMm, writing)}`,
    );
    const sides = where.length === 0 ? 'No side is surely thinner.' : `Surely thinner: ${where.join('; ')}.`;
    return `Held to the lamp, A in front and B behind, sums in ${UNIT_WORDS[writing.unit].caption}. ${sides}`;
  }

  override render() {
    const { drawing, reed } = this;
    if (!drawing || !reed.A) return nothing;
    const { left, width } = this.box(drawing);
    return html`<h2 part="words">Held to the lamp</h2>
      <p part="words">A in front, B behind: sums${this.doubt}</p>
      <div class="light">
        <canvas part="canvas" aria-hidden="true"></canvas>
        <svg
          part="picture"
          viewBox="${left} 0 ${width} ${drawing.height}"
          role="img"
          aria-label=${this.label}
        >
          <path class="outline" d=${outlinePath(drawing, reed.A, reed.A.bladeLengthMm)}></path>
          ${layers.threadLayer(drawing, 'A', reed.A.bladeLengthMm, false)} ${this.renderSums(drawing)}
          ${this.probe ? layers.probeLayer(drawing, this.probe) : nothing}
        </svg>
      </div>`;
  }

  private renderSums(drawing: BladeDrawing) {
    const rows = [...new Set(this.sums.map(({ fromTipMm }) => fromTipMm))].sort((a, b) => a - b);
    const shown = new Set<number>();
    let last = 0;
    for (const row of rows) {
      if (row - last < LEAST_ROW_MM) continue;
      shown.add(row);
      last = row;
    }
    return this.sums
      .filter(({ fromTipMm, isThinner }) => shown.has(fromTipMm) || isThinner)
      .map(({ fromTipMm, across, sum, isThinner }) => {
        const [x, y] = [drawing.x(fromTipMm, across), drawing.y(fromTipMm)];
        const isBright = throughput(this.perMm, sum.valueMm) > BRIGHT;
        return svg`${isThinner ? svg`<path class="lozenge" d=${`M${x} ${y - 13}l15 13l-15 13l-15 -13Z`}></path>` : nothing}
          <text class=${`sum ${isBright ? 'dark' : ''} ${isThinner ? 'thinner' : ''}`} x=${x} y=${y}>${placeText(sum.valueMm, this.writing)}</text>`;
      });
  }
}
