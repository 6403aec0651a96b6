import { max } from 'd3-array';
import { scaleLinear } from 'd3-scale';
import { css, html, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { BLADES, type Blade } from '../../shared/blade.ts';
import type { ThicknessUnit } from '../../shared/units.ts';
import { readingText, UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import { linePath } from '../marks/lines.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** The spine of one reed: thickness down the middle of each blade that was read, from the tip. */
export interface Spine {
  readonly id: string;
  readonly title: string;
  /** A line under the title. */
  readonly note: string;
  readonly href: string;
  readonly atMm: readonly number[];
  readonly thicknessMm: Readonly<Partial<Record<Blade, ArrayLike<number>>>>;
}

const WIDTH = 132;
const HEIGHT = 76;
const MARGIN = { left: 4, right: 4, top: 6, bottom: 6 };
/** Light lines at these thicknesses help the eye from one picture to the next, mm. */
const GUIDES_MM = [0.2, 0.4, 0.6];

/**
 * The spines of many reeds as small pictures at one scale, each a link to its reed: A solid, B dashed.
 *
 * @csspart picture - A drawing.
 */
@customElement('bench-spine-multiples')
export class SpineMultiples extends BenchElement {
  static override styles = css`
    ul {
      display: grid;
      grid-template-columns: repeat(auto-fill, minmax(120px, 1fr));
      gap: var(--bench-space-4);
      margin: 0;
      padding: 0;
      list-style: none;
    }
    a {
      display: block;
      text-decoration: none;
    }
    svg {
      display: block;
      width: 100%;
      height: auto;
      fill: none;
    }
    .ground {
      fill: var(--bench-plate);
      stroke: var(--bench-rule);
    }
    .guide {
      stroke: var(--bench-rule);
    }
    .line {
      stroke-width: 1.8;
      stroke-linejoin: round;
    }
    .A {
      stroke: var(--bench-blade-a);
    }
    .B {
      stroke: var(--bench-blade-b);
      stroke-dasharray: 6 3;
    }
    .title {
      font: var(--bench-font-aside);
      white-space: nowrap;
    }
    .note,
    p {
      color: var(--bench-ink3);
      font: var(--bench-font-caption);
    }
    p {
      margin: var(--bench-space-2) 0 0;
    }
  `;

  @property({ attribute: false }) spines: readonly Spine[] = [];
  @property() unit: ThicknessUnit = 'hundredths';
  /** The maker's decimal sign. */
  @property() decimal: NumberFormat['decimal'] = 'point';

  private get scales() {
    const longest = max(this.spines, ({ atMm }) => atMm.at(-1) ?? 0) ?? 1;
    const thickest =
      max(
        this.spines.flatMap(({ thicknessMm }) =>
          BLADES.map((b) => max(Array.from(thicknessMm[b] ?? [])) ?? 0),
        ),
      ) ?? 0;
    return {
      x: scaleLinear()
        .domain([0, longest])
        .range([MARGIN.left, WIDTH - MARGIN.right]),
      y: scaleLinear()
        .domain([0, Math.max(thickest, GUIDES_MM.at(-1)!)])
        .range([HEIGHT - MARGIN.bottom, MARGIN.top]),
    };
  }

  override render() {
    const { spines, unit } = this;
    const guides = GUIDES_MM.map((mm) => readingText(mm, this)).join(', ');
    return html`<ul>
        ${spines.map((spine) => this.renderSpine(spine))}
      </ul>
      <p>
        All at one scale, tip at the left: A solid, B dashed. Light lines at ${guides}
        ${UNIT_WORDS[unit].caption}.
      </p>`;
  }

  private renderSpine({ title, note, href, atMm, thicknessMm }: Spine) {
    const { x, y } = this.scales;
    const curve = (values: ArrayLike<number>) =>
      linePath(
        atMm.map((at, k) => ({ at, value: values[k] })),
        x,
        y,
      );
    return html`<li>
      <a href=${href}>
        <svg part="picture" viewBox="0 0 ${WIDTH} ${HEIGHT}" aria-hidden="true">
          <rect class="ground" x="0.5" y="0.5" width=${WIDTH - 1} height=${HEIGHT - 1}></rect>
          ${GUIDES_MM.map((mm) => svg`<path class="guide" d=${`M${MARGIN.left} ${y(mm)}H${WIDTH - MARGIN.right}`}></path>`)}
          ${BLADES.map((blade) => {
            const values = thicknessMm[blade];
            return values ? svg`<path class=${`line ${blade}`} d=${curve(values)}></path>` : svg``;
          })}
        </svg>
        <span class="title">${title}</span> <span class="note">${note}</span>
      </a>
    </li>`;
  }
}
