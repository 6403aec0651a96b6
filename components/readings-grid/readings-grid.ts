import { css, html, LitElement } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { BLADES, type Blade } from '../../shared/blade.ts';
import type { Reading } from '../../shared/reading.ts';
import { acrossWords } from '../../src/answers/figure-words.ts';
import { readingText, stationText, type Writing } from '../../src/report/format.ts';
import { countFor } from '../../src/round/gauge-count.ts';
import { typedReading } from '../../src/round/typed-reading.ts';
import { base } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import { readingsAt, readOnce, withChanges, type GridShape, type StationChange } from './grid-cells.ts';
import { pastedCells } from './paste-block.ts';

/** Stations were read, cleared or pasted: what each of them holds from now on. One event is one step to undo. */
export class ReadingsChangeEvent extends Event {
  readonly changes: readonly StationChange[];

  constructor(changes: readonly StationChange[]) {
    super('bench-readings-change', { bubbles: true, composed: true });
    this.changes = changes;
  }
}

interface Cell {
  readonly blade: Blade;
  readonly row: number;
  readonly column: number;
}

const STEPS: Readonly<Record<string, readonly [rows: number, columns: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

/**
 * The readings of a pass as a sheet: rows are distances from the tip, columns positions across, one table a blade. One
 * tab stop; arrows move, digits and Enter read and go to the next station of the row, blank and Enter clears. A block
 * from a spreadsheet is pasted at the cursor.
 *
 * @event bench-readings-change - What the stations that were touched hold from now on.
 */
@customElement('bench-readings-grid')
export class ReadingsGrid extends LitElement {
  static override styles = [
    base,
    css`
      .blades {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-5);
      }
      .scroll {
        overflow-x: auto;
      }
      h2 {
        margin: 0 0 var(--bench-space-2);
        font: var(--bench-font-aside);
      }
      table {
        border-collapse: collapse;
        font: var(--bench-font-table);
      }
      th {
        padding: 0 var(--bench-space-2);
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
        text-align: right;
        white-space: nowrap;
      }
      td {
        padding: 0;
        border: 1px solid var(--bench-rule);
      }
      input {
        width: 58px;
        height: 36px;
        border: 0;
        background: var(--bench-plate);
        color: var(--bench-ink);
        font: var(--bench-font-table);
        text-align: center;
      }
      input:focus-visible {
        outline: 3px solid var(--bench-focus);
        outline-offset: -3px;
        box-shadow: none;
      }
      input[aria-invalid='true'] {
        text-decoration: underline wavy var(--bench-stop);
      }
      p {
        min-height: 1.5em;
        margin: var(--bench-space-2) 0 0;
        color: var(--bench-ink2);
      }
      @media (pointer: coarse) {
        input {
          height: 44px;
        }
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);

  /** Readings of the pass. */
  @property({ attribute: false }) readings: readonly Reading[] = [];
  @property({ attribute: false }) shape: GridShape = { fromTipMm: [], across: [] };
  @property({ attribute: false }) writing: Writing = { unit: 'hundredths', decimal: 'point' };
  /** Step of the gauge's display, mm. */
  @property({ type: Number, attribute: 'step-mm' }) stepMm = 0.01;

  @state() private active: Cell = { blade: 'A', row: 0, column: 0 };
  /** What is being typed and not yet taken: whatever arrives from outside meanwhile leaves it alone. */
  @state() private draft: { readonly cell: Cell; readonly text: string } | undefined;
  @state() private unclear: { readonly cell: Cell; readonly text: string; readonly why: string } | undefined;
  @state() private said = '';

  private get count() {
    return countFor(this.stepMm, this.writing.unit);
  }

  private input({ blade, row, column }: Cell): HTMLInputElement | null {
    return this.renderRoot.querySelector(`input[data-cell="${blade} ${row} ${column}"]`);
  }

  private go(cell: Cell): void {
    const rows = this.shape.fromTipMm.length;
    const columns = this.shape.across.length;
    const row = Math.min(Math.max(cell.row, 0), rows - 1);
    const column = Math.min(Math.max(cell.column, 0), columns - 1);
    this.active = { ...cell, row, column };
    const input = this.input(this.active);
    input?.focus();
    input?.select();
  }

  /** The station after this one: along the row, then the next row, then the other blade. */
  private next({ blade, row, column }: Cell): Cell {
    if (column + 1 < this.shape.across.length) return { blade, row, column: column + 1 };
    if (row + 1 < this.shape.fromTipMm.length) return { blade, row: row + 1, column: 0 };
    return blade === 'A' ? { blade: 'B', row: 0, column: 0 } : { blade, row, column };
  }

  private textAt({ blade, row, column }: Cell): string {
    const [fromTipMm, across] = [this.shape.fromTipMm[row]!, this.shape.across[column]!];
    const [first] = readingsAt(this.readings, blade, fromTipMm, across);
    return first?.thicknessMm === undefined ? '' : readingText(first.thicknessMm, this.writing);
  }

  private change(changes: readonly StationChange[]): void {
    this.readings = withChanges(this.readings, changes);
    this.dispatchEvent(new ReadingsChangeEvent(changes));
  }

  /** Takes what stands in a cell; false where it cannot be understood. */
  private take(cell: Cell, text: string): boolean {
    this.draft = undefined;
    if (text.trim() === this.textAt(cell)) return true;
    const typed = typedReading(text, this.count);
    if (typed.kind === 'unclear') {
      this.unclear = { cell, text, why: typed.why };
      return false;
    }
    this.unclear = undefined;
    const [fromTipMm, across] = [this.shape.fromTipMm[cell.row]!, this.shape.across[cell.column]!];
    const thicknessMm = typed.kind === 'reading' ? typed.thicknessMm : undefined;
    this.said = `${cell.blade}, ${stationText(fromTipMm, this.writing)}, ${acrossWords(across)}: ${thicknessMm === undefined ? 'cleared' : readingText(thicknessMm, this.writing)}`;
    this.change([readOnce(cell.blade, fromTipMm, across, thicknessMm)]);
    return true;
  }

  private handleKey(cell: Cell, event: KeyboardEvent) {
    const input = event.target as HTMLInputElement;
    if (event.isComposing) return;
    if (event.key === 'Escape') {
      this.draft = undefined;
      this.unclear = undefined;
      return;
    }
    if (event.key === 'Enter') {
      event.preventDefault();
      if (this.take(cell, input.value)) this.go(this.next(cell));
      return;
    }
    const step = STEPS[event.key];
    const whole = input.selectionStart === 0 && input.selectionEnd === input.value.length;
    const sideways = event.key === 'ArrowLeft' || event.key === 'ArrowRight';
    if (!step || (sideways && !whole)) return;
    event.preventDefault();
    if (this.take(cell, input.value))
      this.go({ ...cell, row: cell.row + step[0], column: cell.column + step[1] });
  }

  private handlePaste(cell: Cell, event: ClipboardEvent) {
    const cells = pastedCells(event.clipboardData?.getData('text') ?? '');
    if (cells.length <= 1 && (cells[0]?.length ?? 0) <= 1) return;
    event.preventDefault();
    const changes: StationChange[] = [];
    const problems: string[] = [];
    cells.forEach((row, i) =>
      row.forEach((text, j) => {
        const [fromTipMm, across] = [this.shape.fromTipMm[cell.row + i], this.shape.across[cell.column + j]];
        if (text === '') return;
        const typed = typedReading(text, this.count);
        if (fromTipMm === undefined || across === undefined) problems.push(`${text} lies beyond the grid.`);
        else if (typed.kind === 'unclear') problems.push(typed.why);
        else if (typed.kind === 'reading')
          changes.push(readOnce(cell.blade, fromTipMm, across, typed.thicknessMm));
      }),
    );
    if (problems.length > 0) {
      this.said = `Nothing was pasted. ${problems[0]}`;
      return;
    }
    this.said = `Pasted ${changes.length} readings.`;
    this.change(changes);
  }

  override render() {
    return html`<div class="blades">${BLADES.map((blade) => this.renderBlade(blade))}</div>
      <p role="status">${this.unclear?.why ?? this.said}</p>`;
  }

  private renderBlade(blade: Blade) {
    const { fromTipMm, across } = this.shape;
    const dot = blade === 'A' ? 'left' : 'right';
    return html`<div class="scroll">
      <h2 id=${`name-${blade}`}>${blade}, bark side, tip up: the dot is on your ${dot}</h2>
      <table role="grid" aria-labelledby=${`name-${blade}`}>
        <thead>
          <tr>
            <th scope="col">mm from the tip</th>
            ${across.map((u) => html`<th scope="col">${acrossWords(u)}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${fromTipMm.map(
            (y, row) =>
              html`<tr>
                <th scope="row">${stationText(y, this.writing)}</th>
                ${across.map((u, column) => html`<td>${this.renderCell({ blade, row, column }, y, u)}</td>`)}
              </tr>`,
          )}
        </tbody>
      </table>
    </div>`;
  }

  private renderCell(cell: Cell, y: number, u: number) {
    const { blade, row, column } = cell;
    const isHere = (other: Cell | undefined) =>
      other?.blade === blade && other.row === row && other.column === column;
    const isWrong = isHere(this.unclear?.cell);
    const text = isHere(this.draft?.cell)
      ? this.draft!.text
      : isWrong
        ? this.unclear!.text
        : this.textAt(cell);
    return html`<input
      data-cell=${`${blade} ${row} ${column}`}
      ?data-settled=${!isHere(this.draft?.cell)}
      type="text"
      inputmode="decimal"
      enterkeyhint="next"
      autocomplete="off"
      tabindex=${isHere(this.active) ? 0 : -1}
      aria-label=${`${blade}, ${stationText(y, this.writing)}, ${acrossWords(u)}`}
      aria-invalid=${isWrong ? 'true' : 'false'}
      .value=${live(text)}
      @focus=${() => (this.active = cell)}
      @input=${(event: Event) => (this.draft = { cell, text: (event.target as HTMLInputElement).value })}
      @change=${(event: Event) => this.take(cell, (event.target as HTMLInputElement).value)}
      @keydown=${(event: KeyboardEvent) => this.handleKey(cell, event)}
      @paste=${(event: ClipboardEvent) => this.handlePaste(cell, event)}
    />`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-readings-grid': ReadingsGrid;
  }
  interface HTMLElementEventMap {
    'bench-readings-change': ReadingsChangeEvent;
  }
}
