import { scaleLinear } from 'd3-scale';
import { html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Gauge } from '../../shared/gauge.ts';
import { MM_PER } from '../../shared/units.ts';
import {
  COVERAGE,
  joined,
  signedText,
  thicknessFigure,
  UNIT_WORDS,
  type NumberFormat,
} from '../../src/words/format.ts';
import { levels } from '../marks/axes.ts';
import { markCard } from '../marks/mark-card.ts';
import { MarkWalk, type Stop } from '../marks/mark-walk.ts';
import { mark, textures } from '../marks/marks.ts';
import { marks } from '../marks/marks.styles.ts';
import { sameAsTable } from '../marks/twin.ts';
import { WidthController } from '../marks/width-controller.ts';
import '../picture/picture.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const HEIGHT = 170;
const LEFT = 52;
/** As wide as a mean with its doubt. */
const DOUBT_PX = 64;

/** One place of a study: its mean, and each reading less that, in order. */
interface StudyPlace {
  readonly meanMm: number;
  readonly rest: readonly number[];
}

/** The readings of a repeat study in the order taken, less their mean, on the field in which 95 of 100 are expected. */
@customElement('bench-study-points')
export class StudyPoints extends BenchElement {
  static override styles = [tables, marks];

  private readonly size = new WidthController(this);
  private readonly walk = new MarkWalk(this);

  @property({ attribute: false }) study: Gauge['repeatStudies'][number] | undefined;
  /** Scatter of one reading, one standard deviation. */
  @property({ type: Number }) sdMm = 0;
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  private get places(): readonly StudyPlace[] {
    return (this.study?.stations ?? []).map((readings) => {
      const meanMm = readings.reduce((sum, mm) => sum + mm, 0) / readings.length;
      return { meanMm, rest: readings.map((mm) => mm - meanMm) };
    });
  }

  override render() {
    const { places } = this;
    if (places.length === 0 || this.size.width === 0) return nothing;
    const { unit } = this.writing;
    const caption = `Repeat study: readings less the mean of their place, in order, ${UNIT_WORDS[unit].caption}; dotted: where 95 of 100 are expected`;
    return html`<bench-picture caption=${caption} file-name="repeat study">
      ${this.renderChart(places, caption)}
      ${sameAsTable({
        caption,
        heads: ['Place', 'Mean', 'Readings less their mean, in order'],
        rows: places.map((place, k) => [
          String(k + 1),
          this.mean(place),
          place.rest.map((mm) => this.rest(mm)).join(', '),
        ]),
      })}
    </bench-picture>`;
  }

  private rest(mm: number): string {
    const { unit } = this.writing;
    return signedText(mm / MM_PER[unit], unit === 'mm' ? 3 : 1, this.writing);
  }

  private mean({ meanMm, rest }: StudyPlace, withDoubt = true): string {
    const uMm = this.sdMm / Math.sqrt(rest.length);
    const figure = thicknessFigure({ valueMm: meanMm, uMm }, this.writing);
    return withDoubt ? joined(figure) : figure.value;
  }

  private renderChart(places: readonly StudyPlace[], caption: string) {
    const { width } = this.size;
    const per = MM_PER[this.writing.unit];
    const half = COVERAGE * this.sdMm;
    const most = 1.15 * Math.max(half, ...places.flatMap(({ rest }) => rest.map(Math.abs)));
    const y = scaleLinear([-most, most], [HEIGHT - 30, 8]);
    const axis = scaleLinear([-most / per, most / per], y.range());
    const pitch = (width - LEFT) / places.length;
    const stops = places.flatMap((place, at) =>
      place.rest.map((mm, k): Stop => {
        const lines = [
          `place ${at + 1}, reading ${k + 1}`,
          `${this.rest(mm)} from the mean ${this.mean(place)}`,
        ];
        const x = LEFT + pitch * (at + (0.5 + k) / place.rest.length);
        return { id: `p${at}-${k}`, lines, words: lines.join(', '), x, y: y(mm) };
      }),
    );
    this.walk.groups = stops.map((stop) => [stop]);
    const card = this.walk.shown;
    return html`<svg
      part="picture"
      role="group"
      aria-label=${caption}
      width=${width}
      height=${HEIGHT}
      viewBox="0 0 ${width} ${HEIGHT}"
    >
      ${textures} ${levels(axis, [LEFT - 6, width], axis.ticks(4), (value) => this.rest(value * per))}
      ${places.map(
        (
          place,
          at,
        ) => svg`<rect class="doubtful" x=${LEFT + pitch * at + 3} width=${pitch - 6} y=${y(half)} height=${y(-half) - y(half)}></rect>
          <text x=${LEFT + pitch * (at + 0.5)} y=${HEIGHT - 12} text-anchor="middle">${this.mean(place, pitch > DOUBT_PX)}</text>`,
      )}
      ${stops.map((stop) => this.walk.wrap(stop, mark('sure', stop.x, stop.y)))}
      ${card ? markCard(card, { width, height: HEIGHT }) : nothing}
    </svg>`;
  }
}
