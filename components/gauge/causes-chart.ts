import { scaleLinear } from 'd3-scale';
import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { CAUSES, type Believable, type Cause } from '../../src/gauge/judge-gauge.ts';
import { doubtText, plainText, UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import { figureText } from '../figure-text.ts';
import { MM_PER } from '../../shared/units.ts';
import { ruler } from '../marks/axes.ts';
import { markCard } from '../marks/mark-card.ts';
import { MarkWalk, type Stop } from '../marks/mark-walk.ts';
import { textures } from '../marks/marks.ts';
import { marks } from '../marks/marks.styles.ts';
import { markKey, sameAsTable } from '../marks/twin.ts';
import { WidthController } from '../marks/width-controller.ts';
import '../picture/picture.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const ROW_PX = 27;
const TOP = 6;
/** For the longest name of a zone, and a little more. */
const CHARACTER_PX = 6.7;
const NAME_PX = { least: 84, most: 160 };
const CAUSE_WORDS: Readonly<Record<Cause, string>> = {
  step: 'display step',
  seating: 'seating',
  placement: 'placement',
  zero: 'zero',
  line: 'line',
};

/** The smallest change to believe by zone, one bar each, split by what makes it so large. */
@customElement('bench-causes-chart')
export class CausesChart extends BenchElement {
  static override styles = [
    tables,
    marks,
    css`
      .cause {
        stroke: var(--bench-ink);
      }
      .step {
        fill: var(--bench-ink);
      }
      .zero {
        fill: var(--bench-plate);
      }
      .line-share {
        fill: var(--bench-ink2);
      }
      .seating {
        fill: var(--bench-rule2);
      }
      .placement {
        fill: var(--bench-sunk);
      }
      .row .ring {
        fill: transparent;
      }
      .usual-values .cause {
        stroke-dasharray: 3 3;
      }
    `,
  ];

  private readonly size = new WidthController(this);
  private readonly walk = new MarkWalk(this, 'rows');

  @property({ attribute: false }) believable: readonly Believable[] = [];
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };
  /** The values are what is usual: this gauge was not studied. */
  @property({ type: Boolean }) assumed = false;

  private get caption(): string {
    return `Smallest change to believe between two single readings of two sittings, 95 %, ${UNIT_WORDS[this.writing.unit].caption}`;
  }

  private text(mm: number): string {
    return figureText(mm, this.writing);
  }

  /** The ± that a cause gives one reading. */
  private share(uMm: number): string {
    return doubtText(uMm, this.writing);
  }

  private get left(): number {
    const longest = Math.max(...this.believable.map(({ name }) => name.length));
    return Math.min(NAME_PX.most, Math.max(NAME_PX.least, longest * CHARACTER_PX + 16));
  }

  override render() {
    const { believable } = this;
    const { width } = this.size;
    if (width === 0 || believable.length === 0) return nothing;
    const most = Math.max(...believable.map(({ changeMm }) => changeMm));
    const x = scaleLinear([0, most * 1.12], [this.left, width - 12]);
    const foot = TOP + ROW_PX * believable.length;
    const stops = believable.map((one, k) => this.stop(one, x(one.changeMm) + 4, TOP + ROW_PX * (k + 0.5)));
    this.walk.groups = stops.map((stop) => [stop]);
    const per = MM_PER[this.writing.unit];
    const units = scaleLinear([0, x.domain()[1]! / per], x.range());
    const card = this.walk.shown;
    return html`<bench-picture caption=${this.caption} file-name="what the gauge can tell">
      <svg
        part="picture"
        class=${this.assumed ? 'usual-values' : ''}
        role="group"
        aria-label=${`${this.caption}. Up and down go from zone to zone.`}
        width=${width}
        height=${foot + 30}
        viewBox="0 0 ${width} ${foot + 30}"
      >
        ${textures} ${ruler(units, foot, [], units.ticks(6), (value) => plainText(value, this.writing))}
        ${believable.map((one, k) => this.walk.wrap(stops[k]!, this.renderBar(one, x, stops[k]!.y)))}
        ${card ? markCard(card, { width, height: foot + 30 }) : nothing}
      </svg>
      ${markKey(CAUSES.map((cause) => [svg`<rect class=${`cause ${classOf(cause)}`} x="-11" y="-6" width="22" height="12"></rect>`, CAUSE_WORDS[cause]] as const))}
      ${sameAsTable({
        caption: `${this.caption}; each cause as the ± that it gives one reading`,
        heads: ['Zone', 'Smallest change', ...CAUSES.map((cause) => CAUSE_WORDS[cause])],
        rows: believable.map(({ name, changeMm, causes }) => [
          name,
          this.text(changeMm),
          ...CAUSES.map((cause) => this.share(causes[cause])),
        ]),
      })}
    </bench-picture>`;
  }

  private stop({ name, changeMm, causes }: Believable, x: number, y: number): Stop {
    const ordered = [...CAUSES].sort((a, b) => causes[b] - causes[a]);
    const lines = [
      `${name}: ${this.text(changeMm)}`,
      'one reading, 95 %:',
      ...ordered.map((cause) => `${CAUSE_WORDS[cause]} ${this.share(causes[cause])}`),
    ];
    return { id: name, lines, words: lines.join(', ').replace(':,', ':'), x, y };
  }

  /** Each cause has its share of the squared uncertainty. */
  private renderBar({ name, changeMm, causes }: Believable, x: (mm: number) => number, y: number) {
    const total = CAUSES.reduce((sum, cause) => sum + causes[cause] ** 2, 0);
    let from = 0;
    const parts = CAUSES.map((cause) => {
      const long = (changeMm * causes[cause] ** 2) / total;
      const part = { cause, left: x(from), width: x(from + long) - x(from) };
      from += long;
      return part;
    });
    return svg`<text x=${this.left - 10} y=${y} text-anchor="end">${name}</text>
      ${parts.map(({ cause, left, width }) => (width > 0 ? svg`<rect class=${`cause ${classOf(cause)}`} x=${left} y=${y - 9} width=${width} height="18"></rect>` : nothing))}
      <text class="strong" x=${x(changeMm) + 12} y=${y}>${this.text(changeMm)}</text>`;
  }
}

const classOf = (cause: Cause) => (cause === 'line' ? 'line-share' : cause);
