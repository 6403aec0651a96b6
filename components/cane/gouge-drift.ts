import { scaleLinear } from 'd3-scale';
import { html, nothing, svg } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Piece } from '../../shared/cane.ts';
import { FEWEST_PIECES, gougeDrift, type DriftFigure, type GougeDrift } from '../../src/cane/gouge-drift.ts';
import { numberText, signedText, UNIT_WORDS } from '../../src/words/format.ts';
import { MM_PER } from '../../shared/units.ts';
import { hrefOf } from '../frame/routes.ts';
import { levels, ruler } from '../marks/axes.ts';
import { linePath } from '../marks/lines.ts';
import { markCard } from '../marks/mark-card.ts';
import { MarkWalk, type Stop } from '../marks/mark-walk.ts';
import { mark } from '../marks/marks.ts';
import { marks } from '../marks/marks.styles.ts';
import { sameAsTable } from '../marks/twin.ts';
import { WidthController } from '../marks/width-controller.ts';
import '../picture/picture.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls, tables } from '../theme/base.styles.ts';
import { pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const HEIGHT = 190;
const EDGE = { left: 62, right: 24, top: 14, foot: 40 };
const FIGURES: readonly (readonly [DriftFigure, string])[] = [
  ['centre', 'Centre'],
  ['sideDifference', 'Side difference'],
];

/** The gouge over the pieces of a lot, with the limits of a control chart: is the machine drifting? */
@customElement('bench-gouge-drift')
export class GougeDriftStrip extends BenchElement {
  static override styles = [controls, pages, tables, marks];

  private readonly library = new LibraryController(this);
  private readonly size = new WidthController(this);
  private readonly walk = new MarkWalk(this);
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

  private text(mm: number): string {
    const { writing } = this.library;
    const write = this.figure === 'centre' ? numberText : signedText;
    return write(mm / MM_PER[writing.unit], writing.unit === 'mm' ? 3 : 1, writing);
  }

  private renderChart(drift: GougeDrift, chart: NonNullable<GougeDrift['chart']>) {
    const { points } = drift;
    const { caption } = UNIT_WORDS[this.library.writing.unit];
    const shown = FIGURES.find(([figure]) => figure === this.figure)![1];
    const title = `Drift of the gouge${this.of ? `, ${this.of}` : ''}: ${shown} by piece, ${caption}`;
    return html`<bench-picture caption=${title} file-name="drift of the gouge">
        ${this.size.width > 0 ? this.renderPicture(points, chart, title) : nothing}
        ${sameAsTable({
          caption: title,
          heads: ['Piece', shown, 'What is odd'],
          rows: points.map(({ piece, valueMm }, i) => [
            this.nameOf(piece),
            this.text(valueMm),
            chart.signals[i]!.join('; '),
          ]),
        })}
      </bench-picture>
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

  private renderPicture(
    points: GougeDrift['points'],
    { centre, lower, upper, signals }: NonNullable<GougeDrift['chart']>,
    title: string,
  ) {
    const { width } = this.size;
    const values = points.map(({ valueMm }) => valueMm);
    const x = scaleLinear([0, Math.max(1, points.length - 1)], [EDGE.left, width - EDGE.right]);
    const y = scaleLinear(
      [Math.min(lower, ...values), Math.max(upper, ...values)],
      [HEIGHT - EDGE.foot, EDGE.top],
    );
    const stops = points.map((point, i) => this.stop(point, signals[i]!, x(i), y(point.valueMm)));
    this.walk.groups = stops.map((stop) => [stop]);
    const ends = [EDGE.left - 12, width - EDGE.right + 12] as const;
    const every = Math.ceil(points.length / (width / (this.codes ? 56 : 30)));
    const named = points.map((_, i) => i).filter((i) => i % every === 0);
    const card = this.walk.shown;
    return html`<svg
      part="picture"
      role="group"
      aria-label=${`${title}. Centre ${this.text(centre)}, limits ${this.text(lower)} and ${this.text(upper)}. Left and right go from piece to piece.`}
      width=${width}
      height=${HEIGHT}
      viewBox="0 0 ${width} ${HEIGHT}"
    >
      ${levels(y, ends, [centre, lower, upper], (mm) => this.text(mm))}
      ${[lower, upper].map((mm) => svg`<path class="line limit" d=${`M${ends[0]} ${y(mm)}H${ends[1]}`}></path>`)}
      ${ruler(x, HEIGHT - EDGE.foot + 8, [], named, (i) => this.nameOf(points[i]!.piece))}
      <path
        class="line thin"
        d=${linePath(
          values.map((value, at) => ({ at, value })),
          x,
          y,
        )}
      ></path>
      ${stops.map((stop, i) => this.walk.wrap(stop, mark(signals[i]!.length > 0 ? 'over' : 'sure', stop.x, stop.y)))}
      ${card ? markCard(card, { width, height: HEIGHT }) : nothing}
    </svg>`;
  }

  private stop(
    { piece, valueMm }: GougeDrift['points'][number],
    odd: readonly string[],
    x: number,
    y: number,
  ): Stop {
    const lines = [`piece ${this.nameOf(piece)}: ${this.text(valueMm)}`, ...odd];
    const href = hrefOf({ at: 'cane', shown: { kind: 'piece', id: piece.id } });
    return { id: piece.id, lines, words: `${lines.join(', ')}. Opens the piece.`, href, x, y };
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-gouge-drift': GougeDriftStrip;
  }
}
