import { scaleLinear } from 'd3-scale';
import { css, html, LitElement, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Reed } from '../../shared/reed.ts';
import { assumedPlanform, halfWidthAt } from '../../src/blade/planform.ts';
import { startingStyle } from '../../src/blade/starting-styles.ts';
import { USUAL_OVERALL_MM } from '../../src/reed/overall-lengths.ts';
import { numberText, type Writing } from '../../src/words/format.ts';
import { wayWords } from '../../src/traits/trait-words.ts';
import { PROFILE_GRID } from '../../src/traits/reed-summary.ts';
import type { PrincipalComponent } from '../../src/traits/ways.ts';
import { unbroken } from '../bench/question-element.ts';
import { hrefOf } from '../frame/routes.ts';
import '../map/blade-map.ts';
import type { BladeMapData } from '../map/map-data.ts';
import '../picture/picture.ts';
import { base } from '../theme/base.styles.ts';
import { pages } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';

const WIDTH = 280;
const HEIGHT = 74;
const AXIS = 44;
const REACH_SD = 3.2;
const BLADE_MM = 21;

/** Where one reed lies along a way of varying. */
export interface WayMark {
  readonly label: string;
  readonly favourite: boolean;
}

/** One main way in which reeds differ: what it does to the blade, and where every reed lies along it. */
@customElement('bench-way')
export class WayView extends LitElement {
  static override styles = [
    base,
    pages,
    css`
      .way {
        display: grid;
        grid-template-columns: minmax(180px, 250px) minmax(0, 1fr);
        gap: var(--bench-space-4);
        align-items: center;
      }
      svg {
        display: block;
        width: 100%;
        max-width: 520px;
        height: auto;
        fill: none;
      }
      text {
        fill: var(--bench-ink2);
        font: 12px var(--bench-sans);
        text-anchor: middle;
      }
      .axis {
        stroke: var(--bench-rule2);
      }
      .reed {
        stroke: var(--bench-ink3);
        stroke-width: 1.2;
      }
      .favourite {
        stroke: var(--bench-favourite);
        stroke-width: 2;
      }
      @media (max-width: 640px) {
        .way {
          grid-template-columns: minmax(0, 1fr);
        }
        bench-blade-map {
          max-width: 260px;
        }
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  @property({ attribute: false }) way: PrincipalComponent | undefined;
  @property() heading = '';
  @property() styleKey = '';
  @property({ attribute: false }) marks: readonly WayMark[] = [];
  @property({ attribute: false }) writing: Writing = { unit: 'hundredths', decimal: 'point' };
  /** The reeds, in the order of the places. */
  @property({ attribute: false }) reeds: readonly Reed[] = [];
  /** What can be said of where favourites lie. */
  @property() favourites = '';

  private get data(): BladeMapData {
    const { ysMm, us } = PROFILE_GRID;
    const planform = assumedPlanform(USUAL_OVERALL_MM, startingStyle(this.styleKey).tipWidthMm);
    const values = this.way!.oneSdMm;
    return {
      blade: 'A',
      bladeLengthMm: BLADE_MM,
      ysMm,
      us,
      halfWidthMm: ysMm.map((y) => halfWidthAt(planform, USUAL_OVERALL_MM - y)),
      valuesMm: values,
      marks: ysMm.flatMap((fromTipMm, row) =>
        us.map((across, column) => ({ fromTipMm, across, valueMm: values[row * us.length + column]! })),
      ),
      zones: [],
    };
  }

  override render() {
    const { way, writing } = this;
    if (!way) return '';
    const words = wayWords(way, writing);
    return html`<bench-picture caption=${`${this.heading}: ${words}`} file-name=${this.heading}
      ><div class="way">
        <bench-blade-map
          quantity="difference"
          name="A and B"
          .data=${this.data}
          .unit=${writing.unit}
          .decimal=${writing.decimal}
          .label=${`${this.heading}: what one standard deviation of it does to the mean of both blades`}
        ></bench-blade-map>
        <section>
          <h2>${this.heading}</h2>
          <p class="say">${words}</p>
          ${this.renderPlaces(way)} ${this.renderFurthest(way)}
          <p class="note">
            A line for each reed, double for a favourite; in standard deviations.
            ${this.favourites}${way.mixed ? ' With so few reeds this way and the next may be one and the same, turned.' : ''}
          </p>
        </section>
      </div></bench-picture
    >`;
  }

  /** The two reeds that lie furthest apart along it. */
  private renderFurthest({ places }: PrincipalComponent) {
    const ordered = this.reeds
      .map((reed, i) => ({ reed, place: places[i]! }))
      .sort((a, b) => a.place - b.place);
    const [first, last] = [ordered[0]?.reed, ordered.at(-1)?.reed];
    if (!first || !last) return nothing;
    const link = ({ id, label }: Reed) =>
      html`<a href=${hrefOf({ at: 'bench', reedId: id, question: 'there' })}>${unbroken(label)}</a>`;
    return html`<p class="note">The furthest apart: ${link(first)} and ${link(last)}.</p>`;
  }

  private renderPlaces({ places }: PrincipalComponent) {
    const x = scaleLinear([-REACH_SD, REACH_SD], [12, WIDTH - 12]).clamp(true);
    const favourites = this.marks.flatMap(({ favourite, label }, i) =>
      favourite ? [`${label} at ${numberText(places[i]!, 1, this.writing)}`] : [],
    );
    const label = `${places.length} reeds along it. Favourites: ${favourites.join(', ') || 'none'}`;
    return html`<svg part="picture" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label=${label}>
      <path class="axis" d="M12 ${AXIS}H${WIDTH - 12}"></path>
      ${[-3, -2, -1, 0, 1, 2, 3].map(
        (sd) =>
          svg`<path class="axis" d="M${x(sd)} ${AXIS}v5"></path><text x=${x(sd)} y=${AXIS + 20}>${numberText(sd, 0, this.writing)}</text>`,
      )}
      ${places.map((place, i) =>
        this.marks[i]?.favourite
          ? svg`<path class="favourite" d="M${x(place) - 2} ${AXIS}V6M${x(place) + 2} ${AXIS}V6"></path>`
          : svg`<path class="reed" d="M${x(place)} ${AXIS}v-16"></path>`,
      )}
    </svg>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-way': WayView;
  }
}
