import { scaleLinear } from 'd3-scale';
import { html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { dayNumber } from '../../shared/moment.ts';
import { MM_PER } from '../../shared/units.ts';
import { knownMeans, type CheckResult, type GaugeCheck } from '../../src/gauge/calibration.ts';
import {
  COVERAGE,
  NO_FIGURE,
  numberText,
  signedText,
  UNIT_WORDS,
  type NumberFormat,
} from '../../src/words/format.ts';
import { dayWords } from '../../src/words/day-words.ts';
import { dayRuler, levels } from '../marks/axes.ts';
import { markCard } from '../marks/mark-card.ts';
import { MarkWalk, type Stop } from '../marks/mark-walk.ts';
import { mark, whisker, type Scale } from '../marks/marks.ts';
import { marks } from '../marks/marks.styles.ts';
import { markKey, sameAsTable } from '../marks/twin.ts';
import { WidthController } from '../marks/width-controller.ts';
import '../picture/picture.ts';
import { momentWords } from '../setup/moment-words.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const HEIGHT = 204;
const LEFT = 46;
const RIGHT = 12;
/** Rows of the zeros and of the known thicknesses, and the ruler under both. */
const ROWS = { zeros: [12, 90], known: [118, 164], foot: 168 } as const;
const ROW_WORDS = { zeros: 'zero', known: 'known thicknesses, shown less true' } as const;
/** Half of a row is never less than this, mm. */
const LEAST_MM = 0.012;
/** At most so many days back; the picture begins with the first check where that came later. */
const MOST_DAYS = 90;
const LEAST_DAYS = 14;
/** Known thicknesses under this have a small mark, mm. */
const THIN_MM = 0.3;

interface Shown {
  readonly stop: Stop;
  readonly isOdd?: boolean;
  readonly isThin?: boolean;
  /** Ends of its stem or whisker, CSS pixels. */
  readonly from: number;
  readonly to: number;
}

/** Zeros of the checks by day on stems from nought, and under them what was shown for known thicknesses, less the truth. */
@customElement('bench-check-chart')
export class CheckChart extends BenchElement {
  static override styles = [tables, marks];

  private readonly size = new WidthController(this);
  private readonly walk = new MarkWalk(this);

  @property({ attribute: false }) checks: readonly GaugeCheck[] = [];
  /** The same in the order of their times, with their lines. */
  @property({ attribute: false }) history: readonly CheckResult[] = [];
  /** A zero further off is odd, mm. */
  @property({ type: Number }) limitMm = 0;
  @property({ type: Number }) stepMm = 0.01;
  /** Scatter of one reading, one standard deviation. */
  @property({ type: Number }) sdMm = 0.005;
  @property({ type: Number }) today = 0;
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  private signed(mm: number, more = 0): string {
    const { unit } = this.writing;
    return signedText(mm / MM_PER[unit], (unit === 'mm' ? 3 : 1) + more, this.writing);
  }

  private get from(): number {
    const first = Math.min(this.today, ...this.checks.map(({ takenAt }) => dayNumber(takenAt)));
    return Math.min(Math.max(first, this.today - MOST_DAYS), this.today - LEAST_DAYS);
  }

  override render() {
    const { width } = this.size;
    const { caption } = UNIT_WORDS[this.writing.unit];
    const title = `Zeros of the gauge by day, and known thicknesses as shown, less true, ${caption}`;
    return html`<bench-picture caption=${title} file-name="checks of the gauge">
      ${width > 0 ? this.renderChart(width, title) : nothing}
      ${markKey([
        [mark('over', 0, 0), 'further off than its scatter'],
        [svg`<path class="line limit" d="M-12 0H12"></path>`, 'limits of it'],
        [svg`${mark('sure', -6, 0, 0.7)}${mark('sure', 6, 0)}`, 'thin and thick known'],
      ])}
      ${this.renderTable(title)}
    </bench-picture>`;
  }

  private renderChart(width: number, title: string) {
    const x = scaleLinear([this.from, this.today + 1], [LEFT, width - RIGHT]);
    const zeros = this.zeros(x);
    const known = this.knowns(x);
    this.walk.groups = [...zeros.shown, ...known.shown]
      .map(({ stop }) => stop)
      .sort((a, b) => a.x - b.x)
      .map((stop) => [stop]);
    const card = this.walk.shown;
    const [left, right] = x.range() as [number, number];
    return html`<svg
      part="picture"
      role="group"
      aria-label=${`${title}. Left and right go from check to check.`}
      width=${width}
      height=${HEIGHT}
      viewBox="0 0 ${width} ${HEIGHT}"
    >
      ${[zeros, known].map(({ y, step }) => levels(y, [left, right], [-step, 0, step], (mm) => this.signed(mm)))}
      ${[-1, 1].map((side) => svg`<path class="line limit" d=${`M${left} ${zeros.y(side * this.limitMm)}H${right}`}></path>`)}
      ${dayRuler(x, ROWS.foot)}
      ${(['zeros', 'known'] as const).map((row) => svg`<text class="strong" x=${left} y=${ROWS[row][0] - 6}>${ROW_WORDS[row]}</text>`)}
      ${this.checks.length === 0 ? svg`<text class="say" x=${left + 8} y=${zeros.y(0) - 16}>A dot for every zero stands here.</text>` : nothing}
      ${[...zeros.shown, ...known.shown].map(({ stop, from, to, isOdd, isThin }) =>
        this.walk.wrap(
          stop,
          svg`${whisker(stop.x, from, to)}${mark(isOdd ? 'over' : 'sure', stop.x, stop.y, isThin ? 0.7 : 1)}`,
        ),
      )}
      ${card ? markCard(card, { width, height: HEIGHT }) : nothing}
    </svg>`;
  }

  private row(values: readonly number[], [top, bottom]: readonly [number, number]) {
    const most = Math.max(LEAST_MM, ...values.map(Math.abs));
    const y: Scale = scaleLinear([-1.15 * most, 1.15 * most], [bottom, top]);
    const step =
      MM_PER[this.writing.unit] *
      (scaleLinear([0, most / MM_PER[this.writing.unit]], [0, 1])
        .ticks(2)
        .at(-1) ?? 1);
    return { y, step };
  }

  private at(x: Scale, takenAt: string): number {
    return x(Math.max(dayNumber(takenAt), x.domain()[0]!) + Number(takenAt.slice(11, 13)) / 24);
  }

  private isShown({ takenAt }: { readonly takenAt: string }): boolean {
    return dayNumber(takenAt) >= this.from;
  }

  private zeros(x: Scale) {
    const own = this.history.filter((check) => check.zeroMm !== undefined && this.isShown(check));
    const { y, step } = this.row([this.limitMm, ...own.map(({ zeroMm }) => zeroMm!)], ROWS.zeros);
    const shown = own.map(({ takenAt, zeroMm = 0 }): Shown => {
      const isOdd = Math.abs(zeroMm) > this.limitMm;
      const lines = [
        dayWords(takenAt),
        `zero ${this.signed(zeroMm)}${isOdd ? ', further off than its scatter' : ''}`,
      ];
      const stop = {
        id: `zero ${takenAt}`,
        lines,
        words: lines.join(', '),
        x: this.at(x, takenAt),
        y: y(zeroMm),
      };
      return { stop, isOdd, from: y(0), to: y(zeroMm) };
    });
    return { y, step, shown };
  }

  private knowns(x: Scale) {
    const own = this.checks
      .filter((check) => this.isShown(check))
      .flatMap((check) =>
        knownMeans(check, this.stepMm, this.sdMm).map((mean) => ({ ...mean, takenAt: check.takenAt })),
      );
    const reach = own.map(({ shownMm, nominalMm, uMm }) => Math.abs(shownMm - nominalMm) + COVERAGE * uMm);
    const { y, step } = this.row(reach, ROWS.known);
    const shown = own.map(({ takenAt, nominalMm, shownMm, uMm }, k): Shown => {
      const off = shownMm - nominalMm;
      const lines = [
        `${dayWords(takenAt)}, known ${this.plain(nominalMm)}`,
        `shown less true ${this.signed(off)} ±${this.plain(COVERAGE * uMm)}`,
      ];
      const isThin = nominalMm < THIN_MM;
      const apart = isThin ? -4 : 4;
      const place = { x: this.at(x, takenAt) + apart, y: y(off) };
      return {
        stop: { id: `known ${k}`, lines, words: lines.join(', '), ...place },
        isThin,
        from: y(off - COVERAGE * uMm),
        to: y(off + COVERAGE * uMm),
      };
    });
    return { y, step, shown };
  }

  private plain(mm: number): string {
    const { unit } = this.writing;
    return numberText(mm / MM_PER[unit], unit === 'mm' ? 3 : 1, this.writing);
  }

  private renderTable(caption: string) {
    return sameAsTable({
      caption: `${caption}; span in per cent`,
      heads: ['When', 'Zero', 'Shown less true', 'Span'],
      rows: this.history.toReversed().map(({ takenAt, zeroMm, line, spanMoved }) => {
        const check = this.checks.find((one) => one.takenAt === takenAt);
        const means = check ? knownMeans(check, this.stepMm, this.sdMm) : [];
        return [
          momentWords(takenAt),
          zeroMm === undefined ? NO_FIGURE : this.signed(zeroMm),
          means
            .map(
              ({ nominalMm, shownMm, uMm }) =>
                `${this.plain(nominalMm)}: ${this.signed(shownMm - nominalMm)} ±${this.plain(COVERAGE * uMm)}`,
            )
            .join('; ') || NO_FIGURE,
          line
            ? `${signedText((line.slope - 1) * 100, 1, this.writing)}${spanMoved ? ', moved' : ''}`
            : NO_FIGURE,
        ];
      }),
    });
  }
}
