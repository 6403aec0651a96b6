import { scaleLinear } from 'd3-scale';
import { html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { GougeReading } from '../../shared/cane.ts';
import type { WishedGouge } from '../../shared/settings.ts';
import { MM_PER } from '../../shared/units.ts';
import type { GougeCurve } from '../../src/cane/gouge-curve.ts';
import { COVERAGE, numberText, plainText, UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import { levels, ruler } from '../marks/axes.ts';
import { bandPath, linePath } from '../marks/lines.ts';
import { markCard } from '../marks/mark-card.ts';
import { MarkWalk, type Stop } from '../marks/mark-walk.ts';
import { mark, textures, type Scale } from '../marks/marks.ts';
import { marks } from '../marks/marks.styles.ts';
import { sameAsTable } from '../marks/twin.ts';
import { WidthController } from '../marks/width-controller.ts';
import '../picture/picture.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const HEIGHT = 214;
const EDGE = { left: 40, right: 10, top: 24, foot: 42 };
const MOST_ARC_MM = 5;
const STEP_MM = 0.1;
const RANGE_MM = [0.3, 0.7] as const;
const LEVELS_MM = [0.3, 0.4, 0.5, 0.6, 0.7];
/** A wished thickness is drawn this far to both sides of its place, mm. */
const WISHED_MM = 0.5;

/** A gouged piece cut across and laid flat: its readings, the inner curve with its doubt, and the wished gouge. */
@customElement('bench-gouge-picture')
export class GougePicture extends BenchElement {
  static override styles = [tables, marks];

  private readonly size = new WidthController(this);
  private readonly walk = new MarkWalk(this);

  /** What the piece is called. */
  @property() of = 'Piece';
  @property({ attribute: false }) readings: readonly GougeReading[] = [];
  @property({ attribute: false }) curve: GougeCurve | undefined;
  @property({ attribute: false }) wished: WishedGouge | undefined;
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  private text(mm: number): string {
    const { unit } = this.writing;
    return numberText(mm / MM_PER[unit], { hundredths: 0, mm: 2, thou: 1 }[unit], this.writing);
  }

  override render() {
    const { writing, readings } = this;
    const caption = `${this.of}, cut across and laid flat, side 1 on the left, ${UNIT_WORDS[writing.unit].caption}`;
    return html`<bench-picture caption=${caption} file-name=${this.of.toLowerCase()}>
      ${this.size.width > 0 ? this.renderChart(this.size.width) : nothing}
      ${
        readings.length > 0
          ? sameAsTable({
              caption,
              heads: ['mm from the middle', 'Reading'],
              rows: readings.map((one) => [plainText(one.arcMm, writing), this.text(one.thicknessMm)]),
            })
          : nothing
      }
    </bench-picture>`;
  }

  private renderChart(width: number) {
    const { writing } = this;
    const x = scaleLinear([-MOST_ARC_MM, MOST_ARC_MM], [EDGE.left, width - EDGE.right]);
    const y = scaleLinear([...RANGE_MM], [HEIGHT - EDGE.foot, EDGE.top]);
    const stops = this.readings.map((one, k) => this.stop(one, k, x, y));
    this.walk.groups = [...stops].sort((a, b) => a.x - b.x).map((stop) => [stop]);
    const [left, right] = x.range() as [number, number];
    const said = stops.map(({ words }) => words).join(', ');
    const card = this.walk.shown;
    return html`<svg
      part="picture"
      role="group"
      aria-label=${`Thickness across the piece in ${UNIT_WORDS[writing.unit].caption}, side 1 on the left: ${said || 'not read'}`}
      width=${width}
      height=${HEIGHT}
      viewBox="0 0 ${width} ${HEIGHT}"
    >
      ${textures} ${levels(y, [left, right], LEVELS_MM, (mm) => this.text(mm))}
      ${ruler(x, HEIGHT - EDGE.foot, [], [-4, -2, 0, 2, 4], (mm) => plainText(mm, writing))}
      <text x=${left} y="10">side 1</text>
      <text x=${right} y="10" text-anchor="end">side 2</text>
      <text x=${x(0)} y=${HEIGHT - 7} text-anchor="middle">mm along the bark from the middle</text>
      ${this.renderWished(x, y)} ${this.renderCurve(x, y)}
      ${stops.map((stop) => this.walk.wrap(stop, mark('sure', stop.x, stop.y)))}
      ${card ? markCard(card, { width, height: HEIGHT }) : nothing}
    </svg>`;
  }

  private stop({ arcMm, thicknessMm }: GougeReading, k: number, x: Scale, y: Scale): Stop {
    const words = `${this.text(thicknessMm)} at ${plainText(arcMm, this.writing)} mm`;
    return { id: `reading-${k}`, lines: [words], words, x: x(arcMm), y: y(thicknessMm) };
  }

  private renderCurve(x: Scale, y: Scale) {
    const { curve } = this;
    if (!curve) return nothing;
    const places = Array.from({ length: Math.round((2 * MOST_ARC_MM) / STEP_MM) + 1 }, (_, i) => {
      const at = -MOST_ARC_MM + i * STEP_MM;
      const { valueMm, uMm } = curve.thicknessAt(at);
      return { at, value: valueMm, low: valueMm - COVERAGE * uMm, high: valueMm + COVERAGE * uMm };
    });
    return svg`<path class="doubtful" d=${bandPath(places, x, y)}></path><path class="line" d=${linePath(places, x, y)}></path>`;
  }

  private renderWished(x: Scale, y: Scale) {
    const { wished } = this;
    if (!wished) return nothing;
    const { sideArcMm, sideMm, centreMm } = wished;
    const wishes = [
      [-sideArcMm, sideMm],
      [0, centreMm],
      [sideArcMm, sideMm],
    ] as const;
    return wishes.map(
      ([at, value]) =>
        svg`<path class="line dashed" d=${linePath(
          [-1, 1].map((side) => ({ at: at + side * WISHED_MM, value })),
          x,
          y,
        )}></path>`,
    );
  }
}
