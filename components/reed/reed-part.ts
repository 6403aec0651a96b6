import '../../shared/without-code-generation.ts';
import { html, nothing, type CSSResultGroup, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { MM_PER, type ThicknessUnit } from '../../shared/units.ts';
import type { FittedReed, ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { STARTING_STYLES } from '../../src/blade/starting-styles.ts';
import type { FigureTable } from '../../src/figures/figure.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import '../figures-table/figures-table.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import type { Given, Readings } from './given.ts';
import { ReedFitEvent, ReedProblemEvent } from './reed-events.ts';
import { partStyles } from './reed-part.styles.ts';
import { questionsView } from './reed-questions.ts';
import { ReedSource } from './reed-source.ts';
import type { SourceState } from './source-state.ts';

/** More problems than these are counted, not listed. */
const MOST_PROBLEMS = 8;
const DECIMALS: readonly NumberFormat['decimal'][] = ['point', 'comma'];

/** The sentence about an attribute with a value that it cannot have. */
export const oneOf = (name: string, value: string, allowed: readonly string[]): string | undefined =>
  allowed.includes(value) ? undefined : `${name} must be ${allowed.join(' or ')}, not “${value}”.`;

/** What is listed in an attribute, words with blanks between. */
export const listed = (words: string): readonly string[] => words.split(/\s+/).filter(Boolean);

/** The sentence about a list with a word that it cannot have. */
export function someOf(name: string, words: string, allowed: readonly string[]): string | undefined {
  const strange = listed(words).find((word) => !allowed.includes(word));
  return strange && `${name} may hold ${allowed.join(', ')}, not “${strange}”.`;
}

/**
 * What every public element of a reed shares: where its readings come from, which pass is shown, how figures are written,
 * and what it says while there is nothing to show. Readings come from `fitted`, `data`, `src` or the element's own text,
 * the first of these that is there.
 *
 * @fires {ReedFitEvent} bench-reed-fit - A reed was read and fitted, and is shown: `event.reed`.
 * @fires {ReedProblemEvent} bench-reed-problem - The readings were not understood or leave something open: `event.problems`.
 * @slot - Readings as text, as they stand in a file; they are read and not shown.
 * @csspart status - What is said while a file is read and a reed is fitted.
 * @csspart problem - What was not understood.
 * @csspart question - What the readings leave open.
 * @cssprop --bench-paper - Ground.
 * @cssprop --bench-ink - Text and lines.
 * @cssprop --bench-ink3 - Text of less weight.
 * @cssprop --bench-scale - Factor on every size of type, 1 unless set.
 * @cssprop --bench-sans - Family of figures and captions.
 * @cssprop --bench-serif - Family of sentences.
 */
export abstract class ReedPart extends BenchElement {
  static override styles: CSSResultGroup = [controls, partStyles];

  private readonly source = new ReedSource(this, (now) => this.hear(now));

  /** The element's own text, where it has any. */
  @state() private text = '';

  /** Address of a file of readings (CSV). The one thing that is ever fetched. */
  @property({ reflect: true, useDefault: true }) src = '';
  /** The readings themselves: a `File` or `Blob`, the text of a file, its bytes, or a reed as a plain object. */
  @property({ attribute: false }) data: Readings | undefined;
  /** A reed that is fitted already: by `fit` of the core, or by another element's `bench-reed-fit`. */
  @property({ attribute: false }) fitted: FittedReed | undefined;
  /** Label of the reed, where the readings hold several; the first one while blank. */
  @property({ reflect: true, useDefault: true }) reed = '';
  /** Number of the pass that is shown, as the file has it; the last one while absent. */
  @property({ type: Number, reflect: true }) pass: number | undefined;
  /** Unit of thickness: `hundredths` (of a mm), `mm` or `thou` (thousandths of an inch). */
  @property({ reflect: true, useDefault: true }) unit: ThicknessUnit = 'hundredths';
  /** Decimal sign: `point` or `comma`. */
  @property({ reflect: true, useDefault: true }) decimal: NumberFormat['decimal'] = 'point';
  /** Whose zones and floors are used: `long-scrape` or `short-scrape`. */
  @property({ attribute: 'reed-style', reflect: true, useDefault: true }) reedStyle = 'long-scrape';

  /** Without a ground and a frame of its own, as a part of something that is framed already. */
  @property({ type: Boolean, reflect: true }) bare = false;

  /** What is shown of a reed at a pass. */
  protected abstract renderReed(at: ReedAtPass): unknown;

  protected get writing(): NumberFormat {
    return { unit: this.unit, decimal: this.decimal };
  }

  private get given(): Given | undefined {
    const { data, src, text } = this;
    if (data !== undefined) return { data };
    if (src) return { src };
    return text ? { data: text } : undefined;
  }

  override connectedCallback() {
    super.connectedCallback();
    this.theme.adoptInside();
  }

  override willUpdate(changed: PropertyValues) {
    const isOther = ['data', 'src', 'text', 'fitted', 'reed', 'reedStyle'].some((name) => changed.has(name));
    if (!isOther) return;
    const { given, reed: label, reedStyle: styleId } = this;
    this.source.give(this.fitted || !given || this.misfit ? undefined : { given, label, styleId });
  }

  private hear(now: SourceState) {
    if (now.is === 'fitted') this.dispatchEvent(new ReedFitEvent(now.benched));
    else if (now.is === 'refused') this.dispatchEvent(new ReedProblemEvent(now.problems));
    else if (now.is === 'asks')
      this.dispatchEvent(new ReedProblemEvent(now.questions.map(({ sentence }) => sentence)));
  }

  private handleText({ target }: Event) {
    const nodes = (target as HTMLSlotElement).assignedNodes();
    this.text = nodes
      .map(({ textContent }) => textContent ?? '')
      .join('')
      .trim();
  }

  /** An attribute that has no such value, in a sentence. */
  protected get misfit(): string | undefined {
    return (
      oneOf('unit', this.unit, Object.keys(MM_PER)) ??
      oneOf('decimal', this.decimal, DECIMALS) ??
      oneOf(
        'reed-style',
        this.reedStyle,
        STARTING_STYLES.map(({ key }) => key),
      ) ??
      (Number.isNaN(this.pass) ? 'pass must be the number of a pass.' : undefined)
    );
  }

  /** The reed that is there, fitted. */
  protected get benched(): FittedReed | undefined {
    return this.fitted ?? (this.source.state.is === 'fitted' ? this.source.state.benched : undefined);
  }

  /** Labels of all reeds that the readings hold. */
  protected get labels(): readonly string[] {
    return this.source.state.is === 'fitted' ? this.source.state.labels : [];
  }

  /** What was found in the reed's passes; absent until it was looked for. */
  protected get found() {
    return this.source.state.is === 'fitted' ? this.source.state.found : undefined;
  }

  override render() {
    const shown = this.renderState();
    return html`<slot hidden @slotchange=${this.handleText}></slot>
      ${this.bare ? shown : html`<article aria-label=${this.benched?.reed.label ?? 'Reed'}>${shown}</article>`}`;
  }

  private renderState(): unknown {
    const { misfit, benched, pass, source } = this;
    if (misfit) return problemView([misfit]);
    return benched
      ? this.atPass(benched, pass, (at) => this.renderReed(at))
      : this.renderSource(source, 'No readings yet: set src, data or fitted, or put them inside as text.');
  }

  /** What is said of readings of which there is nothing to show yet. */
  protected renderSource(source: ReedSource, nothingYet: string): unknown {
    const now = source.state;
    switch (now.is) {
      case 'refused':
        return problemView(now.problems);
      case 'asks':
        return questionsView(now.questions, (answers) => source.answer(answers));
      case 'fitting':
        return workingView(`Fitting ${now.label} …`, 'Stop', () => source.cancel());
      case 'reading':
        return workingView('Reading …', 'Stop', () => source.cancel());
      case 'stopped':
        return workingView('Stopped.', 'Read again', () => source.resume());
      default:
        return statusView(nothingYet);
    }
  }

  /** A table in a box that scrolls where the element is narrower: by the keys on its Copy, or on itself where none may be. */
  protected renderTable(table: FigureTable): TemplateResult {
    return html`<div
      class="scroll"
      role="group"
      aria-label=${table.title}
      tabindex=${'clipboard' in navigator ? nothing : 0}
    >
      <bench-figures-table .table=${table} .writing=${this.writing}></bench-figures-table>
    </div>`;
  }

  /** @param pass Number of the pass; the last one when undefined. */
  protected atPass(
    benched: FittedReed,
    pass: number | undefined,
    render: (at: ReedAtPass) => unknown,
  ): unknown {
    const numbers = benched.assembled.passes.map(({ index }) => index);
    const place = pass === undefined ? numbers.length - 1 : numbers.indexOf(pass);
    if (!benched.model) return problemView([`${benched.reed.label} has no reading of a station.`]);
    if (place < 0)
      return problemView([
        `There is no pass ${pass} of ${benched.reed.label}; there is ${numbers.join(', ')}.`,
      ]);
    return render({ benched, pass: place });
  }
}

/** What is going on, with a button for it. */
const workingView = (words: string, button: string, press: () => void): TemplateResult =>
  html`<div part="status" class=${button === 'Stop' ? 'working' : ''}>
    <p role="status">${words}</p>
    <button @click=${press}>${button}</button>
  </div>`;

const statusView = (words: string): TemplateResult => html`<p part="status" role="status">${words}</p>`;

function problemView(problems: readonly string[]): TemplateResult {
  const more = problems.length - MOST_PROBLEMS;
  return html`<div class="problem" part="problem" role="alert">
    <p>This was not understood:</p>
    <ul>
      ${problems.slice(0, MOST_PROBLEMS).map((problem) => html`<li>${problem}</li>`)}
      ${more > 0 ? html`<li>And ${more} more.</li>` : nothing}
    </ul>
  </div>`;
}

declare global {
  interface HTMLElementEventMap {
    'bench-reed-fit': ReedFitEvent;
    'bench-reed-problem': ReedProblemEvent;
  }
}
