import { scaleLinear } from 'd3-scale';
import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { MM_PER } from '../../shared/units.ts';
import { calibrationLine, knownMeans, type GaugeCheck, type KnownMean } from '../../src/gauge/calibration.ts';
import { predict, type StraightLine } from '../../src/gauge/straight-line.ts';
import {
  COVERAGE,
  numberText,
  plainText,
  signedText,
  UNIT_WORDS,
  type NumberFormat,
} from '../../src/words/format.ts';
import { levels, ruler } from '../marks/axes.ts';
import { bandPath, linePath } from '../marks/lines.ts';
import { markCard } from '../marks/mark-card.ts';
import { MarkWalk, type Stop } from '../marks/mark-walk.ts';
import { mark, textures, whisker } from '../marks/marks.ts';
import { marks } from '../marks/marks.styles.ts';
import { sameAsTable } from '../marks/twin.ts';
import { WidthController } from '../marks/width-controller.ts';
import '../picture/picture.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** One panel's height with its ruler, CSS pixels. */
const HEIGHT = 174;
const EDGE = { left: 44, right: 12, top: 22, foot: 34 };
/** Narrower, one panel stands under the other. */
const BESIDE_PX = 430;
/** What is left over is never drawn finer than this, mm: less is the display's own step. */
const LEAST_MM = 0.005;
const STEPS = 20;

interface Panel {
  readonly x: ReturnType<typeof scaleLinear<number, number>>;
  readonly top: number;
  readonly foot: number;
}

/** Known thicknesses: shown against true with the line through their means, and what it leaves over, drawn larger. */
@customElement('bench-known-line')
export class KnownLine extends BenchElement {
  static override styles = [
    tables,
    marks,
    css`
      p {
        margin: 0 0 var(--bench-space-1);
      }
    `,
  ];

  private readonly size = new WidthController(this);
  private readonly walk = new MarkWalk(this);

  @property({ attribute: false }) check: Pick<GaugeCheck, 'known' | 'zeroMm'> | undefined;
  @property({ type: Number }) stepMm = 0.01;
  /** Scatter of one reading, one standard deviation. */
  @property({ type: Number }) sdMm = 0.005;
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  private text(mm: number, more = 0): string {
    const { unit } = this.writing;
    return numberText(mm / MM_PER[unit], (unit === 'mm' ? 3 : 1) + more, this.writing);
  }

  private signed(mm: number): string {
    const { unit } = this.writing;
    return signedText(mm / MM_PER[unit], unit === 'mm' ? 4 : 2, this.writing);
  }

  override render() {
    if (!this.check) return nothing;
    const check = { takenAt: '', ...this.check };
    const line = calibrationLine(check, this.stepMm, this.sdMm);
    if (!line) return html`<p>Two different thicknesses make a line.</p>`;
    const means = knownMeans(check, this.stepMm, this.sdMm).sort((a, b) => a.nominalMm - b.nominalMm);
    const percent = numberText((line.slope - 1) * 100, 1, this.writing);
    const doubt = numberText(COVERAGE * line.uSlope * 100, 1, this.writing);
    const caption = `Known thicknesses as shown, the line through their means and what it leaves over, ${UNIT_WORDS[this.writing.unit].caption}; whiskers and dots 95 %`;
    return html`<p>The span is off by ${percent} ±${doubt} % (95 %).</p>
      <bench-picture caption=${caption} file-name="the gauge's line">
        ${this.size.width > 0 ? this.renderChart(line, means, caption) : nothing}
        ${sameAsTable({
          caption,
          heads: ['It is', 'Shown', 'Left over'],
          rows: means.map((one) => [
            this.text(one.nominalMm),
            this.text(one.shownMm, 1),
            this.rest(line, one),
          ]),
        })}
      </bench-picture>`;
  }

  private rest(line: StraightLine, { nominalMm, shownMm, uMm }: KnownMean): string {
    return `${this.signed(shownMm - predict(line, nominalMm).value)} ±${this.text(COVERAGE * uMm, 1)}`;
  }

  private renderChart(line: StraightLine, means: readonly KnownMean[], caption: string) {
    const { width } = this.size;
    const isBeside = width >= BESIDE_PX;
    const half = isBeside ? width * 0.42 : width;
    const height = isBeside ? HEIGHT : 2 * HEIGHT;
    const most = 1.06 * Math.max(...means.map(({ nominalMm }) => nominalMm));
    const panel = (left: number, right: number, top: number): Panel => ({
      x: scaleLinear([0, most], [left + EDGE.left, right - EDGE.right]),
      top: top + EDGE.top,
      foot: top + HEIGHT - EDGE.foot,
    });
    const [shown, rest] = [panel(0, half, 0), panel(isBeside ? half : 0, width, isBeside ? 0 : HEIGHT)];
    const stops = this.stops(line, means, rest);
    this.walk.groups = stops.map((stop) => [stop]);
    const card = this.walk.shown;
    return html`<svg
      part="picture"
      role="group"
      aria-label=${`${caption}. Left and right go from one to the next.`}
      width=${width}
      height=${height}
      viewBox="0 0 ${width} ${height}"
    >
      ${textures} ${this.renderShown(line, means, shown)} ${this.renderRest(line, means, rest, stops)}
      ${card ? markCard(card, { width, height }) : nothing}
    </svg>`;
  }

  private ruler({ x, foot }: Panel) {
    const per = MM_PER[this.writing.unit];
    const units = scaleLinear(
      x.domain().map((mm) => mm / per),
      x.range(),
    );
    return ruler(units, foot, [], units.ticks(5), (value) => plainText(value, this.writing));
  }

  private renderShown(line: StraightLine, means: readonly KnownMean[], panel: Panel) {
    const { x, top, foot } = panel;
    const y = scaleLinear(x.domain(), [foot, top]);
    const per = MM_PER[this.writing.unit];
    const steps = scaleLinear([0, x.domain()[1]! / per], [0, 1])
      .ticks(4)
      .map((value) => value * per);
    const ends = x.domain().map((at) => ({ at, value: predict(line, at).value }));
    return svg`${levels(y, x.range() as [number, number], steps, (mm) => plainText(mm / per, this.writing))} ${this.ruler(panel)}
      <text x=${x.range()[0]!} y=${top - 13}>shown, against true</text>
      <path class="line" d=${linePath(ends, x, y)}></path>
      ${means.map(({ nominalMm, shownMm }) => mark('sure', x(nominalMm), y(shownMm)))}`;
  }

  private restScale(line: StraightLine, means: readonly KnownMean[], { x, top, foot }: Panel) {
    const rest = (one: KnownMean) => one.shownMm - predict(line, one.nominalMm).value;
    const reach = [
      ...means.map((one) => Math.abs(rest(one)) + COVERAGE * one.uMm),
      ...x.domain().map((at) => COVERAGE * predict(line, at).u),
    ];
    const most = 1.1 * Math.max(LEAST_MM, ...reach);
    return { rest, y: scaleLinear([-most, most], [foot, top]) };
  }

  private stops(line: StraightLine, means: readonly KnownMean[], panel: Panel): Stop[] {
    const { rest, y } = this.restScale(line, means, panel);
    return means.map((one, k) => {
      const lines = [
        `known ${this.text(one.nominalMm)}`,
        `shown ${this.text(one.shownMm, 1)}`,
        `left over ${this.rest(line, one)}`,
      ];
      return { id: `known-${k}`, lines, words: lines.join(', '), x: panel.x(one.nominalMm), y: y(rest(one)) };
    });
  }

  private renderRest(line: StraightLine, means: readonly KnownMean[], panel: Panel, stops: readonly Stop[]) {
    const { x, top } = panel;
    const { rest, y } = this.restScale(line, means, panel);
    const [from, to] = x.domain() as [number, number];
    const band = Array.from({ length: STEPS + 1 }, (_, k) => {
      const at = from + ((to - from) * k) / STEPS;
      const half = COVERAGE * predict(line, at).u;
      return { at, low: -half, high: half };
    });
    const per = MM_PER[this.writing.unit];
    const ticks = scaleLinear(
      y.domain().map((mm) => mm / per),
      [0, 1],
    )
      .ticks(4)
      .map((value) => value * per);
    return svg`<path class="doubtful" d=${bandPath(band, x, y)}></path>
      ${levels(y, x.range() as [number, number], ticks, (mm) => plainText(mm / per, this.writing))} ${this.ruler(panel)}
      <text x=${x.range()[0]!} y=${top - 13}>what the line leaves over</text>
      ${means.map((one, k) => {
        const half = COVERAGE * one.uMm;
        const drawn = svg`${whisker(stops[k]!.x, y(rest(one) + half), y(rest(one) - half))}${mark('sure', stops[k]!.x, stops[k]!.y)}`;
        return this.walk.wrap(stops[k]!, drawn);
      })}`;
  }
}
