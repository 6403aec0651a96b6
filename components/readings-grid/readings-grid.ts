import { html, nothing, type CSSResultGroup, type PropertyValues } from 'lit';
import { property, state } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import { leastIndex } from 'd3-array';
import { BLADES, type Blade, type Place } from '../../shared/blade.ts';
import type { Replaced } from '../../shared/pass.ts';
import type { Flag, Reading } from '../../shared/reading.ts';
import { readingText, stationText, type NumberFormat } from '../../src/words/format.ts';
import type { PasteAnswers } from '../../src/exchange/paste.ts';
import { countFor } from '../../src/round/gauge-count.ts';
import { dotSide } from '../../src/round/place-words.ts';
import { historyAt } from '../../src/round/replaced.ts';
import type { OlderReading } from '../../src/round/older-readings.ts';
import { isOtherFormat } from '../store/library-controller.ts';
import { copyButton } from '../figures-table/copy-cells.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { flagChips } from './flag-chips.ts';
import {
  areOther,
  byStation,
  cellText,
  marked,
  meanMm,
  readOnce,
  stateText,
  stationKey,
  stationKeys,
  withChanges,
  type Cell,
  type GridShape,
  type StationChange,
} from './grid-cells.ts';
import { gridHead } from './grid-head.ts';
import { cellBefore, moved, movesCaret, nextCell } from './grid-moves.ts';
import { cellName, FLAG_WORDS, markOf, palerWords, repeatsSentence, stationWords } from './grid-words.ts';
import { isBlock, pasteAt, type Pasted } from './paste-at.ts';
import { oddQuestionRow, ReadingAsReadEvent, type OddCell } from './odd-question.ts';
import { pasteQuestion, type PasteQuestion } from './paste-question.ts';
import { readingPast } from './reading-past.ts';
import { ReadingsChangeEvent } from './readings-change-event.ts';
import { gridStyles } from './readings-grid.styles.ts';
import { sheetCell } from './sheet-cell.ts';
import { typedChange } from './typed-change.ts';

/**
 * The sheet of `bench-reed-readings`: one table a blade, one tab stop.
 *
 * @fires {ReadingsChangeEvent} bench-readings-change - The reader has changed readings: `event.changes` holds what the
 * stations that were touched hold from now on.
 * @fires {ReadingAsReadEvent} bench-reading-as-read - An odd reading was said to be as read: `event.place`.
 */
export abstract class ReadingsGrid extends BenchElement {
  static override styles: CSSResultGroup = [controls, gridStyles];

  private stations: ReadonlyMap<string, readonly Reading[]> = new Map();
  /** The readings that are arranged by station. */
  private arranged: readonly Reading[] | undefined;
  /** Of every station, row by row. */
  private keys: Readonly<Record<Blade, readonly (readonly string[])[]>> = { A: [], B: [] };
  private earlier: ReadonlyMap<string, OlderReading> = new Map();

  /** The readings themselves, as the core has them; `value` is the same as text. */
  @property({ attribute: false, hasChanged: areOther }) readings: readonly Reading[] = [];
  @state() protected shape: GridShape = { fromTipMm: [], across: [] };
  @state({ hasChanged: isOtherFormat }) protected writing: NumberFormat = {
    unit: 'hundredths',
    decimal: 'point',
  };
  /** Step of the gauge's display, mm: what is typed is counted in it. */
  @property({ type: Number, attribute: 'step-mm' }) stepMm = 0.01;
  /** Why the reading of a station is odd, by `stationKey`. */
  @property({ attribute: false }) odd: ReadonlyMap<string, OddCell> = new Map();
  /** Readings of this pass that no longer count. */
  @property({ attribute: false }) replaced: readonly Replaced[] = [];
  /** This device: what was mended on others is told apart. */
  @property({ attribute: false }) deviceId: string | undefined;
  /**
   * What earlier passes read: shown paler where this one has nothing, but never in the row on which the keys stand, so
   * that no figure leads the eye from the dial before it is read.
   */
  @property({ attribute: false }) older: readonly OlderReading[] = [];

  @state() private active: Cell = { blade: 'A', row: 0, column: 0 };
  /** What is being typed and not yet taken: whatever arrives from outside meanwhile leaves it alone. */
  @state() private draft: { readonly cell: Cell; readonly text: string } | undefined;
  @state() private unclear: { readonly cell: Cell; readonly text: string; readonly why: string } | undefined;
  @state() private asked: PasteQuestion | undefined;
  @state() private said = '';
  /** The station that was read last: where it is odd, its question stands under its line. */
  @state() private taken: Cell | undefined;

  override willUpdate(changed: PropertyValues) {
    if (changed.has('shape'))
      this.keys = { A: stationKeys('A', this.shape), B: stationKeys('B', this.shape) };
    if (changed.has('readings')) this.arrange();
    if (changed.has('older')) this.earlier = new Map(this.older.map((one) => [stationKey(one), one]));
  }

  private arrange(): void {
    if (this.arranged === this.readings) return;
    this.stations = byStation(this.readings);
    this.arranged = this.readings;
  }

  private get count() {
    return countFor(this.stepMm, this.writing.unit);
  }

  private placeOf({ blade, row, column }: Cell) {
    return { blade, fromTipMm: this.shape.fromTipMm[row]!, across: this.shape.across[column]! };
  }

  private readingsOf(cell: Cell): readonly Reading[] {
    return this.stations.get(stationKey(this.placeOf(cell))) ?? [];
  }

  private textAt(cell: Cell): string {
    const mean = meanMm(this.readingsOf(cell));
    return mean === undefined ? '' : readingText(Number(mean.toFixed(5)), this.writing);
  }

  /** Found by its row: a search of the whole sheet would take longer than all else that going there does. */
  private inputAt({ blade, row, column }: Cell): HTMLInputElement | null | undefined {
    const rows = (this.renderRoot as ShadowRoot).getElementById(`rows-${blade}`);
    return rows?.querySelector(`#row-${blade}-${row}`)?.children[column + 1]?.querySelector('input');
  }

  private go(cell: Cell): void {
    this.active = cell;
    const input = this.inputAt(cell);
    input?.focus({ preventScroll: true });
    input?.select();
    // With the next frame, which lays the page out anyway.
    requestAnimationFrame(() => input?.scrollIntoView({ block: 'nearest', inline: 'nearest' }));
  }

  /** Puts the keyboard on the station nearest to a place, its reading chosen to be typed over. */
  openPlace({ blade, fromTipMm, across }: Place): void {
    const { shape } = this;
    const row = leastIndex(shape.fromTipMm, (at) => Math.abs(at - fromTipMm));
    const column = leastIndex(shape.across, (at) => Math.abs(at - across));
    if (row !== undefined && column !== undefined) this.go({ blade, row, column });
  }

  private change(changes: readonly StationChange[]): void {
    this.readings = withChanges(this.readings, changes);
    this.arrange();
    this.dispatchEvent(new ReadingsChangeEvent(changes));
  }

  /** Takes what stands in a cell; false where it cannot be understood. */
  private take(cell: Cell, text: string): boolean {
    this.draft = undefined;
    if (text.trim() === this.textAt(cell)) return true;
    const place = this.placeOf(cell);
    const typed = typedChange(place, this.readingsOf(cell), text, {
      count: this.count,
      decimal: this.writing.decimal,
    });
    if ('why' in typed) {
      this.unclear = { cell, text, why: typed.why };
      return false;
    }
    this.unclear = undefined;
    const { change } = typed;
    const mean = meanMm(change.readings);
    const words = mean === undefined ? 'cleared' : readingText(mean, this.writing);
    this.said =
      repeatsSentence(change.readings, this.writing) || `${stationWords(place, this.writing)}: ${words}`;
    this.taken = cell;
    this.change([change]);
    return true;
  }

  /** Marks a station; the mark it has already is taken away. */
  private mark(cell: Cell, flag: Flag): void {
    const before = this.readingsOf(cell);
    const now = before[0]?.flag === flag ? 'ok' : flag;
    if (before.length === 0 && (now === 'weak' || now === 'doubtful')) return;
    const place = this.placeOf(cell);
    this.said = `${stationWords(place, this.writing)}: ${FLAG_WORDS[now].toLowerCase()}`;
    this.change([marked(place, before, now)]);
  }

  private readonly press = (flag: Flag) => {
    this.mark(this.active, flag);
    this.go(this.active);
  };

  private handleKey(cell: Cell, event: KeyboardEvent) {
    const input = event.target as HTMLInputElement;
    if (event.isComposing || event.altKey) return;
    const isWhole = input.selectionStart === 0 && input.selectionEnd === input.value.length;
    if (event.key === 'Escape') this.draft = this.unclear = undefined;
    else if (event.key === 'Enter') this.takeAndGo(event, cell, nextCell(cell, this.shape));
    else if (event.key === '-' && isWhole) this.takeAndGo(event, cell, cellBefore(cell, this.shape));
    else if (event.key === '*' || event.key === '/')
      this.handleMark(event, cell, event.key === '*' ? 'no-cane' : 'doubtful');
    else {
      const to = isWhole || !movesCaret(event) ? moved(cell, this.shape, event) : undefined;
      if (to) this.takeAndGo(event, cell, to);
    }
  }

  private takeAndGo(event: Event, cell: Cell, to: Cell) {
    event.preventDefault();
    if (this.settle(event, cell)) this.go(to);
  }

  /** Takes what was typed and shows what came of it: leaving the field would take it a second time. */
  private settle({ target }: Event, cell: Cell): boolean {
    const input = target as HTMLInputElement;
    const isTaken = this.take(cell, input.value);
    if (isTaken) input.value = this.textAt(cell);
    return isTaken;
  }

  /** Marks the cell and, where there is nothing to read, goes on. */
  private handleMark(event: Event, cell: Cell, flag: Flag) {
    event.preventDefault();
    if (!this.settle(event, cell)) return;
    this.mark(cell, flag);
    (event.target as HTMLInputElement).value = this.textAt(cell);
    if (flag === 'no-cane' && this.readingsOf(cell).length > 0) this.go(nextCell(cell, this.shape));
  }

  private handlePaste(cell: Cell, event: ClipboardEvent) {
    const text = event.clipboardData?.getData('text') ?? '';
    if (!isBlock(text)) return;
    event.preventDefault();
    this.paste(cell, text, {});
  }

  private paste(cell: Cell, text: string, answers: PasteAnswers) {
    this.asked = undefined;
    this.draft = undefined;
    const pasted: Pasted = pasteAt(text, cell, this.shape, this.count, answers);
    if (pasted.kind === 'refused') this.said = pasted.why;
    else if (pasted.kind === 'asks') {
      this.asked = { ...pasted, answer: (answer) => this.paste(cell, text, { ...answers, ...answer }) };
    } else {
      this.said = `Pasted ${pasted.changes.length} readings.`;
      this.change(pasted.changes);
    }
  }

  override render() {
    const odd = this.odd.get(stationKey(this.placeOf(this.active)))?.words;
    const paler = palerWords(this.earlier, this.stations);
    return html`<div class="blades">${BLADES.map((blade) => this.renderBlade(blade))}</div>
      <p role="status">${this.unclear?.why ?? odd ?? this.said}</p>
      ${paler ? html`<p class="paler">${paler}</p>` : nothing}
      ${
        this.asked
          ? pasteQuestion(this.asked)
          : flagChips(
              stationWords(this.placeOf(this.active), this.writing),
              this.readingsOf(this.active),
              this.press,
            )
      }
      ${this.renderPast()}`;
  }

  /** What stood at the station on which the keys stand. */
  private renderPast() {
    const place = this.placeOf(this.active);
    if (this.replaced.length === 0 || place.fromTipMm === undefined) return nothing;
    const words = stationWords(place, this.writing);
    return readingPast(words, historyAt(this.replaced, place), this.writing, this.deviceId, (was) => {
      this.said = `${words}: back to what it was`;
      this.change([{ ...place, readings: was }]);
      this.go(this.active);
    });
  }

  /** The question of the station read last, or of that on which the keys stand, under its line. */
  private renderAsked(blade: Blade, row: number) {
    const key = (one: Cell) => stationKey(this.placeOf(one));
    const cell = [this.taken, this.active].find((one) => one && this.odd.has(key(one)));
    if (cell?.blade !== blade || cell.row !== row) return nothing;
    const place = this.placeOf(cell);
    const [words, text] = [stationWords(place, this.writing), this.textAt(cell)];
    const reading = { words, text, columns: this.shape.across.length + 1 };
    return oddQuestionRow(this.odd.get(key(cell))!, reading, this.writing, {
      correct: (mm) => {
        this.change([readOnce(blade, place.fromTipMm, place.across, mm)]);
        this.go(this.active);
      },
      asRead: () => {
        this.dispatchEvent(new ReadingAsReadEvent(place));
        this.go(this.active);
      },
      again: () => this.go(cell),
    });
  }

  /** What stands in a blade's cells, row by row; marks that are no number are left blank, as pasting wants it. */
  private textsOf(blade: Blade): string[][] {
    const { fromTipMm, across } = this.shape;
    const text = (cell: Cell) =>
      this.readingsOf(cell).some(({ thicknessMm }) => thicknessMm) ? this.textAt(cell) : '';
    return fromTipMm.map((_, row) => across.map((_place, column) => text({ blade, row, column })));
  }

  private renderBlade(blade: Blade) {
    const { fromTipMm, across } = this.shape;
    return html`<div class="scroll">
      <h2 id=${`name-${blade}`}>${blade}, bark side, tip up: the dot is on your ${dotSide(blade)}</h2>
      ${copyButton(
        `Copy blade ${blade}`,
        () => this.textsOf(blade),
        (said) => (this.said = said),
        ', or onto the first cell of a blade',
      )}
      <table role="grid" aria-labelledby=${`name-${blade}`}>
        ${gridHead(across)}
        <tbody id=${`rows-${blade}`}>
          ${fromTipMm.map((_, row) => [this.renderRow(blade, row), this.renderAsked(blade, row)])}
        </tbody>
      </table>
    </div>`;
  }

  /** A row is drawn anew only when something in it has changed. */
  private renderRow(blade: Blade, row: number) {
    const { shape, writing } = this;
    const fromTipMm = shape.fromTipMm[row]!;
    const isIn = (cell: Cell | undefined) => (cell?.blade === blade && cell.row === row ? cell.column : -1);
    const keys = this.keys[blade][row]!;
    const depends = [
      shape,
      writing.unit,
      writing.decimal,
      isIn(this.active),
      isIn(this.draft?.cell),
      isIn(this.unclear?.cell),
      ...keys.flatMap((key) => [stateText(this.stations.get(key)), this.odd.get(key), this.earlier.get(key)]),
    ];
    return html`<tr id=${`row-${blade}-${row}`}>
      ${guard(
        depends,
        () =>
          html`<th scope="row">${stationText(fromTipMm, writing)}</th>
            ${shape.across.map((_, column) => html`<td>${this.renderCell({ blade, row, column }, keys[column]!)}</td>`)}`,
      )}
    </tr>`;
  }

  private renderCell(cell: Cell, key: string) {
    const isHere = (other: Cell | undefined) => other !== undefined && cellText(other) === cellText(cell);
    const isWrong = isHere(this.unclear?.cell);
    const isDraft = isHere(this.draft?.cell);
    const readings = this.readingsOf(cell);
    const odd = this.odd.get(key)?.words;
    const isReading = this.active.blade === cell.blade && this.active.row === cell.row;
    const older = readings.length === 0 && !isReading ? this.earlier.get(key) : undefined;
    return sheetCell(
      {
        id: cellText(cell),
        text: isDraft ? this.draft!.text : isWrong ? this.unclear!.text : this.textAt(cell),
        name: cellName(this.placeOf(cell), readings, odd, older, this.writing),
        mark: markOf(readings),
        isOdd: odd !== undefined,
        isActive: isHere(this.active),
        ...{ isWrong, isDraft },
        ...(older && { placeholder: readingText(older.thicknessMm, this.writing) }),
      },
      {
        focus: () => (this.active = cell),
        input: (text) => (this.draft = { cell, text }),
        change: (text) => this.take(cell, text),
        key: (event) => this.handleKey(cell, event),
        paste: (event) => this.handlePaste(cell, event),
      },
    );
  }
}
