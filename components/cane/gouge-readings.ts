import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { GougeReading } from '../../shared/cane.ts';
import { countFor, COUNT_WORDS, type RoundFormat } from '../../src/round/gauge-count.ts';
import { readingText } from '../../src/round/reading-text.ts';
import { plainText, stationText } from '../../src/words/format.ts';
import { typedReading } from '../../src/round/typed-reading.ts';
import '../figures-table/copy-table.ts';
import { typedNumber } from '../forms/typed-form.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls, tables } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** Where a piece is usually read along it: both ends and the middle. Common practice, no source. */
const USUAL_ALONG_MM = [15, 37, 60];
const NEXT_ALONG_MM = 8;

/** A reading of a piece was typed, or cleared. */
export class GougeReadingEvent extends Event {
  readonly place: Pick<GougeReading, 'alongMm' | 'arcMm'>;
  /** Absent where the reading was cleared. */
  readonly thicknessMm: number | undefined;

  constructor(place: GougeReadingEvent['place'], thicknessMm: number | undefined) {
    super('bench-gouge-reading');
    this.place = place;
    this.thicknessMm = thicknessMm;
  }
}

const same = (a: number, b: number) => Math.abs(a - b) < 1e-6;
const distinct = (values: readonly number[]) => [...new Set(values)].sort((a, b) => a - b);

/**
 * Readings of a gouged piece in rows along it and columns across it.
 *
 * @event bench-gouge-reading - One reading was typed, or cleared.
 */
@customElement('bench-gouge-readings')
export class GougeReadings extends BenchElement {
  static override styles = [
    controls,
    forms,
    fields,
    pages,
    tables,
    css`
      table {
        max-width: 520px;
      }
      td input,
      th input {
        min-width: 4.4em;
        text-align: right;
      }
      td,
      th {
        border: 0;
      }
      .acts {
        align-items: end;
        margin-top: var(--bench-space-3);
      }
      label {
        max-width: 240px;
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @state() private more: readonly number[] = [];
  @state() private sideMm: number | undefined;
  @state() private problem = '';

  @property({ attribute: false }) readings: readonly GougeReading[] = [];
  /** Distance from the middle at which the sides are usually read. */
  @property({ type: Number, attribute: 'side-arc-mm' }) sideArcMm = 4.3;

  private get writing(): RoundFormat {
    const { store, choices } = this.library;
    const count = countFor(store?.snapshot.live.gauge.at(-1)?.stepMm ?? 0.01, choices.unit);
    return { count, decimal: choices.decimal };
  }

  /** The usual places along the piece, unless it was read at others. */
  private get alongs(): number[] {
    const read = this.readings.map(({ alongMm }) => alongMm);
    const isUsual = read.every((along) => USUAL_ALONG_MM.includes(along) || this.more.includes(along));
    return distinct([...(isUsual ? USUAL_ALONG_MM : []), ...read, ...this.more]);
  }

  /** The middle, and both sides at every distance that either was read at. */
  private get arcs(): number[] {
    const read = this.readings.map(({ arcMm }) => Math.abs(arcMm)).filter((arc) => !same(arc, 0));
    const sides =
      read.length > 0 && this.sideMm === undefined ? read : [...read, this.sideMm ?? this.sideArcMm];
    return distinct([0, ...sides.flatMap((arc) => [-arc, arc])]);
  }

  private handleReading(alongMm: number, arcMm: number, input: HTMLInputElement) {
    const { count, decimal } = this.writing;
    const typed = typedReading(input.value, count, decimal);
    this.problem = typed.kind === 'unclear' ? typed.why : '';
    if (typed.kind === 'unclear') {
      input.focus();
      return;
    }
    const thicknessMm = typed.kind === 'reading' ? typed.thicknessMm : undefined;
    this.dispatchEvent(new GougeReadingEvent({ alongMm, arcMm }, thicknessMm));
  }

  private handleSide(event: Event) {
    const value = typedNumber((event.target as HTMLInputElement).value);
    const isPlace = value >= 1 && value <= 10;
    this.problem = isPlace ? '' : 'The sides lie 1 to 10 mm from the middle, along the bark.';
    if (isPlace) this.sideMm = value;
  }

  private handleRow() {
    this.more = [...this.more, this.alongs.at(-1)! + NEXT_ALONG_MM];
  }

  override render() {
    const { arcs, writing } = this;
    const side = (arc: number) =>
      same(arc, 0) ? 'Centre' : `Side ${arc < 0 ? 1 : 2}, ${stationText(Math.abs(arc), writing)}`;
    return html`<table>
        <caption>
          Readings, ${COUNT_WORDS[writing.count]}; each is kept as it is typed
          <bench-copy></bench-copy>
        </caption>
        <thead>
          <tr>
            <th scope="col">Along, mm</th>
            ${arcs.map((arc) => html`<th scope="col">${side(arc)}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${this.alongs.map(
            (along) =>
              html`<tr>
                <th scope="row">${plainText(along, writing)}</th>
                ${arcs.map((arc) => html`<td>${this.renderCell(along, arc, side(arc))}</td>`)}
              </tr>`,
          )}
        </tbody>
      </table>
      ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
      <div class="acts">
        <button @click=${this.handleRow}>One more row</button>
        <label
          >Sides read at, mm from the middle<input
            name="side"
            inputmode="decimal"
            autocomplete="off"
            .value=${plainText(this.sideMm ?? Math.max(...arcs.map(Math.abs)), writing)}
            @change=${this.handleSide}
        /></label>
      </div>`;
  }

  private renderCell(alongMm: number, arcMm: number, name: string) {
    const found = this.readings.find((one) => same(one.alongMm, alongMm) && same(one.arcMm, arcMm));
    return html`<input
      inputmode="decimal"
      autocomplete="off"
      aria-label="${name} at ${stationText(alongMm, this.writing)} along"
      .value=${found ? readingText(found.thicknessMm, this.writing) : ''}
      @change=${(event: Event) => this.handleReading(alongMm, arcMm, event.target as HTMLInputElement)}
    />`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-gouge-readings': GougeReadings;
  }
}
