import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import type { Problem } from '../../shared/errors.ts';
import { STARTING_STYLES } from '../../src/blade/starting-styles.ts';
import type { CsvAnswers, CsvQuestion } from '../../src/exchange/csv/questions.ts';
import type { CsvOutcome } from '../../src/exchange/csv/read-csv.ts';
import { hrefOf } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import './bring-library.ts';
import { answersFor, shapesOf, withAnswers } from './remembered-answers.ts';
import { draftsToKeep } from './drafts-to-keep.ts';

interface Chosen {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/**
 * Brings in readings from files or the clipboard: shows what was understood, and keeps nothing before the maker agrees.
 */
@customElement('bench-bring-in')
export class BringIn extends LitElement {
  static override styles = [
    base,
    controls,
    css`
      .page {
        display: grid;
        gap: var(--bench-space-4);
        justify-items: start;
        max-width: 900px;
        padding: var(--bench-space-5) var(--bench-page-margin) var(--bench-space-7);
      }
      h1,
      .say {
        margin: 0;
        font: var(--bench-font-say);
      }
      .drop {
        display: grid;
        gap: var(--bench-space-3);
        justify-items: start;
        width: 100%;
        padding: var(--bench-space-5);
        border: 1px dashed var(--bench-rule2);
        border-radius: var(--bench-radius-case);
        background: var(--bench-plate);
      }
      .drop[data-over] {
        border-style: solid;
        border-color: var(--bench-ink);
      }
      input[type='file'] {
        min-height: var(--bench-touch);
        font: var(--bench-font-body);
        color: var(--bench-ink);
      }
      textarea,
      select,
      input[type='text'] {
        width: 100%;
        min-height: var(--bench-touch);
        padding: var(--bench-space-2);
        border: 1px solid var(--bench-rule2);
        border-radius: var(--bench-radius-control);
        background: var(--bench-paper);
        color: var(--bench-ink);
        font: var(--bench-font-body);
      }
      label {
        display: grid;
        gap: var(--bench-space-1);
        width: 100%;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      .acts {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-3);
      }
      .main {
        border-color: var(--bench-ink);
        background: var(--bench-ink);
        color: var(--bench-paper);
        font-weight: 600;
      }
      @media (forced-colors: active) {
        .main {
          forced-color-adjust: none;
          border-color: Highlight;
          background: Highlight;
          color: HighlightText;
        }
      }
      ul {
        margin: 0;
        padding-left: var(--bench-space-4);
      }
      .problems {
        padding: var(--bench-space-3) var(--bench-space-4);
        border-left: 3px solid var(--bench-stop);
        background: var(--bench-plate);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  @query('textarea') private readonly pasted!: HTMLTextAreaElement;
  @query('.way-on') private readonly wayOn!: HTMLElement | null;

  @state() private chosen: readonly Chosen[] = [];
  @state() private outcome: CsvOutcome | undefined;
  @state() private answers: ReadonlyMap<string, CsvAnswers> = new Map();
  /** A file that holds a whole library. */
  @state() private whole: File | undefined;
  @state() private over = false;
  @state() private busy = false;
  /** What was left open was answered as last time with a file of the same shape. */
  @state() private isAsLastTime = false;
  /** Shape of each file, as it was before anything was answered. */
  private shapes: ReadonlyMap<string, string> = new Map();
  @state() private styleId = 'long-scrape';
  @state() private done: { readonly words: string; readonly reedId: string | undefined } | undefined;

  override updated(changed: PropertyValues) {
    // What had the focus is gone once the readings are kept: the way on takes it.
    if (changed.has('done') && this.done) this.wayOn?.focus();
  }

  private async take(files: readonly File[]): Promise<void> {
    const library = files.find(({ name }) => /\.(json|zip)$/i.test(name));
    this.whole = undefined;
    if (library) {
      this.whole = library;
      await this.understand([], new Map());
      return;
    }
    const chosen = await Promise.all(
      files.map(async (file) => ({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) })),
    );
    await this.understand(chosen, new Map());
  }

  private async understand(
    chosen: readonly Chosen[],
    answers: ReadonlyMap<string, CsvAnswers>,
    asLastTime = true,
  ): Promise<void> {
    this.done = undefined;
    this.chosen = chosen;
    this.answers = answers;
    if (chosen.length === 0) {
      this.outcome = undefined;
      return;
    }
    this.busy = true;
    try {
      const { readCsv } = await import('../../src/exchange/csv/read-csv.ts');
      const read = (given: ReadonlyMap<string, CsvAnswers>) =>
        readCsv(
          chosen.map((file) => {
            const own = given.get(file.name);
            return { ...file, ...(own && { answers: own }) };
          }),
        );
      this.outcome = await read(answers);
      if (answers.size > 0) return;
      this.shapes = shapesOf(this.outcome);
      const lastTime = answersFor(this.outcome, this.library.choices.fileShapes ?? []);
      this.isAsLastTime = lastTime.size > 0 && asLastTime;
      if (!this.isAsLastTime) return;
      this.answers = lastTime;
      this.outcome = await read(lastTime);
    } catch (error) {
      this.library.store?.tell(error);
    } finally {
      this.busy = false;
    }
  }

  private handleFiles(event: Event) {
    void this.take([...((event.target as HTMLInputElement).files ?? [])]);
  }

  private handleDrop(event: DragEvent) {
    event.preventDefault();
    this.over = false;
    void this.take([...(event.dataTransfer?.files ?? [])]);
  }

  private handleOver(event: DragEvent) {
    event.preventDefault();
    this.over = true;
  }

  private handlePasted() {
    const text = this.pasted.value;
    if (text.trim())
      void this.understand([{ name: 'pasted', bytes: new TextEncoder().encode(text) }], new Map());
  }

  private answer(file: string, change: CsvAnswers) {
    void this.understand(
      this.chosen,
      new Map([...this.answers, [file, { ...this.answers.get(file), ...change }]]),
    );
  }

  private handleNothing() {
    void this.understand([], new Map());
  }

  private async handleKeep() {
    const { store } = this.library;
    const { outcome } = this;
    if (!store || outcome?.outcome !== 'understood') return;
    const held = {
      reeds: store.reeds,
      passesOf: (id: string) => store.passesOf(id),
      newId: store.ledger.newId,
    };
    const { drafts, clashes } = draftsToKeep(outcome.reeds, held, this.styleId);
    const labels = outcome.reeds.map(({ label }) => label).join(', ');
    const fileShapes = withAnswers(this.library.choices.fileShapes ?? [], this.shapes, this.answers);
    if (this.answers.size > 0) await store.choose({ fileShapes });
    if (drafts.length > 0 && !(await store.keep(drafts, `readings of ${labels}`))) return;
    void store.ledger.requestPersistence().catch(() => false);
    const clash =
      clashes.length > 0
        ? ` ${clashes.map(({ label, index }) => `Pass ${index} of ${label}`).join(', ')} was there already with other readings, and stays as it was.`
        : '';
    const kept = drafts.length > 0 ? `Kept: ${labels}.` : `Everything of ${labels} was there already.`;
    const first = store.reeds.find(({ label }) => label === outcome.reeds[0]?.label);
    this.done = { words: `${kept}${clash}`, reedId: first?.id };
    this.chosen = [];
    this.outcome = undefined;
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
            @change=${this.handleFiles}
          />
        </label>
        <label>Or paste a sheet<textarea rows="3" spellcheck="false"></textarea></label>
        <button @click=${this.handlePasted}>Read what I pasted</button>
      </div>
      <div role="status">${this.busy ? 'Reading' : nothing}</div>
      ${this.whole ? html`<bench-bring-library .file=${this.whole}></bench-bring-library>` : nothing}
      ${this.renderDone()} ${this.renderOutcome()}
    </div>`;
  }

  private renderDone() {
    const { done } = this;
    if (!done) return nothing;
    return html`<p class="say" role="status">
      ${done.words}
      ${done.reedId ? html`<a class="way-on" href=${hrefOf({ at: 'bench', reedId: done.reedId, question: 'there' })}>To the bench</a>` : nothing}
    </p>`;
  }

  private renderOutcome() {
    const { outcome } = this;
    if (!outcome) return nothing;
    if (outcome.outcome === 'refused') return this.renderProblems(outcome.problems);
    if (outcome.outcome === 'asks')
      return html`${outcome.questions.map((question) => this.renderQuestion(question))}`;
    return html`<p class="say">${outcome.understood.sentence}</p>
      ${
        this.isAsLastTime
          ? html`<p>
              Read as last time with a file of this shape.
              <button @click=${() => void this.understand(this.chosen, new Map(), false)}>
                Ask me again
              </button>
            </p>`
          : nothing
      }
      <ul>
        ${outcome.reeds.map(
          ({ label, passes }) =>
            html`<li>
              ${label}:
              ${passes
                .map(
                  ({ index, readings, overallLengthMm }) =>
                    `pass ${index}, ${readings.length} readings${overallLengthMm === undefined ? '' : `, ${overallLengthMm} mm overall`}`,
                )
                .join('; ')}
            </li>`,
        )}
      </ul>
      <label
        >Style of new reeds<select
          @change=${(event: Event) => (this.styleId = (event.target as HTMLSelectElement).value)}
        >
          ${STARTING_STYLES.map(({ key, name }) => html`<option value=${key} ?selected=${key === this.styleId}>${name}</option>`)}
        </select></label
      >
      <p>Nothing is kept yet.</p>
      <div class="acts">
        <button class="main" @click=${this.handleKeep}>Keep these</button>
        <button @click=${this.handleNothing}>Keep nothing</button>
      </div>`;
  }

  private renderProblems(problems: readonly Problem[]) {
    return html`<section class="problems" role="alert" aria-label="Not understood">
      <p class="say">This cannot be brought in as it is. Nothing was kept.</p>
      <ul>
        ${problems.map(({ where, what }) => html`<li>${where}: ${what}</li>`)}
      </ul>
      <button class="main" @click=${this.handleNothing}>Keep nothing</button>
    </section>`;
  }

  private renderQuestion(question: CsvQuestion) {
    const { file } = question;
    const options = 'options' in question ? question.options : [];
    return html`<section aria-label="A question">
      <p class="say">${question.sentence}</p>
      ${
        question.about === 'label'
          ? html`<label
              >Label of the reed<input
                type="text"
                @change=${(event: Event) => this.answer(file, { label: (event.target as HTMLInputElement).value.trim() })}
            /></label>`
          : html`<div class="acts">
              ${options.map(
                (option) =>
                  html`<button @click=${() => this.answer(file, { [question.about]: option } as CsvAnswers)}>
                    ${option}
                  </button>`,
              )}
            </div>`
      }
      ${
        question.about === 'columns'
          ? question.lacking.map(
              (column) =>
                html`<label
                  >${column}<select
                    @change=${(event: Event) =>
                      this.answer(file, {
                        columns: {
                          ...this.answers.get(file)?.columns,
                          [column]: (event.target as HTMLSelectElement).value,
                        },
                      })}
                  >
                    <option value="">Which column is it?</option>
                    ${question.headings.map((heading) => html`<option>${heading}</option>`)}
                  </select></label
                >`,
            )
          : nothing
      }
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-bring-in': BringIn;
  }
}
