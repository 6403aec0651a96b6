import { scaleLinear } from 'd3-scale';
import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { MM_PER } from '../../shared/units.ts';
import type { Claim, ClaimPoint } from '../../src/traits/claims.ts';
import { relationFigures, relationWords } from '../../src/traits/trait-words.ts';
import { numberText, UNIT_WORDS, type NumberFormat, plainText } from '../../src/words/format.ts';
import { unbroken } from '../bench/question-element.ts';
import { hrefOf } from '../frame/routes.ts';
import { levels, ruler } from '../marks/axes.ts';
import { bandPath, linePath } from '../marks/lines.ts';
import { markCard } from '../marks/mark-card.ts';
import { MarkWalk, type Stop } from '../marks/mark-walk.ts';
import { mark, textures, type Scale } from '../marks/marks.ts';
import { marks } from '../marks/marks.styles.ts';
import { markKey, sameAsTable } from '../marks/twin.ts';
import { WidthController } from '../marks/width-controller.ts';
import '../picture/picture.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const HEIGHT = 226;
const EDGE = { top: 10, right: 10, bottom: 26, left: 34 };
/** Reeds of one step of a scale are spread over this much of it, each at a place of its own. */
const SPREAD = 0.5;
/** More reeds than this have smaller marks. */
const MANY_REEDS = 60;
const GOLDEN = 0.618034;

/** One thing that goes with good trials: a sentence, the band of the good reeds, and every reed as a mark that opens it. */
@customElement('bench-claim')
export class ClaimChart extends BenchElement {
  static override styles = [
    tables,
    marks,
    css`
      h3 {
        margin: 0;
        font: var(--bench-font-say);
        text-wrap: pretty;
      }
      p {
        margin: var(--bench-space-1) 0;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      .edge {
        stroke: var(--bench-favourite);
        stroke-width: 1.6;
      }
      .hatched {
        fill: url(#upright);
      }
      /* Over the reeds, and not in the way of pointing at them. */
      .trend {
        pointer-events: none;
      }
      .halo {
        stroke: var(--bench-plate);
        stroke-width: 6;
      }
      .run {
        fill: var(--bench-ink3);
        fill-opacity: 0.28;
      }
      .other > .mark > circle {
        stroke-width: 1;
      }
    `,
  ];

  private readonly size = new WidthController(this);
  private readonly walk = new MarkWalk(this);

  @property({ attribute: false }) claim: Claim | undefined;
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  /** Ways of varying are in their own standard deviations, the blend is a distance, all else a thickness. */
  private get unit(): { readonly per: number; readonly words: string; readonly digits: number } {
    const { name } = this.claim!.relation.figure;
    const { unit } = this.writing;
    if (name.startsWith('way-')) return { per: 1, words: 'standard deviations', digits: 1 };
    if (name === 'blend-place') return { per: 1, words: 'mm', digits: 1 };
    return { per: MM_PER[unit], words: UNIT_WORDS[unit].caption, digits: unit === 'mm' ? 3 : 1 };
  }

  private text(value: number): string {
    const { per, digits } = this.unit;
    return numberText(value / per, digits, this.writing);
  }

  override render() {
    const { claim } = this;
    if (!claim) return nothing;
    const { relation, points } = claim;
    const caption = `${relationWords(relation)} ${this.figureTitle}, ${this.unit.words}, against ${relation.outcome.title}, ${points.length} reeds`;
    return html`<h3>${relationWords(relation)}</h3>
      <p>${this.bandWords(claim)} ${relationFigures(relation, this.writing)}.</p>
      <bench-picture caption=${caption} file-name=${`claim ${relation.figure.name} ${relation.outcome.name}`}>
        ${this.size.width > 0 ? this.renderChart(claim, caption) : nothing}
        ${markKey([
          [mark('sure', 0, 0), 'good reed'],
          [mark('knife', 0, 0), 'other'],
          claim.trend.length > 0 && [
            svg`<rect class="usual run" x="-11" y="-5" width="22" height="10"></rect><path class="line" d="M-11 0H11"></path>`,
            'the middle of the trials along it, 95 %',
          ],
          claim.band !== undefined && [
            svg`${textures}<rect class="favourites" x="-11" y="-7" width="22" height="14"></rect><rect class="hatched" x="-11" y="-7" width="22" height="14"></rect>`,
            'eight in ten good reeds',
          ],
        ])}
        ${sameAsTable({
          caption,
          heads: ['Reed', this.figureTitle, relation.outcome.title, 'Good'],
          rows: points.map(({ reed, x, y, isGood }) => [
            unbroken(reed.label),
            this.text(x),
            plainText(y + this.firstStep, this.writing),
            isGood ? 'yes' : '',
          ]),
        })}
      </bench-picture>`;
  }

  private get figureTitle(): string {
    return this.claim!.relation.figure.title.replace(/^(more|a larger|a) /, '');
  }

  /** Verdicts count from 0, scales from 1: both are shown from 1 to 5. */
  private get firstStep(): number {
    return this.claim!.relation.outcome.name === 'verdict' ? 1 : 0;
  }

  private bandWords({ band }: Claim): string {
    if (!band) return 'Too few good reeds for a band.';
    const pct = (share: number) => numberText(100 * share, 0, this.writing);
    const { share, lower, upper } = band.others;
    return `${this.text(band.low)} to ${this.text(band.high)} ${this.unit.words} holds eight in ten good reeds, and ${pct(share)} in a hundred of the others (${pct(lower)} to ${pct(upper)}).`;
  }

  private renderChart({ points, trend, band, relation }: Claim, caption: string) {
    const { width } = this.size;
    const { per } = this.unit;
    const [first, last] = [points[0]!.x / per, points.at(-1)!.x / per];
    const room = 0.03 * (last - first || 1);
    const x = scaleLinear([first - room, last + room], [EDGE.left, width - EDGE.right]);
    const y = scaleLinear([0.6, 5.4], [HEIGHT - EDGE.bottom, EDGE.top]);
    const stops = points.map((point, k) => this.stop(point, x, y, k, relation.outcome.title));
    this.walk.groups = stops.map((stop) => [stop]);
    const card = this.walk.shown;
    const at = (value: number) => x(value / per);
    return html`<svg
      part="picture"
      role="group"
      aria-label=${`${caption}. Left and right go from reed to reed.`}
      width=${width}
      height=${HEIGHT}
      viewBox="0 0 ${width} ${HEIGHT}"
    >
      ${textures}
      ${
        band
          ? svg`${['favourites', 'hatched'].map((name) => svg`<rect class=${name} x=${at(band.low)} width=${at(band.high) - at(band.low)} y=${EDGE.top} height=${HEIGHT - EDGE.bottom - EDGE.top}></rect>`)}
            <path class="edge" d=${`M${at(band.low)} ${EDGE.top}V${HEIGHT - EDGE.bottom}M${at(band.high)} ${EDGE.top}V${HEIGHT - EDGE.bottom}`}></path>`
          : nothing
      }
      ${levels(y, [EDGE.left, width - EDGE.right], [1, 2, 3, 4, 5], (step) => numberText(step, 0, this.writing))}
      ${ruler(x, HEIGHT - EDGE.bottom, [], x.ticks(5), (value) => plainText(value, this.writing))}
      ${this.renderReeds(points, stops)} ${this.renderTrend(trend, x, y)}
      ${card ? markCard(card, { width, height: HEIGHT }) : nothing}
    </svg>`;
  }

  private renderReeds(points: readonly ClaimPoint[], stops: readonly Stop[]) {
    const size = points.length > MANY_REEDS ? 0.66 : 1;
    return points.map(({ isGood }, k) => {
      const { x, y } = stops[k]!;
      return svg`<g class=${isGood ? 'good' : 'other'}>${this.walk.wrap(stops[k]!, mark(isGood ? 'sure' : 'knife', x, y, size))}</g>`;
    });
  }

  private renderTrend(trend: Claim['trend'], x: Scale, y: Scale) {
    const places = trend.map(({ at, middle, low, high }) => ({
      at: at / this.unit.per,
      value: middle + this.firstStep,
      low: low + this.firstStep,
      high: high + this.firstStep,
    }));
    const line = linePath(places, x, y);
    return svg`<g class="trend"><path class="usual run" d=${bandPath(places, x, y)}></path>
      <path class="line halo" d=${line}></path><path class="line" d=${line}></path></g>`;
  }

  private stop(
    { reed, x: value, y: step, isGood }: ClaimPoint,
    x: Scale,
    y: Scale,
    k: number,
    outcome: string,
  ): Stop {
    const shown = step + this.firstStep;
    const spread = SPREAD * (((k * GOLDEN) % 1) - 0.5);
    const lines = [
      isGood ? `${reed.label}, a good reed` : reed.label,
      `${this.text(value)} ${this.unit.words}`,
      `${outcome}: ${plainText(shown, this.writing)} of 5`,
    ];
    const href = hrefOf({ at: 'bench', reedId: reed.id, question: 'there' });
    return {
      id: reed.id,
      lines,
      words: `${lines.join(', ')}. Opens the reed.`,
      href,
      x: x(value / this.unit.per),
      y: y(shown + spread),
    };
  }
}
