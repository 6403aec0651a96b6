import { html, nothing, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { FittedReed, ReedAtPass } from '../../src/answers/fitted-reed.ts';
import type { Answer } from '../../src/answers/answer-words.ts';
import { UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import type { TableName } from '../../src/answers/record/record.ts';
import type { FigureTable } from '../../src/figures/figure.ts';
import '../figures-table/figures-table.ts';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import type { Print, PrintChooseEvent } from '../map/prints.ts';
import '../picture/picture.ts';
import '../reed/reed-zones.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { paperStyles, questionStyles, stepStyles } from './question.styles.ts';

const NO_BREAK_HYPHEN = '\u2011';

/** A sentence in which labels such as K-117 stay in one line. */
export function unbroken(words: string): string {
  return words.replace(/(\p{L})-(\d)/gu, `$1${NO_BREAK_HYPHEN}$2`);
}

/** The prints that were chosen while the page is open, by question. */
const CHOSEN = new Map<string, Print>();

/** What the five questions share: the reed at a pass, its favourite, how figures are written, and three columns. */
export abstract class QuestionElement extends BenchElement {
  static override styles = [controls, questionStyles, stepStyles, paperStyles];

  /** The reed; it must have been read. */
  @property({ attribute: false }) benched: FittedReed | undefined;
  /** Place of the pass that is shown. */
  @property({ type: Number }) pass = 0;
  /** Place of the earlier pass it is compared with. */
  @property({ type: Number }) earlier = 0;
  /** The example that is followed. */
  @property({ attribute: false }) favourite: ReedAtPass | undefined;
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };
  /** The cane that the blades were made of, where its gouge is known. */
  @property({ attribute: false }) original: OriginalCane | undefined;

  /** How the reed lies on the plate: as it was last chosen for this question. */
  @state() protected print: Print = CHOSEN.get(this.localName) ?? 'flat';

  /** Number of the pass that is shown. */
  protected get passNumber(): number | undefined {
    return this.benched?.assembled.passes[this.pass]?.index;
  }

  protected renderAnswer({ say, mind, aside }: Answer): TemplateResult {
    return html`<p class="say">${unbroken(say)} ${mind ? html`<em>${unbroken(mind)}</em>` : nothing}</p>
      ${aside ? html`<p class="aside">${unbroken(aside)}</p>` : nothing}`;
  }

  /** Folds that were opened. */
  @state() private opened: ReadonlySet<string> = new Set();

  private handleFold(title: string, event: Event) {
    if ((event.currentTarget as HTMLDetailsElement).open) this.opened = new Set([...this.opened, title]);
  }

  /** A fold whose inside is worked out for those who look. */
  protected renderFold(title: string, inside: () => unknown): TemplateResult {
    return html`<details @toggle=${(event: Event) => this.handleFold(title, event)}>
      <summary>${title}</summary>
      ${this.opened.has(title) ? inside() : nothing}
    </details>`;
  }

  /** A table of the reed's own figures. */
  protected renderFigures(table: TableName): TemplateResult {
    return html`<bench-reed-zones
      bare
      table=${table}
      .fitted=${this.benched}
      .pass=${this.passNumber}
      .unit=${this.writing.unit}
      .decimal=${this.writing.decimal}
    ></bench-reed-zones>`;
  }

  protected renderTable(table: FigureTable): TemplateResult {
    return html`<bench-figures-table .table=${table} .writing=${this.writing}></bench-figures-table>`;
  }

  /** The question in words: an element is named after what it answers. */
  private get question(): string {
    return this.localName.replace('bench-', '').replace('-', ' ');
  }

  protected handlePrint({ print }: PrintChooseEvent) {
    CHOSEN.set(this.localName, print);
    this.print = print;
  }

  /** A picture that can be saved with what it shows, its unit and the day of the pass. */
  protected renderPicture(name: string, picture: unknown): TemplateResult {
    const { benched, pass, writing } = this;
    const shown = benched?.passes[pass];
    const words = [benched?.reed.label, `pass ${shown?.index ?? pass}`, name];
    return html`<bench-picture
      caption=${`${words.join(', ')}, ${UNIT_WORDS[writing.unit].caption}${benched?.reed.invented ? ' (invented)' : ''}`}
      date=${shown?.takenAt?.slice(0, 10) ?? ''}
      file-name=${words.join(' ')}
      >${picture}</bench-picture
    >`;
  }

  /**
   * The answer first, then its picture; figures stand under the answer where there is room beside the picture.
   *
   * @param isWide The plate has a third picture beside the blades.
   */
  protected renderColumns(
    answer: unknown,
    figures: unknown,
    plate: unknown,
    evidence: unknown,
    isWide = false,
  ): TemplateResult {
    return html`<div class="columns">
      <div class="answer">${answer}</div>
      <div class="board">
        <div class=${isWide ? 'plate third' : 'plate'}>${this.renderPicture(this.question, plate)}</div>
        <div class="evidence">${evidence}</div>
      </div>
      <div class="figures">${figures}</div>
    </div>`;
  }
}
