import { scaleLinear } from 'd3-scale';
import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { MM_PER, type ThicknessUnit } from '../../shared/units.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { ramp, type Quantity } from '../theme/ramp.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { bandProperty } from '../theme/tokens.ts';
import { PATTERNS } from './blade-layers.ts';
import { textures } from './blade-map.styles.ts';
import { quantityText, quantityUnit } from './quantity-text.ts';

const WIDTH = 272;
const LEFT = 12;
const BAR = { top: 2, height: 12 };

/** Where a scale is labelled, in the maker's unit: few enough to be read, the least that matters among them. */
const TICKS: Readonly<Record<Quantity, Readonly<Record<ThicknessUnit, readonly number[]>>>> = {
  thickness: {
    hundredths: [5, 10, 20, 30, 40, 50, 60],
    mm: [0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6],
    thou: [2, 4, 8, 12, 16, 20, 23],
  },
  difference: {
    hundredths: [-8, -4, 0, 4, 8],
    mm: [-0.08, -0.04, 0, 0.04, 0.08],
    thou: [-3, -2, -1, 0, 1, 2, 3],
  },
  doubt: { hundredths: [0, 1, 2, 3], mm: [0, 0.01, 0.02, 0.03], thou: [0, 0.4, 0.8, 1.2] },
  believable: { hundredths: [0, 2, 4, 6], mm: [0, 0.02, 0.04, 0.06], thou: [0, 0.8, 1.6, 2.4] },
  slope: { hundredths: [-4, 0, 4, 8, 12], mm: [-0.04, 0, 0.04, 0.08, 0.12], thou: [-1, 0, 1, 2, 3, 4] },
};

const WORDS: Readonly<Record<Quantity, string>> = {
  thickness: 'Colours of thickness: pale is thin, deep is thick',
  difference: 'Colours of a difference: orange and hatched is more, violet and ringed is less',
  doubt: 'Greys of doubt, ± at 95 %: paler is surer',
  believable: 'Greys of the smallest change to believe: paler is smaller',
  slope: 'Colours of slope: pale falls or is level, deep rises away from the tip',
};

/** What the ends of a scale stand for, unless told. */
const ENDS: Readonly<Record<Quantity, readonly [low: string, high: string]>> = {
  thickness: ['thin', 'thick'],
  difference: ['less', 'more'],
  doubt: ['sure', 'unsure'],
  believable: ['small', 'large'],
  slope: ['falls', 'rises'],
};

/**
 * The scale of colours of a map, in the maker's unit. Its ends are points where values beyond them take the end colour.
 *
 * @csspart picture - The drawing.
 */
@customElement('bench-map-legend')
export class MapLegend extends BenchElement {
  static override styles = [
    textures,
    css`
      :host {
        max-width: 300px;
      }
      svg {
        display: block;
        width: 100%;
        height: auto;
        overflow: visible;
        fill: none;
      }
      .bar {
        forced-color-adjust: none;
      }
      .bare {
        fill: var(--bench-plate);
      }
      .tick {
        stroke: var(--bench-rule2);
      }
      text {
        fill: var(--bench-ink3);
        font: 12px var(--bench-sans);
        text-anchor: middle;
      }
      .end {
        fill: var(--bench-ink2);
        text-anchor: start;
      }
      .end:last-of-type {
        text-anchor: end;
      }
    `,
  ];

  @property() quantity: Quantity = 'thickness';
  @property() unit: ThicknessUnit = 'hundredths';
  /** The maker's decimal sign. */
  @property() decimal: NumberFormat['decimal'] = 'point';
  /** Words under the two ends, what is less and what is more. */
  @property({ attribute: false }) ends: readonly [low: string, high: string] | undefined;
  /** Differences up to this are drawn as not measurable, mm; 0 when the map says where. */
  @property({ type: Number, attribute: 'doubt-mm' }) doubtMm = 0;

  /** What the two ends of the scale stand for, in words. */
  private get endWords(): readonly [low: string, high: string] {
    return this.ends ?? ENDS[this.quantity];
  }

  private get x() {
    const { fromMm, toMm } = ramp(this.quantity, 'day');
    return scaleLinear()
      .domain([fromMm, toMm])
      .range([LEFT, WIDTH - LEFT]);
  }

  override render() {
    const { quantity, unit } = this;
    const label = `${WORDS[quantity]}, ${quantityUnit(quantity, unit)}; ${this.endWords.join(' to ')}`;
    return html`<svg part="picture" viewBox="0 0 ${WIDTH} 52" role="img" aria-label=${label}>
      <defs>${PATTERNS}</defs>
      <g class="bar">${this.renderBands()} ${quantity === 'difference' ? this.renderSigns() : nothing}</g>
      ${TICKS[quantity][unit].map((value) => this.renderTick(value))}
      <text class="end" x=${LEFT - 7} y="47">${this.endWords[0]}</text>
      <text class="end" x=${WIDTH - LEFT + 7} y="47">${this.endWords[1]}</text>
    </svg>`;
  }

  private renderBands() {
    const { x, quantity } = this;
    const { bands } = ramp(quantity, 'day');
    const { top, height } = BAR;
    const bottom = top + height;
    return bands.map(({ fromMm, toMm }, i) => {
      const [left, right] = [x(fromMm), x(toMm)];
      const openLeft = i === 0 && fromMm !== 0;
      const openRight = i === bands.length - 1;
      const path =
        `M${openLeft ? left - 7 : left} ${top + height / 2}L${left} ${top}H${right}` +
        `L${openRight ? right + 7 : right} ${top + height / 2}L${right} ${bottom}H${left}Z`;
      return svg`<path fill=${`var(${bandProperty(quantity, i)})`} d=${path}></path>`;
    });
  }

  private renderSigns() {
    const { x, doubtMm } = this;
    const { fromMm, toMm } = ramp('difference', 'day');
    const box = (from: number, to: number, fill: string) =>
      svg`<rect x=${x(from)} y=${BAR.top} width=${x(to) - x(from)} height=${BAR.height} fill=${fill}></rect>`;
    const bare = svg`<rect class="bare" x=${x(-doubtMm)} y=${BAR.top} width=${x(doubtMm) - x(-doubtMm)}
      height=${BAR.height}></rect>`;
    return svg`${box(fromMm, -doubtMm, 'url(#rings)')}${box(doubtMm, toMm, 'url(#hatch)')}
      ${doubtMm > 0 ? svg`${bare}${box(-doubtMm, doubtMm, 'url(#dots)')}` : nothing}`;
  }

  private renderTick(value: number) {
    const { quantity, unit } = this;
    const valueMm = value * MM_PER[unit];
    const x = this.x(valueMm);
    const text = quantityText(quantity, valueMm, this);
    return svg`<path class="tick" d=${`M${x} ${BAR.top + BAR.height}v4`}></path><text x=${x} y="30">${text}</text>`;
  }
}
