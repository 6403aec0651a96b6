import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Blade } from '../../shared/blade.ts';
import { acrossWords } from '../../src/words/figure-words.ts';
import type { FittedReed, ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { numberText, signedText, stationText, UNIT_WORDS } from '../../src/words/format.ts';
import type { ChartBand, ChartLine } from '../charts/chart-data.ts';
import '../charts/profile-chart.ts';
import type { ProfileLine } from '../map/map-data.ts';
import { MapLineMoveEvent } from '../map/map-events.ts';
import '../picture/picture.ts';
import { lastResult } from '../last-result.ts';
import { adjusters } from '../theme/base.styles.ts';
import { ReedPart } from './reed-part.ts';
import {
  bladeLines,
  favouriteLine,
  favouritesBand,
  floorLine,
  passLines,
  wholeLineShare,
} from '../bench/profile-lines.ts';

/** What stands in the chart: both blades, or all passes of one. */
type Shown = 'blades' | Blade;

/** Lines with a name. Places across are those of the usual stations. */
const NAMED: readonly { readonly words: string; readonly line: ProfileLine }[] = [
  { words: 'down the spine', line: { kind: 'down', across: 0 } },
  { words: 'down the left channel', line: { kind: 'down', across: -0.4 } },
  { words: 'down the right channel', line: { kind: 'down', across: 0.4 } },
  { words: 'down the left rail', line: { kind: 'down', across: -0.8 } },
  { words: 'down the right rail', line: { kind: 'down', across: 0.8 } },
  { words: 'across', line: { kind: 'across', fromTipMm: 10 } },
];
const DISTANCE_STEP_MM = 0.25;
const NONE: readonly ReedAtPass[] = [];

const isSame = (one: ProfileLine, other: ProfileLine) =>
  one.kind === 'down'
    ? other.kind === 'down' && Math.abs(one.across - other.across) < 1e-9
    : other.kind === 'across';

/** What stands in the chart. */
interface Drawn {
  readonly lines: readonly ChartLine[];
  readonly band: ChartBand | undefined;
  readonly wholeLine: number | undefined;
}

function drawn(
  benched: FittedReed,
  pass: number,
  line: ProfileLine,
  shown: Shown,
  favourites: readonly ReedAtPass[],
): Drawn {
  const at = { benched, pass };
  const wholeLine = wholeLineShare(at, line);
  const floor = floorLine(at, line);
  if (shown !== 'blades') {
    const before = Array.from({ length: pass }, (_, earlier) => earlier);
    return { lines: [...passLines(at, line, shown, before), ...floor], band: undefined, wholeLine };
  }
  const [only] = favourites;
  const band = favouritesBand(favourites, line);
  const favourite = only && !band ? favouriteLine(only, line) : [];
  return { lines: [...bladeLines(at, line), ...favourite, ...floor], band, wholeLine };
}

/**
 * Thickness of a reed along a line, down the spine, a channel or a rail, or across: both blades with their floor and the
 * favourites, or one blade after every pass. The reader chooses the line.
 *
 * @fires {MapLineMoveEvent} bench-map-line-move - The reader chose another line: `event.line`, and `line` is new.
 */
@customElement('bench-reed-profile')
export class ReedProfile extends ReedPart {
  static override styles = [
    ReedPart.styles,
    adjusters,
    css`
      h2 {
        margin: 0;
        font: var(--bench-font-head);
      }
      h2 small {
        margin-left: 0;
      }
      p {
        margin: 0;
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-1) var(--bench-space-3);
        margin-top: var(--bench-space-2);
      }
      select {
        max-width: 10.5em;
      }
      @media print {
        .row {
          display: none;
        }
      }
      .distance {
        flex: 1 1 100%;
      }
      output {
        min-width: 5.5em;
        white-space: nowrap;
      }
    `,
  ];

  private readonly drawn = lastResult(drawn);

  @state() private shown: Shown = 'blades';

  /** Where the line runs: `{ kind: 'down', across }` or `{ kind: 'across', fromTipMm }`. */
  @property({ attribute: false }) line: ProfileLine = { kind: 'down', across: 0 };
  /** Reeds whose span is drawn beside it, each fitted, at a place among its passes: `benched`, `pass`. */
  @property({ attribute: false }) favourites: readonly ReedAtPass[] = NONE;

  private get words(): string {
    const { line, writing } = this;
    if (line.kind === 'across') return `Cut across at ${stationText(line.fromTipMm, writing)} from the tip`;
    const named = NAMED.find((one) => isSame(one.line, line));
    return named
      ? `${named.words[0]!.toUpperCase()}${named.words.slice(1)}`
      : `Down this line, ${acrossWords(line.across)}, ${signedText(line.across, 2, writing)} of the half-width`;
  }

  private get under(): string {
    const { line, shown, writing } = this;
    const unit = UNIT_WORDS[writing.unit].caption;
    if (line.kind === 'across') return `${unit}, from A’s left edge to its right`;
    return shown === 'blades' && line.across !== 0
      ? `${unit}, mm from the tip, each blade seen from its own bark side`
      : `${unit}, mm from the tip`;
  }

  private choose(line: ProfileLine) {
    this.line = line;
    this.dispatchEvent(new MapLineMoveEvent('A', line));
  }

  private handleLine(event: Event) {
    const chosen = NAMED[Number((event.target as HTMLSelectElement).value)];
    if (chosen) this.choose(chosen.line);
  }

  protected override renderReed(at: ReedAtPass) {
    const { benched, pass } = at;
    const { writing, words, line, shown, favourites } = this;
    const { lines, band, wholeLine } = this.drawn(benched, pass, line, shown, favourites);
    if (lines.length === 0) return nothing;
    const { reed } = benched;
    return html`<h2>${words} <small>${this.under}</small></h2>
      <bench-picture
        caption=${`${reed.label}, ${words}, ${UNIT_WORDS[writing.unit].caption}${reed.invented ? ' (invented)' : ''}`}
        date=${benched.passes[pass]?.takenAt?.slice(0, 10) ?? ''}
        file-name=${`${reed.label} profile`}
      >
        <bench-profile-chart
          along=${line.kind}
          .lines=${lines}
          .band=${band}
          .unit=${writing.unit}
          .decimal=${writing.decimal}
          label=${`Thickness: ${words.toLowerCase()}`}
        ></bench-profile-chart>
      </bench-picture>
      ${
        wholeLine === undefined
          ? nothing
          : html`<p>
              Shaded: 95 % at each place by itself; ${numberText(wholeLine, 1, writing)} times as wide for the
              whole line at once.
            </p>`
      }
      <div class="row">
        ${this.renderLineChoice()} ${this.renderShownChoice(at)} ${this.renderDistance(at)}
      </div>`;
  }

  private renderLineChoice() {
    const { line } = this;
    const chosen = NAMED.findIndex((one) => isSame(one.line, line));
    return html`<label
      >Line
      <select @change=${this.handleLine}>
        ${chosen < 0 ? html`<option value="-1" selected>as dragged</option>` : nothing}
        ${NAMED.map(({ words }, k) => html`<option value=${k} ?selected=${k === chosen}>${words}</option>`)}
      </select>
    </label>`;
  }

  private renderShownChoice({ benched }: ReedAtPass) {
    const { blades } = benched.model!;
    const choices: readonly (readonly [Shown, string])[] = [
      ['blades', 'both blades'],
      ...(['A', 'B'] as const)
        .filter((blade) => blades[blade])
        .map((blade) => [blade, `all passes of ${blade}`] as const),
    ];
    const handle = (event: Event) => (this.shown = (event.target as HTMLSelectElement).value as Shown);
    return html`<label
      >Shown
      <select @change=${handle}>
        ${choices.map(([value, words]) => html`<option value=${value} ?selected=${value === this.shown}>${words}</option>`)}
      </select>
    </label>`;
  }

  private renderDistance({ benched, pass }: ReedAtPass) {
    const { line, writing } = this;
    if (line.kind !== 'across') return nothing;
    const where = `${stationText(line.fromTipMm, writing)} from the tip`;
    const handle = (event: Event) =>
      this.choose({ kind: 'across', fromTipMm: (event.target as HTMLInputElement).valueAsNumber });
    return html`<label class="distance"
      >At
      <input
        type="range"
        min="0"
        max=${benched.assembled.passes[pass]!.bladeLengthMm}
        step=${DISTANCE_STEP_MM}
        aria-valuetext=${where}
        .value=${String(line.fromTipMm)}
        @input=${handle}
      />
      <output>${stationText(line.fromTipMm, writing)}</output>
    </label>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-profile': ReedProfile;
  }
}
