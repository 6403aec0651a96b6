import { scaleLinear } from 'd3-scale';
import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { survivingAt, type SurvivalStep } from '../../src/learning/survival.ts';
import { FEWEST_ENDINGS, type Lasting, type ReedLifetime } from '../../src/rotation/lifetimes.ts';
import { listed } from '../../src/words/figure-words.ts';
import { COVERAGE, numberText, quantityText, withUnit, type NumberFormat } from '../../src/words/format.ts';
import { unbroken } from '../bench/question-element.ts';
import { hrefOf } from '../frame/routes.ts';
import { levels, ruler } from '../marks/axes.ts';
import { markCard } from '../marks/mark-card.ts';
import { MarkWalk, type Stop } from '../marks/mark-walk.ts';
import { mark, textures, type Scale } from '../marks/marks.ts';
import { marks } from '../marks/marks.styles.ts';
import { markKey, sameAsTable } from '../marks/twin.ts';
import { WidthController } from '../marks/width-controller.ts';
import '../picture/picture.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const CAPTION = 'Share of reeds that last so many hours of playing, with its 95 % band';
const HEIGHT = 214;
const EDGE = { top: 14, right: 16, bottom: 30, left: 46 };
const LABEL_APART_PX = 56;
/** So many endings have room for a dot each. */
const MOST_DOTS = 60;

/** A step for each ending: along at the share before, then down. */
function stairs(
  curve: readonly SurvivalStep[],
  pick: (step: SurvivalStep) => number,
  x: Scale,
  y: Scale,
): string {
  return curve.map((step) => `H${x(step.duration).toFixed(1)}V${y(pick(step)).toFixed(1)}`).join('');
}

/** How long reeds last: the share that plays on after so many hours, its doubt, and the maker's own reeds on it. */
@customElement('bench-lasting-chart')
export class LastingChart extends BenchElement {
  static override styles = [
    tables,
    marks,
    css`
      .say {
        margin: 0 0 var(--bench-space-1);
        font: var(--bench-font-aside);
      }
    `,
  ];

  private readonly size = new WidthController(this);
  private readonly walk = new MarkWalk(this);

  @property({ attribute: false }) lasting: Lasting | undefined;
  @property() decimal: NumberFormat['decimal'] = 'point';

  override render() {
    const { lasting } = this;
    if (!lasting) return nothing;
    return html`<p class="say">${this.words}</p>
      ${lasting.ended >= FEWEST_ENDINGS && this.size.width > 0 ? html`${this.renderPicture(lasting)}` : nothing}`;
  }

  private hours(value: number | undefined): string {
    return value === undefined ? 'more than yet seen' : quantityText('hours', value, this);
  }

  private get words(): string {
    const { ended, medianHours, medianInterval } = this.lasting!;
    if (ended < FEWEST_ENDINGS)
      return `Nothing can be said of how long reeds last: ${ended === 0 ? 'none has ended of itself' : ended === 1 ? 'only one has ended of itself' : `only ${ended} have ended of themselves`}, and it takes ${FEWEST_ENDINGS}.`;
    if (medianHours === undefined)
      return 'More than half of your reeds have lasted longer than any that ended, so the half cannot be told yet.';
    const [low, high] = medianInterval;
    return `Half of your reeds last ${this.hours(medianHours)} or longer (95 %: ${this.hours(low)} to ${this.hours(high)}).`;
  }

  private stop(
    { reed, duration, cause }: ReedLifetime,
    curve: readonly SurvivalStep[],
    x: Scale,
    y: Scale,
  ): Stop {
    const lines = [
      reed.label,
      cause
        ? `${cause} after ${quantityText('hours', duration, this)}`
        : `alive at ${quantityText('hours', duration, this)}`,
    ];
    return {
      id: `reed-${reed.id}`,
      lines,
      words: `${lines.join(', ')}. Opens its history.`,
      href: hrefOf({ at: 'history', reedId: reed.id }),
      x: x(duration),
      y: y(survivingAt(curve, duration)),
    };
  }

  private renderPicture(lasting: Lasting) {
    const { lifetimes, curve } = lasting;
    const ended = lifetimes.filter(({ cause }) => cause !== undefined);
    const hasDots = ended.length <= MOST_DOTS;
    const alive = lifetimes.filter(({ reed, cause }) => cause === undefined && reed.state !== 'retired');
    const drawn = [...(hasDots ? ended : []), ...alive].sort((a, b) => a.duration - b.duration);
    const most = Math.max(curve.at(-1)!.duration, ...lifetimes.map(({ duration }) => duration)) * 1.05;
    const x = scaleLinear([0, most], [EDGE.left, this.size.width - EDGE.right]);
    const y = scaleLinear([0, 1], [HEIGHT - EDGE.bottom, EDGE.top]);
    const stops = drawn.map((one) => this.stop(one, curve, x, y));
    this.walk.groups = stops.map((stop) => [stop]);
    return html`<bench-picture caption=${CAPTION} file-name="how long reeds last">
      ${this.renderChart(lasting, x, y, drawn, stops)}
      ${markKey([
        hasDots && [mark('sure', 0, 0), 'ended'],
        [mark('unsure', 0, 0), 'alive, counted as lasting at least so long'],
        [svg`${textures}<rect class="doubtful" x="-12" y="-7" width="24" height="14"></rect>`, 'doubt, 95 %'],
      ])}
      ${this.renderTables(lasting)}
    </bench-picture>`;
  }

  private renderChart(
    { curve, medianHours, medianInterval }: Lasting,
    x: Scale,
    y: Scale,
    drawn: readonly ReedLifetime[],
    stops: readonly Stop[],
  ) {
    const { width } = this.size;
    const [left, right] = x.range() as [number, number];
    const card = this.walk.shown;
    return html`<svg
      part="picture"
      role="group"
      aria-label=${`${CAPTION}. ${this.words}`}
      width=${width}
      height=${HEIGHT}
      viewBox="0 0 ${width} ${HEIGHT}"
    >
      ${textures}
      <path class="doubtful" d=${bandOf(curve, x, y)}></path>
      ${levels(y, [left, right], [0, 0.25, 0.5, 0.75, 1], (share) => `${numberText(share * 100, 0, this)} %`)}
      ${ruler(x, y(0), x.ticks(width / 24), x.ticks(width / 90), (hours) => withUnit(numberText(hours, 0, this), 'h'))}
      <path
        class="line"
        d=${`M${left} ${y(1)}${stairs(curve, ({ surviving }) => surviving, x, y)}H${right}`}
      ></path>
      ${medianHours === undefined ? nothing : this.renderHalf(medianHours, medianInterval, x, y)}
      ${this.renderReeds(drawn, stops)} ${card ? markCard(card, { width, height: HEIGHT }) : nothing}
    </svg>`;
  }

  private renderHalf(hours: number, [low, high]: Lasting['medianInterval'], x: Scale, y: Scale) {
    const foot = y(0) - 5;
    const [from, to] = [x(low ?? 0), high === undefined ? x.range()[1]! : x(high)];
    return svg`<path class="line ahead" d=${`M${x(hours)} ${y(0.5)}V${foot}`}></path>
      <path class="whisker" d=${`M${from} ${foot}H${to}M${from} ${foot - 4}v8M${to} ${foot - 4}v8`}></path>${mark('sure', x(hours), foot)}`;
  }

  private renderReeds(drawn: readonly ReedLifetime[], stops: readonly Stop[]) {
    let labelled = -Infinity;
    return drawn.map(({ reed, cause }, k) => {
      const stop = stops[k]!;
      const hasRoom = cause === undefined && stop.x - labelled > LABEL_APART_PX;
      if (hasRoom) labelled = stop.x;
      return svg`${this.walk.wrap(stop, mark(cause === undefined ? 'unsure' : 'sure', stop.x, stop.y))}
        ${hasRoom ? svg`<text class="reed haloed" aria-hidden="true" x=${stop.x + 6} y=${stop.y - 16}>${unbroken(reed.label)}</text>` : nothing}`;
    });
  }

  private renderTables({ byCause, lifetimes, ended, censored, neverPlayed }: Lasting) {
    const causes = [...byCause]
      .map(([cause, steps]) => ({ cause, ...steps.at(-1)! }))
      .sort((a, b) => b.share - a.share);
    const percent = (share: number) => numberText(share * 100, 0, this);
    const ordered = [...lifetimes].sort((a, b) => a.duration - b.duration);
    return html`${sameAsTable({
      caption: 'Reeds that were played, by their hours',
      heads: ['Reed', 'Hours', 'How it ended'],
      rows: ordered.map(({ reed, duration, cause }) => [
        unbroken(reed.label),
        quantityText('hours', duration, this),
        cause ?? (reed.state === 'retired' ? (reed.retirement?.cause ?? 'retired') : 'alive'),
      ]),
    })}
    ${sameAsTable(
      {
        caption: `What ended the reeds that were played, by the greatest age at which any ended (${listed(causes.map(({ cause }) => cause))}). ${ended} ended of themselves; ${censored} alive, given away, lost or kept as a favourite count as having lasted at least so long; ${neverPlayed} never came to be played and are left out. A reed that one thing ended can no longer end of another. ± is 95 %.`,
        heads: ['Cause', 'Share'],
        rows: causes.map(({ cause, share, u }) => [cause, `${percent(share)} % ±${percent(COVERAGE * u)}`]),
      },
      'What ended them',
    )}`;
  }
}

function bandOf(curve: readonly SurvivalStep[], x: Scale, y: Scale): string {
  const back = [...curve].reverse().map((step, i, all) => {
    const before = all[i + 1]?.interval[0] ?? 1;
    return `L${x(step.duration)} ${y(step.interval[0])}V${y(before)}`;
  });
  return `M${x(0)} ${y(1)}${stairs(curve, ({ interval }) => interval[1], x, y)}${back.join('')}L${x(0)} ${y(1)}Z`;
}
