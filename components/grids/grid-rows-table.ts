import { html } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { bladesSchema } from '../../shared/remedy.ts';
import { InputError } from '../../shared/errors.ts';
import { fromTipMmSchema } from '../../shared/fields.ts';
import { roleSchema } from '../../shared/reading.ts';
import type { GridRow } from '../../src/round/grid-rows.ts';
import { plainText, type NumberFormat } from '../../src/words/format.ts';
import { positionsText, typedPositions, type AcrossUnit } from '../../src/round/positions-text.ts';
import '../figures-table/copy-table.ts';
import { controls, tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { gridsStyles } from './grids.styles.ts';

/** The rows of a grid were changed by hand. */
export class GridRowsEvent extends Event {
  readonly rows: readonly GridRow[];

  constructor(rows: readonly GridRow[]) {
    super('bench-grid-rows');
    this.rows = rows;
  }
}

const BLADE_WORDS = { A: 'A', B: 'B', both: 'A and B' } as const;
const ROLE_WORDS = { station: 'a reading', control: 'untouched cane' } as const;
/** A new row lies this far below the last. */
const NEXT_ROW_MM = 1;
const MOST_MM = 60;

/**
 * The rows of a grid as a table to type into: distance, blades, positions across as shares or in millimetres.
 *
 * @event bench-grid-rows - The rows as they are to be.
 */
@customElement('bench-grid-rows-table')
export class GridRowsTable extends BenchElement {
  static override styles = [controls, tables, gridsStyles];

  @property({ attribute: false }) rows: readonly GridRow[] = [];
  /** Half the blade's width at a distance from the tip, mm. */
  @property({ attribute: false }) halfWidthMm: (fromTipMm: number) => number = () => 3.4;
  @property() decimal: NumberFormat['decimal'] = 'point';
  @state() private unit: AcrossUnit = 'share';
  @state() private problem = '';

  private change(rows: readonly GridRow[]) {
    this.problem = '';
    this.dispatchEvent(new GridRowsEvent(rows));
  }

  private replace(at: number, changed: Partial<GridRow>) {
    this.change(this.rows.map((row, i) => (i === at ? { ...row, ...changed } : row)));
  }

  private handleDistance(at: number, text: string) {
    const value = Number(text.trim().replace(',', '.') || 'none');
    if (fromTipMmSchema.safeParse(value).success && value >= 0)
      this.replace(at, { fromTipMm: Number(value.toFixed(3)) });
    else this.problem = `\u201c${text}\u201d is no distance. Type mm from the tip, 0 to ${MOST_MM}.`;
  }

  private handlePositions(at: number, row: GridRow, text: string) {
    try {
      const across = typedPositions(text, this.unit, this.halfWidthMm(row.fromTipMm), this);
      if (across.length === 0) this.change(this.rows.filter((_, i) => i !== at));
      else this.replace(at, { across });
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      this.problem = error.message;
    }
  }

  private handleAdd() {
    const last = this.rows.at(-1);
    const fromTipMm = Math.min(MOST_MM, (last?.fromTipMm ?? 0) + NEXT_ROW_MM);
    this.change([
      ...this.rows,
      { blades: 'both', across: [-0.8, 0, 0.8], role: 'station', ...last, fromTipMm },
    ]);
  }

  override render() {
    return html`<div class="line">
        <label>
          Positions across
          <select
            name="unit"
            @change=${(event: Event) => (this.unit = (event.target as HTMLSelectElement).value as AcrossUnit)}
          >
            <option value="share">as shares: 1 is the edge</option>
            <option value="mm">in mm off the middle</option>
          </select>
        </label>
      </div>
      <div class="scroll rows">
        <table>
          <caption>
            Left of the middle is negative, bark side, tip up.
            ${this.unit === 'mm' ? 'Millimetres are kept as shares of a blade of the usual width.' : ''}
            <bench-copy></bench-copy>
          </caption>
          <thead>
            <tr>
              <th scope="col">mm from the tip</th>
              <th scope="col">Blades</th>
              <th scope="col">Across</th>
              <th scope="col">For</th>
              <th scope="col"><span class="said">Take away</span></th>
            </tr>
          </thead>
          <tbody>
            ${this.rows.map((row, at) => this.renderRow(row, at))}
          </tbody>
        </table>
      </div>
      <p class="problem" role="status">${this.problem}</p>
      <button @click=${this.handleAdd}>Add a row</button>`;
  }

  private renderRow(row: GridRow, at: number) {
    const name = `Row ${at + 1}`;
    const text = positionsText(row.across, this.unit, this.halfWidthMm(row.fromTipMm), this);
    const valueOf = (event: Event) => (event.target as HTMLInputElement | HTMLSelectElement).value;
    return html`<tr>
      <td>
        <input
          class="short"
          inputmode="decimal"
          autocomplete="off"
          aria-label=${`${name}, mm from the tip`}
          .value=${plainText(row.fromTipMm, this)}
          @change=${(event: Event) => this.handleDistance(at, valueOf(event))}
        />
      </td>
      <td>
        <select
          aria-label=${`${name}, blades`}
          @change=${(event: Event) => this.replace(at, { blades: bladesSchema.parse(valueOf(event)) })}
        >
          ${bladesSchema.options.map(
            (blades) =>
              html`<option value=${blades} ?selected=${blades === row.blades}>
                ${BLADE_WORDS[blades]}
              </option>`,
          )}
        </select>
      </td>
      <td>
        <input
          autocomplete="off"
          aria-label=${`${name}, positions across`}
          .value=${text}
          @change=${(event: Event) => this.handlePositions(at, row, valueOf(event))}
        />
      </td>
      <td>
        <select
          aria-label=${`${name}, what for`}
          @change=${(event: Event) => this.replace(at, { role: roleSchema.parse(valueOf(event)) })}
        >
          ${roleSchema.options.map(
            (role) => html`<option value=${role} ?selected=${role === row.role}>${ROLE_WORDS[role]}</option>`,
          )}
        </select>
      </td>
      <td>
        <button
          aria-label=${`Take away row ${at + 1}`}
          @click=${() => this.change(this.rows.filter((_, i) => i !== at))}
        >
          Take away
        </button>
      </td>
    </tr>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-grid-rows-table': GridRowsTable;
  }
}
