import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { ReedDraft } from '../../src/exchange/csv/drafts.ts';
import type { CsvFileFacts } from '../../src/exchange/csv/read-file.ts';
import type { CsvAnswers } from '../../src/exchange/csv/questions.ts';
import type { ProgressOptions } from '../../src/ledger/patience.ts';
import { UnkeptFaults } from '../faults/unkept-faults.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { mainActs } from '../theme/forms.styles.ts';
import { styles } from './bring-in.styles.ts';
import './bring-library.ts';
import { columnChoices } from './column-choices.ts';
import { putAt, usualPlace, whereToView, type Shelf, type WhereTo } from './where-to.ts';
import { keepReadings, type Asked, type Done } from './keep-readings.ts';
import { passToCome } from './pass-to-come.ts';
import { PatientWork } from './patient-work.ts';
import {
  readAgain,
  readFiles,
  readLibrary,
  readReadings,
  type ReadLibrary,
  type ReadReadings,
} from './read-chosen.ts';
import { problemsView } from './problems-view.ts';
import { doneView, questionView, readingView, reedsView, styleView } from './read-views.ts';

type Shown = ReadReadings | ReadLibrary | Done;

/**
 * Brings in readings from files or the clipboard: shows what was understood, and keeps nothing before the maker agrees.
 */
@customElement('bench-bring-in')
export class BringIn extends BenchElement {
  static override styles = [controls, mainActs, styles];

  private readonly library = new LibraryController(this);
  private readonly reading = new PatientWork(this);
  /** What the readings show to be wrong beside the passes before them. */
  private readonly faults = new UnkeptFaults(this, this.library);
  private looked: readonly unknown[] = [];
  /** Changes are kept one after the other: none that was asked for is dropped. */
  private keeping: Promise<unknown> = Promise.resolve();
  @state() private underWay: ReadonlySet<ReadReadings> = new Set();
  @query('textarea') private readonly pasted!: HTMLTextAreaElement;
  @query('input[type=file]') private readonly chooser!: HTMLInputElement;
  @query('.cancel') private readonly canceller!: HTMLElement | null;
  @query('.way-on') private readonly wayOn!: HTMLElement | null;

  /** Files that were dropped elsewhere on the page, or that the page was opened with: read as if chosen here. */
  @property({ attribute: false }) handed: readonly File[] = [];
  /** Stays as it is until what is read next is understood. */
  @state() private shown: Shown | undefined;
  /** Name of what is being read. */
  @state() private name = '';
  @state() private over = false;
  @state() private styleId = 'long-scrape';
  /** Where the only pass of what is shown goes, once the maker has said so. */
  @state() private chosenPlace: WhereTo | undefined;

  override willUpdate() {
    // The way out of a reading goes with it: what chooses the next file takes its focus.
    if (this.reading.share === undefined && this.canceller?.matches(':focus')) this.chooser.focus();
    this.lookForFaults();
  }

  override updated(changed: PropertyValues) {
    if (changed.has('handed')) this.take(this.handed);
    // What had the focus is gone once the readings are kept: the way on takes it.
    if (changed.has('shown') && this.shown?.what === 'done') this.wayOn?.focus();
  }

  /** Blades written for each other or from the other side are tried where the reed was read before. */
  private lookForFaults() {
    const { shown } = this;
    const { store } = this.library;
    const read = shown?.what === 'readings' && shown.outcome.outcome === 'understood' ? shown : undefined;
    const to = read && this.placeOf(read);
    const looked = [read, to?.label, to?.index];
    if (!store || looked.every((one, i) => one === this.looked[i])) return;
    this.looked = looked;
    const reeds = read?.outcome.outcome === 'understood' ? read.outcome.reeds : [];
    this.faults.look(passToCome(reeds, to, store, store.ledger.newId()));
  }

  /** Shows what the work understands; given up or failed, it leaves what is shown. */
  private async read(name: string, work: (patience: ProgressOptions) => Promise<Shown>): Promise<void> {
    this.name = name;
    this.chosenPlace = undefined;
    try {
      this.shown = (await this.reading.run(work)) ?? this.shown;
    } catch (error) {
      this.library.store?.tell(error);
    }
  }

  private take(files: readonly File[]): void {
    const { store } = this.library;
    if (!store || files.length === 0) return;
    const library = files.find(({ name }) => /\.(json|zip)$/i.test(name));
    const { reader, ledger } = store;
    if (library) void this.read(library.name, (patience) => readLibrary(reader, library, ledger, patience));
    else
      void this.read(files.map(({ name }) => name).join(', '), (patience) =>
        readFiles(reader, files, this.library.choices.fileShapes ?? [], patience),
      );
  }

  private handleFiles() {
    this.take([...(this.chooser.files ?? [])]);
  }

  /** The same file can be chosen once more, after it was put right. */
  private handleChoosing() {
    this.chooser.value = '';
  }

  private handleDrop(event: DragEvent) {
    event.preventDefault();
    this.over = false;
    this.take([...(event.dataTransfer?.files ?? [])]);
  }

  private handleOver(event: DragEvent) {
    event.preventDefault();
    this.over = true;
  }

  private handlePasted() {
    const text = this.pasted.value;
    const { store } = this.library;
    if (!store || !text.trim()) return;
    const files = [{ name: 'pasted', bytes: new TextEncoder().encode(text) }];
    void this.read('what was pasted', (patience) =>
      readReadings(store.reader, files, this.library.choices.fileShapes ?? [], patience),
    );
  }

  private answer(read: ReadReadings, file: string, change: CsvAnswers) {
    this.readAnew(file, read, new Map([...read.answers, [file, { ...read.answers.get(file), ...change }]]));
  }

  /** Reads a file anew with its text put right. */
  private mend(read: ReadReadings, name: string, text: string) {
    const { store } = this.library;
    if (!store) return;
    const bytes = new TextEncoder().encode(text);
    const files = read.files.map((file) => (file.name === name ? { ...file, bytes } : file));
    void this.read(name, (patience) => readAgain(store.reader, { ...read, files }, read.answers, patience));
  }

  private get held(): Shelf | undefined {
    const { store } = this.library;
    return store && { reeds: store.reeds, passesOf: (id) => store.passesOf(id) };
  }

  /** Where the only pass goes. */
  private placeOf(read: ReadReadings): WhereTo | undefined {
    return this.chosenPlace ?? this.usualOf(read);
  }

  /** Where it goes unless the maker says otherwise, as the library stands. */
  private usualOf({ outcome }: ReadReadings): WhereTo | undefined {
    const { held } = this;
    if (outcome.outcome !== 'understood' || !held) return undefined;
    const isNumbered = outcome.files.some((file) => file.isNumbered);
    return usualPlace(outcome.reeds, held, isNumbered);
  }

  private handleAskAgain(read: ReadReadings) {
    this.readAnew('it again', read, new Map());
  }

  private readAnew(name: string, read: ReadReadings, answers: ReadReadings['answers']) {
    const { store } = this.library;
    if (store) void this.read(name, (patience) => readAgain(store.reader, read, answers, patience));
  }

  private handleNothing() {
    this.reading.cancel();
    this.shown = undefined;
  }

  private handleKeep(read: ReadReadings) {
    if (this.underWay.has(read)) return;
    this.underWay = new Set([...this.underWay, read]);
    const asked = { to: this.chosenPlace, remedies: this.faults.remedies, styleId: this.styleId };
    this.keeping = this.keeping.then(() => this.keepInTurn(read, asked));
  }

  private async keepInTurn(read: ReadReadings, asked: Asked) {
    try {
      const { store } = this.library;
      const done =
        store && (await keepReadings(store, read, { ...asked, to: asked.to ?? this.usualOf(read) }));
      if (done && this.shown === read) this.shown = done;
    } catch (error) {
      this.library.store?.tell(error);
    } finally {
      this.underWay = new Set([...this.underWay].filter((one) => one !== read));
    }
  }

  override render() {
    return html`<div class="page">
      <h1>Bring in readings</h1>
      <div
        class="drop"
        ?data-over=${this.over}
        @drop=${this.handleDrop}
        @dragover=${this.handleOver}
        @dragleave=${() => (this.over = false)}
      >
        <label
          >Drop or choose CSV files of one sitting together, or the file of a whole library
          <input
            type="file"
            multiple
            accept=".csv,.tsv,.txt,.json,.zip,text/csv"
            @click=${this.handleChoosing}
            @change=${this.handleFiles}
          />
        </label>
        <label>Or paste a sheet<textarea rows="3" spellcheck="false"></textarea></label>
        <button @click=${this.handlePasted}>Read what I pasted</button>
      </div>
      ${readingView(this.reading.share, this.name, () => this.reading.cancel())} ${this.renderShown()}
    </div>`;
  }

  private renderShown() {
    const { shown } = this;
    if (!shown) return nothing;
    if (shown.what === 'done') return doneView(shown);
    if (shown.what === 'library') return html`<bench-bring-library .read=${shown}></bench-bring-library>`;
    return this.renderReadings(shown);
  }

  private renderReadings(read: ReadReadings) {
    const { outcome } = read;
    if (outcome.outcome === 'refused')
      return problemsView(read, outcome.problems, {
        mend: (name, text) => this.mend(read, name, text),
        answer: (answers) => this.readAnew('it again', read, answers),
        takeBack: this.renderTakeBack(read),
        nothing: () => this.handleNothing(),
      });
    if (outcome.outcome === 'asks')
      return html`${outcome.questions.map((question) => questionView(question, read.answers, (file, change) => this.answer(read, file, change), this.library.store?.reeds.map(({ label }) => label) ?? [], this.library.writing))}${this.renderTakeBack(read)}`;
    return html`<p class="say">${outcome.understood.sentence}</p>
      ${
        read.isAsLastTime
          ? html`<p>
              Read as last time with a file of this shape.
              <button @click=${() => this.handleAskAgain(read)}>Ask me again</button>
            </p>`
          : nothing
      }
      ${reedsView(putAt(outcome.reeds, this.placeOf(read)), this.library.writing)}
      ${this.renderPlace(read, outcome.reeds)}
      ${outcome.files.map((facts) => this.renderColumns(read, facts))} ${this.renderTakeBack(read)}
      ${styleView(this.styleId, (styleId) => (this.styleId = styleId))} ${this.faults.render()}
      <p role="status">${this.underWay.has(read) ? 'Being kept.' : 'Nothing is kept yet.'}</p>
      <div class="acts">
        <button
          class="main"
          ?disabled=${this.reading.share !== undefined || this.underWay.has(read)}
          @click=${() => this.handleKeep(read)}
        >
          Keep these
        </button>
        <button @click=${this.handleNothing}>Keep nothing</button>
      </div>`;
  }

  private renderPlace(read: ReadReadings, reeds: readonly ReedDraft[]) {
    const now = this.placeOf(read);
    const { held } = this;
    return now && held
      ? whereToView(now, reeds[0]?.label ?? now.label, held, (to) => (this.chosenPlace = to))
      : nothing;
  }

  /** Which heading was taken for which column; each can be changed. */
  private renderColumns(read: ReadReadings, facts: CsvFileFacts) {
    if (facts.form !== 'long') return nothing;
    return html`<details>
      <summary>Which column is which</summary>
      ${columnChoices(facts, read.answers, (file, change) => this.answer(read, file, change))}
    </details>`;
  }

  /** The way back from every answer. */
  private renderTakeBack(read: ReadReadings) {
    if (read.answers.size === 0 || read.isAsLastTime) return nothing;
    return html`<button @click=${() => this.handleAskAgain(read)}>Take my answers back</button>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-bring-in': BringIn;
  }
}
