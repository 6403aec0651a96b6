import { css, html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import type { FloorTable } from '../../shared/style.ts';
import { floorThere, withZoneFloor } from '../../src/blade/zone-floor.ts';
import { LONG_SCRAPE, SHORT_SCRAPE } from '../../src/blade/starting-styles.ts';
import { readingText, stationText, UNIT_WORDS } from '../../src/words/format.ts';
import { countFor } from '../../src/round/gauge-count.ts';
import { typedReading } from '../../src/round/typed-reading.ts';
import '../figures-table/copy-table.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { forms } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const STYLES = [LONG_SCRAPE, SHORT_SCRAPE];
const HUNDREDTH_MM = 0.01;
const SAME_MM = 1e-6;
const acrossHead = (across: number) => (across === 0 ? 'middle' : `${Math.round(100 * across)} % out`);

/** The floors of a style, to be changed place by place: no plan goes under them. */
@customElement('bench-own-floors')
export class OwnFloors extends BenchElement {
  static override styles = [
    controls,
    forms,
    css`
      .scroll {
        overflow-x: auto;
      }
      table {
        margin: var(--bench-space-3) 0;
        border-collapse: collapse;
        font: var(--bench-font-table);
      }
      caption {
        padding-bottom: var(--bench-space-2);
        font: var(--bench-font-caption);
        text-align: left;
      }
      th {
        padding: var(--bench-space-1) var(--bench-space-3) var(--bench-space-1) 0;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
        text-align: left;
        white-space: nowrap;
      }
      input {
        width: 72px;
        text-align: center;
      }
      td.own input {
        border-width: 2px;
        border-color: var(--bench-ink);
        font-weight: 600;
      }
      p {
        margin: 0 0 var(--bench-space-2);
        color: var(--bench-ink2);
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @state() private scrape = LONG_SCRAPE;
  @state() private problem = '';

  private get own() {
    return this.library.store?.snapshot.live.floors.find(({ styleId }) => styleId === this.scrape.key);
  }

  private textOf(floorMm: number | null): string {
    return floorMm === null ? '' : readingText(floorMm, this.library.writing);
  }

  private handleFloor(row: number, column: number, event: Event) {
    const input = event.target as HTMLInputElement;
    const { store, writing } = this.library;
    const table = (this.own ?? this.scrape).floors;
    const typed = typedReading(input.value, countFor(HUNDREDTH_MM, writing.unit), writing.decimal);
    if (typed.kind === 'unclear') {
      this.problem = `${typed.why} The floor stays at ${this.textOf(table.floorMm[row]![column]!) || 'none'}.`;
      input.value = this.textOf(table.floorMm[row]![column]!);
      return;
    }
    this.problem = '';
    const floor = typed.kind === 'reading' ? typed.thicknessMm : null;
    const { key, name } = this.scrape;
    void store?.keepLatest(() => {
      const now = this.own;
      const { floorMm, ...places } = (now ?? this.scrape).floors;
      const changed = floorMm.map((cells, i) =>
        cells.map((cell, j) => (i === row && j === column ? floor : cell)),
      );
      const floors: FloorTable = { ...places, floorMm: changed };
      return [now ? { ...now, floors } : { kind: 'floors', styleId: key, floors }];
    }, `a floor of the ${name.toLowerCase()}`);
  }

  /** Sets one floor all over a zone, as the zone is drawn. */
  private handleZone(event: SubmitEvent) {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const data = new FormData(form);
    const { key, name } = this.scrape;
    const { store, writing } = this.library;
    const zone = store?.styleOf(key).zones.find((one) => one.name === data.get('zone'));
    const typed = typedReading(String(data.get('floor')), countFor(HUNDREDTH_MM, writing.unit));
    this.problem = typed.kind === 'unclear' ? typed.why : '';
    if (!zone || typed.kind === 'unclear') return;
    const floor = typed.kind === 'reading' ? typed.thicknessMm : undefined;
    form.reset();
    void store?.keepLatest(() => {
      const now = this.own;
      const floors = withZoneFloor((now ?? this.scrape).floors, zone, floor);
      return [now ? { ...now, floors } : { kind: 'floors', styleId: key, floors }];
    }, `the floor of ${zone.title}, ${name.toLowerCase()}`);
  }

  private renderZone() {
    const zones = this.library.store?.styleOf(this.scrape.key).zones ?? [];
    return html`<form @submit=${this.handleZone}>
      <label
        >One floor all over a zone<select name="zone">
          ${zones.map(({ name, title }) => html`<option value=${name}>${title}</option>`)}
        </select></label
      >
      <label
        >Least thickness, ${UNIT_WORDS[this.library.writing.unit].name}; blank: none<input
          name="floor"
          inputmode="decimal"
          autocomplete="off"
      /></label>
      <button>Set</button>
    </form>`;
  }

  private handleBack() {
    const { own } = this;
    if (own) void this.library.store?.remove([own.id], `floors of the ${this.scrape.name.toLowerCase()}`);
  }

  override render() {
    const { scrape: style, own } = this;
    const { writing } = this.library;
    const { fromTipMm, across, floorMm } = (own ?? style).floors;
    return html`<div class="choice" role="group" aria-label="Style">
        ${STYLES.map(
          (one) =>
            html`<button aria-pressed=${one === style ? 'true' : 'false'} @click=${() => (this.scrape = one)}>
              ${one.name}
            </button>`,
        )}
      </div>
      ${this.renderZone()}
      <div class="scroll">
        <table>
          <caption>
            Least thickness in ${UNIT_WORDS[writing.unit].name}, the same left and right, straight between the
            places; blank: no floor.
            <bench-copy></bench-copy>
          </caption>
          <thead>
            <tr>
              <th scope="col">from the tip</th>
              ${across.map((u) => html`<th scope="col">${acrossHead(u)}</th>`)}
            </tr>
          </thead>
          <tbody>
            ${fromTipMm.map(
              (y, row) =>
                html`<tr>
                  <th scope="row">${stationText(y, writing)}</th>
                  ${across.map((u, column) => {
                    const floor = floorMm[row]![column]!;
                    const isOwn = Math.abs((floor ?? -1) - (floorThere(style.floors, y, u) ?? -1)) > SAME_MM;
                    return html`<td class=${isOwn ? 'own' : ''}>
                      <input
                        inputmode="decimal"
                        autocomplete="off"
                        aria-label=${`Floor at ${stationText(y, writing)}, ${acrossHead(u)}`}
                        .value=${live(this.textOf(floor))}
                        @change=${(event: Event) => this.handleFloor(row, column, event)}
                      />
                    </td>`;
                  })}
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      <p class="problem" role="status">${this.problem}</p>
      <p>
        ${own ? 'Your own; those in bold differ from the start.' : 'Common practice, no source: where a careful maker may start.'}
      </p>
      ${own ? html`<button @click=${this.handleBack}>Back to the starting floors</button>` : nothing}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-own-floors': OwnFloors;
  }
}
