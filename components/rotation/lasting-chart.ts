import { scaleLinear } from 'd3-scale';
import { css, html, LitElement, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { listed } from '../../src/words/figure-words.ts';
import type { SurvivalStep } from '../../src/learning/survival.ts';
import { COVERAGE, numberText, withUnit, type Writing } from '../../src/words/format.ts';
import { FEWEST_ENDINGS, type Lasting } from '../../src/rotation/lifetimes.ts';
import '../picture/picture.ts';
import { base, tables } from '../theme/base.styles.ts';
import { forms, pages } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';

const WIDTH = 400;
const HEIGHT = 220;
const MARGIN = { top: 12, right: 12, bottom: 30, left: 44 };

/** A step for each ending: along at the share before, then down. */
function stairs(points: readonly (readonly [hours: number, share: number])[], x: Scale, y: Scale): string {
  return points.map(([hours, share]) => `H${x(hours).toFixed(1)}V${y(share).toFixed(1)}`).join('');
}
type Scale = (value: number) => number;

/** How long reeds last: the share that plays on after so many hours, its 95 % band, and what ended the others. */
@customElement('bench-lasting-chart')
export class LastingChart extends LitElement {
  static override styles = [
    base,
    tables,
    forms,
    pages,
    css`
      svg {
        display: block;
        width: 100%;
        max-width: 640px;
        height: auto;
        fill: none;
      }
      text {
        fill: var(--bench-ink2);
        font: 12px var(--bench-sans);
      }
      .axis {
        stroke: var(--bench-rule2);
      }
      .hair {
        stroke: var(--bench-rule);
      }
      .curve {
        stroke: var(--bench-ink);
        stroke-width: 2.4;
      }
      .band {
        fill: var(--bench-ink);
        opacity: 0.12;
      }
      .half {
        stroke: var(--bench-ink2);
        stroke-dasharray: 1.5 4;
        stroke-width: 2;
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  @property({ attribute: false }) lasting: Lasting | undefined;
  @property() decimal: Writing['decimal'] = 'point';

  override render() {
    const { lasting } = this;
    if (!lasting) return nothing;
    return html`<section>
      <h2>How long reeds last <small>hours played</small></h2>
      <p class="say">${this.words}</p>
      ${lasting.ended >= FEWEST_ENDINGS ? html`<div class="two">${this.renderPicture(lasting)} ${this.renderCauses(lasting)}</div>` : nothing}
      <p class="note">
        ${lasting.ended} ended of themselves; ${lasting.censored} alive, given away, lost or kept as an
        example count as having lasted at least so long; ${lasting.neverPlayed} never came to be played and
        are left out. The share is Kaplan and Meier’s; causes compete. ± and the band are 95 %.
      </p>
    </section>`;
  }

  private hours(value: number | undefined): string {
    return value === undefined ? 'more than yet seen' : numberText(value, 0, this);
  }

  private get words(): string {
    const { ended, medianHours, medianInterval } = this.lasting!;
    if (ended < FEWEST_ENDINGS)
      return `Nothing can be said of how long reeds last: ${ended === 0 ? 'none has ended of itself' : ended === 1 ? 'only one has ended of itself' : `only ${ended} have ended of themselves`}, and it takes ${FEWEST_ENDINGS}.`;
    if (medianHours === undefined)
      return 'More than half of your reeds have lasted longer than any that ended, so the half cannot be told yet.';
    const [low, high] = medianInterval;
    return `Half of your reeds last ${withUnit(this.hours(medianHours), 'h')} or longer (95 %: ${this.hours(low)} to ${this.hours(high)}).`;
  }

  private renderPicture({ curve, medianHours }: Lasting) {
    const last = curve.at(-1)!.duration;
    const x = scaleLinear([0, last * 1.06], [MARGIN.left, WIDTH - MARGIN.right]);
    const y = scaleLinear([0, 1], [HEIGHT - MARGIN.bottom, MARGIN.top]);
    const bottom = y(0);
    const line = (pick: (step: SurvivalStep) => number) =>
      `M${x(0)} ${y(1)}${stairs(
        curve.map((step) => [step.duration, pick(step)] as const),
        x,
        y,
      )}H${x(last * 1.06)}`;
    const back = [...curve].reverse();
    const low = back.map((step, i) => {
      const before = back[i + 1]?.interval[0] ?? 1;
      return `L${x(step.duration)} ${y(step.interval[0])}V${y(before)}`;
    });
    const band = `${line(({ interval }) => interval[1])}V${y(curve.at(-1)!.interval[0])}${low.join('')}L${x(0)} ${y(1)}Z`;
    return html`<bench-picture
      caption="Share of reeds that last so many hours of playing, with its 95 % band"
      file-name="how long reeds last"
      ><svg part="picture" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label=${this.words}>
        ${[0, 0.25, 0.5, 0.75, 1].map(
          (share) =>
            svg`<path class="hair" d="M${x(0)} ${y(share)}H${WIDTH - MARGIN.right}"></path>
            <text x=${MARGIN.left - 8} y=${y(share) + 4} text-anchor="end">${share * 100} %</text>`,
        )}
        ${x.ticks(6).map(
          (hours) =>
            svg`<path class="axis" d="M${x(hours)} ${bottom}v5"></path>
            <text x=${x(hours)} y=${bottom + 20} text-anchor="middle">${numberText(hours, 0, this)}</text>`,
        )}
        <path class="axis" d="M${x(0)} ${bottom}H${WIDTH - MARGIN.right}"></path>
        <path class="band" d=${band}></path>
        <path class="curve" d=${line(({ surviving }) => surviving)}></path>
        ${medianHours === undefined ? nothing : svg`<path class="half" d="M${x(0)} ${y(0.5)}H${x(medianHours)}V${bottom}"></path>`}
      </svg></bench-picture
    >`;
  }

  private renderCauses({ byCause }: Lasting) {
    const rows = [...byCause]
      .map(([cause, steps]) => ({ cause, ...steps.at(-1)! }))
      .sort((a, b) => b.share - a.share);
    const percent = (share: number) => numberText(share * 100, 0, this);
    return html`<table>
      <caption>
        What ended the reeds that were played, by the greatest age at which any ended:
        ${listed(rows.map(({ cause }) => cause))}
      </caption>
      <tbody>
        ${rows.map(
          ({ cause, share, u }) =>
            html`<tr>
              <th scope="row">${cause}</th>
              <td>${percent(share)} % ±${percent(COVERAGE * u)}</td>
            </tr>`,
        )}
      </tbody>
    </table>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-lasting-chart': LastingChart;
  }
}
