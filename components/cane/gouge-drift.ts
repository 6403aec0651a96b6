import { css, html, LitElement, nothing, svg } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Piece } from '../../shared/cane.ts';
import { FEWEST_PIECES, gougeDrift, type DriftFigure, type GougeDrift } from '../../src/cane/gouge-drift.ts';
import { numberText, signedText, UNIT_WORDS } from '../../src/words/format.ts';
import { MM_PER } from '../../shared/units.ts';
import '../picture/picture.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { pages } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import { canePicture } from './cane-picture.styles.ts';

const WIDTH = 720;
const HEIGHT = 190;
const LEFT = 46;
const RIGHT = 12;
const FIGURES: readonly (readonly [DriftFigure, string])[] = [
  ['centre', 'Centre'],
  ['sideDifference', 'Side difference'],
];

/** The gouge over the pieces of a lot, with the limits of a control chart: is the machine drifting? */
@customElement('bench-gouge-drift')
export class GougeDriftStrip extends LitElement {
  static override styles = [
    base,
    controls,
    pages,
    canePicture,
    css`
      svg {
        max-width: 860px;
      }
      .centre,
      .path {
        fill: none;
        stroke: var(--bench-ink2);
      }
      .limit {
        stroke: var(--bench-ink);
        stroke-dasharray: 2 4;
      }
      circle {
        fill: var(--bench-ink);
      }
      .lozenge {
        fill: var(--bench-plate);
        stroke: var(--bench-excess);
        stroke-width: 2;
      }
      .acts {
        display: flex;
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  @state() private figure: DriftFigure = 'centre';

  /** Pieces of one gouging machine. */
  @property({ attribute: false }) pieces: readonly Piece[] = [];
  /** What stands beside the heading. */
  @property() of = '';
  /** Letters of lots by their identifier, where the pieces are of several. */
  @property({ attribute: false }) codes: ReadonlyMap<string, string> | undefined;

  private nameOf({ lotId, number }: Piece): string {
    const code = this.codes?.get(lotId);
    return code ? `${code}\u00a0${number}` : String(number);
  }

  override render() {
    const read = this.pieces.filter(({ readings }) => readings.length > 0);
    if (read.length === 0) return nothing;
    const drift = gougeDrift(read, this.figure);
    return html`<section>
      <h2>
        Drift of the gouge
        <small
          >${this.of ? `${this.of}, ` : ''}by piece, ${UNIT_WORDS[this.library.writing.unit].caption}</small
        >
      </h2>
      <div class="choice" role="group" aria-label="Figure">
        ${FIGURES.map(
          ([figure, words]) =>
            html`<button aria-pressed=${this.figure === figure} @click=${() => (this.figure = figure)}>
              ${words}
            </button>`,
        )}
      </div>
      <p class="aside">${this.words(drift)}</p>
      ${drift.chart ? this.renderChart(drift, drift.chart) : nothing}
    </section>`;
  }

  private words({ points, chart }: GougeDrift): string {
    if (!chart) {
      return `${points.length} of the ${FEWEST_PIECES} pieces that limits need are read.`;
    }
    const found = points.flatMap(({ piece }, i) =>
      chart.signals[i]!.map((signal) => `piece ${this.nameOf(piece)}: ${signal}`),
    );
    const last = [...new Set(found.map((one) => one.split(': ')[1]!))];
    if (found.length === 0) return 'Steady: no piece is outside the limits, and there is no run or trend.';
    return `Look at the blade of the gouger: ${last.join('; ')}. First seen at ${found[0]!.split(':')[0]}.`;
  }

  private renderChart(
    drift: GougeDrift,
    { centre, lower, upper, signals }: NonNullable<GougeDrift['chart']>,
  ) {
    const { points } = drift;
    const { writing } = this.library;
    const values = points.map(({ valueMm }) => valueMm);
    const [least, most] = [Math.min(lower, ...values), Math.max(upper, ...values)];
    const x = (i: number) => LEFT + 12 + (i * (WIDTH - LEFT - RIGHT - 24)) / Math.max(1, points.length - 1);
    const y = (mm: number) => 20 + ((most - mm) / (most - least || 1)) * (HEIGHT - 56);
    const text = (mm: number) =>
      (this.figure === 'centre' ? numberText : signedText)(
        mm / MM_PER[writing.unit],
        writing.unit === 'mm' ? 3 : 1,
        writing,
      );
    const every = Math.ceil(points.length / (this.codes ? 14 : 24));
    const level = (
      mm: number,
      name: string,
    ) => svg`<path class=${name} d="M${LEFT} ${y(mm)}H${WIDTH - RIGHT}"></path>
      <text x=${LEFT - 6} y=${y(mm) + 4} text-anchor="end">${text(mm)}</text>`;
    const { caption } = UNIT_WORDS[writing.unit];
    const shown = FIGURES.find(([figure]) => figure === this.figure)![1];
    return html`<bench-picture
        caption=${`Drift of the gouge${this.of ? `, ${this.of}` : ''}: ${shown} by piece, ${caption}`}
        file-name="drift of the gouge"
        ><svg
          part="picture"
          viewBox="0 0 ${WIDTH} ${HEIGHT}"
          role="img"
          aria-label=${`Centre ${text(centre)}, limits ${text(lower)} and ${text(upper)}; pieces ${points.map(({ piece, valueMm }) => `${this.nameOf(piece)}: ${text(valueMm)}`).join(', ')}`}
        >
          ${level(centre, 'centre')} ${level(lower, 'limit')} ${level(upper, 'limit')}
          <path class="path" d=${`M${values.map((mm, i) => `${x(i)} ${y(mm)}`).join('L')}`}></path>
          ${points.map(({ piece, valueMm }, i) => this.renderPoint(x(i), y(valueMm), signals[i]!.length > 0, i % every === 0 ? this.nameOf(piece) : ''))}
        </svg></bench-picture
      >
      <p class="quiet">
        A lozenge marks a piece outside what the machine usually does, nine in a row on one side of the
        middle, or six that only rise or only fall.
      </p>
      <details>
        <summary>Sources</summary>
        <p class="quiet">
          Limits three standard deviations either side, from the moving ranges of neighbouring pieces: ISO
          7870-2. Runs of nine and trends of six: Nelson 1984.
        </p>
      </details>`;
  }

  private renderPoint(x: number, y: number, odd: boolean, name: string) {
    return svg`${
      odd
        ? svg`<path class="lozenge" d=${`M${x} ${y - 7}l7 7l-7 7l-7 -7z`}></path>`
        : svg`<circle cx=${x} cy=${y} r="3.6"></circle>`
    }
      ${name ? svg`<text x=${x} y=${HEIGHT - 10} text-anchor="middle">${name}</text>` : nothing}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-gouge-drift': GougeDriftStrip;
  }
}
