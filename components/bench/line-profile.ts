import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Blade } from '../../shared/blade.ts';
import { acrossWords } from '../../src/words/figure-words.ts';
import type { FittedReed, ReedAtPass } from '../../src/answers/fitted-reed.ts';
import {
  numberText,
  signedText,
  stationText,
  UNIT_WORDS,
  type NumberFormat,
} from '../../src/words/format.ts';
import type { ChartBand, ChartLine } from '../charts/chart-data.ts';
import '../charts/profile-chart.ts';
import type { ProfileLine } from '../map/map-data.ts';
import { MapLineMoveEvent } from '../map/map-events.ts';
import '../picture/picture.ts';
import { base, adjusters } from '../theme/base.styles.ts';
import { isStale } from './is-stale.ts';
import {
  bladeLines,
  favouriteLine,
  favouritesBand,
  floorLine,
  passLines,
  wholeLineShare,
} from './profile-lines.ts';

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

const isSame = (one: ProfileLine, other: ProfileLine) =>
  one.kind === 'down'
    ? other.kind === 'down' && Math.abs(one.across - other.across) < 1e-9
    : other.kind === 'across';

/**
 * Thickness along a line that is chosen here or dragged on the map: both blades with the favourites and the floor, or one
 * blade after every pass.
 *
 * @event bench-map-line-move - Another line was chosen; the owner keeps it.
 */
@customElement('bench-line-profile')
export class LineProfile extends LitElement {
  static override styles = [
    base,
    adjusters,
    css`
      h2 {
        margin: 0;
        font: var(--bench-font-head);
      }
      small {
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
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

  private lines: readonly ChartLine[] = [];
  private band: ChartBand | undefined;
  private wholeLine: number | undefined;

  @state() private shown: Shown = 'blades';

  @property({ attribute: false }) benched: FittedReed | undefined;
  /** Place of the pass that is shown. */
  @property({ type: Number }) pass = 0;
  /** Favourites of the same style, this reed not among them. */
  @property({ attribute: false }) favourites: readonly ReedAtPass[] = [];
  @property({ attribute: false }) line: ProfileLine = { kind: 'down', across: 0 };
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  override willUpdate(changed: PropertyValues) {
    const { benched, pass, line, favourites, shown } = this;
    if (!benched?.model || !isStale(changed, ['benched', 'pass', 'line', 'favourites', 'shown'])) return;
    const at = { benched, pass };
    const [only] = favourites;
    this.wholeLine = wholeLineShare(at, line);
    this.band = shown === 'blades' ? favouritesBand(favourites, line) : undefined;
    this.lines =
      shown === 'blades'
        ? [
            ...bladeLines(at, line),
            ...(only && !this.band ? favouriteLine(only, line) : []),
            ...floorLine(at, line),
          ]
        : [
            ...passLines(
              at,
              line,
              shown,
              Array.from({ length: at.pass }, (_, pass) => pass),
            ),
            ...floorLine(at, line),
          ];
  }

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
    this.dispatchEvent(new MapLineMoveEvent('A', line));
  }

  private handleLine(event: Event) {
    const chosen = NAMED[Number((event.target as HTMLSelectElement).value)];
    if (chosen) this.choose(chosen.line);
  }

  override render() {
    const { benched, lines, writing, words } = this;
    if (!benched || lines.length === 0) return nothing;
    const { reed } = benched;
    return html`<h2>${words} <small>${this.under}</small></h2>
      <bench-picture
        caption=${`${reed.label}, ${words}, ${UNIT_WORDS[writing.unit].caption}${reed.invented ? ' (invented)' : ''}`}
        date=${benched.passes[this.pass]?.takenAt?.slice(0, 10) ?? ''}
        file-name=${`${reed.label} profile`}
      >
        <bench-profile-chart
          along=${this.line.kind}
          .lines=${lines}
          .band=${this.band}
          .unit=${writing.unit}
          .decimal=${writing.decimal}
          label=${`Thickness: ${words.toLowerCase()}`}
        ></bench-profile-chart>
      </bench-picture>
      ${
        this.wholeLine === undefined
          ? nothing
          : html`<p>
              Shaded: 95 % at each place by itself; ${numberText(this.wholeLine, 1, writing)} times as wide
              for the whole line at once.
            </p>`
      }
      <div class="row">${this.renderLineChoice()} ${this.renderShownChoice()} ${this.renderDistance()}</div>`;
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

  private renderShownChoice() {
    const { blades } = this.benched!.model!;
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

  private renderDistance() {
    const { line, benched, writing } = this;
    if (line.kind !== 'across') return nothing;
    const where = `${stationText(line.fromTipMm, writing)} from the tip`;
    const handle = (event: Event) =>
      this.choose({ kind: 'across', fromTipMm: (event.target as HTMLInputElement).valueAsNumber });
    return html`<label class="distance"
      >At
      <input
        type="range"
        min="0"
        max=${benched!.assembled.passes[this.pass]!.bladeLengthMm}
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
    'bench-line-profile': LineProfile;
  }
}
