import { scaleLinear } from 'd3-scale';
import { css, html, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Reed } from '../../shared/reed.ts';
import type { KnownReed } from '../../src/traits/columns.ts';
import { wayWords } from '../../src/traits/trait-words.ts';
import { PROFILE_GRID } from '../../src/traits/reed-summary.ts';
import type { PrincipalComponent } from '../../src/traits/ways.ts';
import { numberText, signedText, UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import { unbroken } from '../bench/question-element.ts';
import { hrefOf } from '../frame/routes.ts';
import '../map/blade-map.ts';
import type { BladeMapData } from '../map/map-data.ts';
import { styleBlade } from '../map/style-blade.ts';
import { ruler } from '../marks/axes.ts';
import { markCard } from '../marks/mark-card.ts';
import { MarkWalk, type Stop } from '../marks/mark-walk.ts';
import { mark } from '../marks/marks.ts';
import { marks } from '../marks/marks.styles.ts';
import { sameAsTable } from '../marks/twin.ts';
import { WidthController } from '../marks/width-controller.ts';
import '../picture/picture.ts';
import { tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** The dots of the reeds: the room above their ruler, and what is tried until they fit it, CSS pixels. */
const DOTS = { height: 66, foot: 26, edge: 12, sizes: [3.4, 2.8, 2.2, 1.7, 1.3] };
/** Radius of the mark at its usual size. */
const USUAL_RADIUS = 3.6;

interface Placed {
  readonly reed: Reed;
  readonly profileMm: readonly number[];
  /** Along the way, in standard deviations. */
  readonly place: number;
}

/** One main way in which reeds differ: the two furthest apart with what parts them, and every reed between as a mark. */
@customElement('bench-way')
export class WayView extends BenchElement {
  static override styles = [
    tables,
    marks,
    css`
      h3 {
        margin: 0;
        font: var(--bench-font-say);
      }
      p {
        margin: var(--bench-space-1) 0;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      .blades {
        display: grid;
        grid-template-columns: repeat(3, minmax(0, 1fr));
        max-width: 420px;
        margin: 0 auto;
      }
      figure {
        margin: 0;
      }
      figcaption {
        font: var(--bench-font-caption);
        text-align: center;
      }
      .ends {
        display: flex;
        justify-content: space-between;
      }
    `,
  ];

  private readonly size = new WidthController(this);
  private readonly walk = new MarkWalk(this);
  private placed: readonly Placed[] = [];
  private maps: Partial<Record<'first' | 'parting' | 'last', BladeMapData | undefined>> = {};

  @property({ attribute: false }) way: PrincipalComponent | undefined;
  @property() heading = '';
  @property() styleKey = '';
  /** The reeds, in the order of the way's places. */
  @property({ attribute: false }) reeds: readonly KnownReed[] = [];
  @property({ attribute: false }) good: ReadonlySet<Reed['id']> = new Set();
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };
  /** What can be said of where favourites lie. */
  @property() favourites = '';

  override willUpdate(changed: PropertyValues<this>) {
    const { way, reeds } = this;
    if (!way || !(changed.has('way') || changed.has('reeds') || changed.has('styleKey'))) return;
    this.placed = reeds
      .map(({ reed, summary }, i) => ({ reed, profileMm: summary.profileMm, place: way.places[i]! }))
      .sort((a, b) => a.place - b.place);
    const ends = [this.placed[0], this.placed.at(-1)].map((one) => one && this.map(one.profileMm));
    const apart = (this.placed.at(-1)?.place ?? 0) - (this.placed[0]?.place ?? 0);
    const parting = this.map(way.oneSdMm.map((mm) => apart * mm));
    this.maps = { first: ends[0], parting, last: ends[1] };
  }

  private map(valuesMm: readonly number[]): BladeMapData {
    return styleBlade(this.styleKey, PROFILE_GRID, { valuesMm });
  }

  override render() {
    const { way, writing, heading, placed } = this;
    const [first, last] = [placed[0], placed.at(-1)];
    if (!way || !first || !last) return nothing;
    const caption = `${heading}: ${first.reed.label} and ${last.reed.label}, the furthest apart along it, and what parts them, ${UNIT_WORDS[writing.unit].caption}; a mark for each reed`;
    return html`<h3>${heading}</h3>
      <p>${wayWords(way, writing)}</p>
      <bench-picture caption=${caption} file-name=${heading}>
        <div class="blades">
          ${this.renderEnd(first, this.maps.first)}
          <figure>
            <figcaption part="words">what parts them</figcaption>
            <bench-blade-map
              plain
              quantity="difference"
              .data=${this.maps.parting}
              label=${`${last.reed.label} less ${first.reed.label}, as far as it lies along this way: ${wayWords(way, writing)}`}
            ></bench-blade-map>
          </figure>
          ${this.renderEnd(last, this.maps.last)}
        </div>
        ${this.size.width > 0 ? this.renderDots(placed, caption) : nothing}
        ${this.renderTable(placed, caption)}
      </bench-picture>
      <p>
        In the middle: where the right one is thicker, orange and hatched, and thinner, violet and ringed,
        along this way. Below: every reed, filled a good one. ${this.favourites}
        ${way.mixed ? ' With so few reeds this way and the next may be one and the same, turned.' : ''}
      </p>`;
  }

  private renderEnd({ reed }: Placed, data: BladeMapData | undefined) {
    return html`<figure>
      <figcaption part="words">
        <a href=${hrefOf({ at: 'bench', reedId: reed.id, question: 'there' })}>${unbroken(reed.label)}</a>
      </figcaption>
      <bench-blade-map
        plain
        .data=${data}
        label=${`${reed.label}: thickness, the mean of both blades`}
      ></bench-blade-map>
    </figure>`;
  }

  private place(value: number): string {
    return signedText(value, 1, this.writing);
  }

  private renderDots(placed: readonly Placed[], caption: string) {
    const { width } = this.size;
    const reach = 1.05 * Math.max(...placed.map(({ place }) => Math.abs(place)));
    const x = scaleLinear([-reach, reach], [DOTS.edge, width - DOTS.edge]);
    const radius = DOTS.sizes.find((size) => highest(placed, x, size) * 2 * size <= DOTS.height) ?? 1;
    const floor = DOTS.height;
    const columns = new Map<number, Stop[]>();
    for (const one of placed) {
      const column = Math.round(x(one.place) / (2 * radius));
      const below = columns.get(column) ?? [];
      columns.set(column, [
        ...below,
        this.stop(one, column * 2 * radius, floor - radius * (1 + 2 * below.length)),
      ]);
    }
    this.walk.groups = [...columns.values()];
    const height = DOTS.height + DOTS.foot;
    const card = this.walk.shown;
    return html`<svg
      part="picture"
      role="group"
      aria-label=${`${caption}. Arrow keys go from reed to reed.`}
      width=${width}
      height=${height}
      viewBox="0 0 ${width} ${height}"
    >
      ${ruler(
        x,
        floor + 2,
        [],
        [-2, -1, 0, 1, 2].filter((sd) => Math.abs(sd) < reach),
        (sd) => numberText(sd, 0, this.writing),
      )}
      ${this.walk.groups.flat().map((stop) => this.walk.wrap(stop, mark(this.good.has(stop.id) ? 'sure' : 'knife', stop.x, stop.y, radius / USUAL_RADIUS)))}
      ${card ? markCard(card, { width, height }) : nothing}
    </svg>`;
  }

  private stop({ reed, place }: Placed, x: number, y: number): Stop {
    const lines = [
      this.good.has(reed.id) ? `${reed.label}, a good reed` : reed.label,
      `${this.place(place)} standard deviations`,
    ];
    const href = hrefOf({ at: 'bench', reedId: reed.id, question: 'there' });
    return { id: reed.id, lines, words: `${lines.join(', ')}. Opens the reed.`, href, x, y };
  }

  private renderTable(placed: readonly Placed[], caption: string) {
    return sameAsTable({
      caption,
      heads: ['Reed', 'Along it, standard deviations', 'Good'],
      rows: placed.map(({ reed, place }) => [
        unbroken(reed.label),
        this.place(place),
        this.good.has(reed.id) ? 'yes' : '',
      ]),
    });
  }
}

/** How many reeds stand over each other where most do. */
function highest(placed: readonly Placed[], x: (place: number) => number, radius: number): number {
  const counts = new Map<number, number>();
  for (const { place } of placed) {
    const column = Math.round(x(place) / (2 * radius));
    counts.set(column, (counts.get(column) ?? 0) + 1);
  }
  return Math.max(...counts.values());
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-way': WayView;
  }
}
