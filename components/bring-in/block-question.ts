import { css, html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { BLADES } from '../../shared/blade.ts';
import type { BlockAnswer } from '../../shared/settings.ts';
import {
  blockCells,
  blockProblem,
  offeredLines,
  usualAcross,
  usualRows,
} from '../../src/exchange/csv/bare-block.ts';
import type { CsvQuestion } from '../../src/exchange/csv/questions.ts';
import { acrossWords } from '../../src/round/place-words.ts';
import { plainText, type NumberFormat } from '../../src/words/format.ts';
import { outlineStyles } from '../round/round-outline.styles.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { boxes, mainActs } from '../theme/forms.styles.ts';
import { bladeToBe } from './blades-to-be.ts';

/** How a bare block lies on the blades, as the maker said. */
export class BlockAnswerEvent extends Event {
  readonly block: BlockAnswer;

  constructor(block: BlockAnswer) {
    super('bench-block-answer');
    this.block = block;
  }
}

type BlockQuestion = CsvQuestion & { readonly about: 'block' };

const BLADE_WORDS: Readonly<Record<BlockAnswer['blades'], string>> = {
  A: 'Blade A alone',
  B: 'Blade B alone',
  beside: 'A and then B, side by side',
  under: 'A and then B, one under the other',
};

const numberOf = (text: string) =>
  text.trim() === '' ? NaN : Number(text.trim().replace(',', '.').replace('\u2212', '-'));

/**
 * Asks where the lines and columns of a block of bare numbers lie, beside a picture of the blades as they will be.
 *
 * @event bench-block-answer - Every line and column has its place.
 */
@customElement('bench-block-question')
export class BlockQuestionElement extends BenchElement {
  static override styles = [
    controls,
    boxes,
    mainActs,
    outlineStyles,
    css`
      .sides {
        display: grid;
        grid-template-columns: minmax(0, 1.35fr) minmax(0, 1fr);
        align-items: start;
        gap: var(--bench-space-5);
      }
      .scroll {
        overflow-x: auto;
      }
      table {
        border-collapse: collapse;
        font: var(--bench-font-table);
      }
      td {
        padding: var(--bench-space-1) var(--bench-space-2);
        background: var(--bench-plate);
        text-align: right;
      }
      input:not([type='checkbox']) {
        width: 3.5em;
        padding: 0 var(--bench-space-1);
      }
      input[type='checkbox'] {
        width: 24px;
        vertical-align: middle;
      }
      .outline polyline {
        display: none;
      }
      th {
        padding: var(--bench-space-1);
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
        text-align: left;
        vertical-align: bottom;
      }
      .how,
      .blades {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-3);
        align-items: center;
      }
      .blades {
        flex-wrap: nowrap;
      }
      .how {
        margin-bottom: var(--bench-space-3);
      }
      .blades > * {
        flex: 1 1 0;
        min-width: 0;
      }
      label {
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      @media (max-width: 820px) {
        .sides {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ];

  @state() private answer: BlockAnswer | undefined;

  /** What the file leaves open. */
  @property({ attribute: false }) question: BlockQuestion | undefined;
  /** How it was said to lie before. */
  @property({ attribute: false }) said: BlockAnswer | undefined;
  @property() decimal: NumberFormat['decimal'] = 'point';

  override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('question')) this.answer = this.said ?? this.question?.offered;
  }

  private change(more: Partial<BlockAnswer>) {
    if (this.answer) this.answer = { ...this.answer, ...more };
  }

  private handleTurn(question: BlockQuestion) {
    this.answer = offeredLines(question.rows, !this.answer?.turned);
  }

  private handleBlades({ rows }: BlockQuestion, answer: BlockAnswer, event: Event) {
    const blades = (event.target as HTMLSelectElement).value as BlockAnswer['blades'];
    this.answer = withBlades(rows, answer, blades);
  }

  private handlePlace(list: 'fromTipMm' | 'across', i: number, event: Event) {
    if (!this.answer) return;
    const value = numberOf((event.target as HTMLInputElement | HTMLSelectElement).value);
    this.change({ [list]: this.answer[list].map((old, j) => (j === i ? value : old)) });
  }

  override render() {
    const { question, answer } = this;
    if (!question || !answer) return nothing;
    const problem = blockProblem(answer);
    return html`<div class="how">
        <label
          >Blades<select @change=${(event: Event) => this.handleBlades(question, answer, event)}>
            ${Object.entries(BLADE_WORDS).map(([value, words]) => html`<option value=${value} ?selected=${value === answer.blades}>${words}</option>`)}
          </select></label
        >
        <button @click=${() => this.handleTurn(question)}>Turn rows and columns</button>
        <label
          ><input
            type="checkbox"
            .checked=${answer.distancesFirst}
            @change=${(event: Event) => this.change({ distancesFirst: (event.target as HTMLInputElement).checked })}
          />
          The first column holds the distances</label
        >
      </div>
      <div class="sides">
        <div class="scroll">${this.renderTable(question, answer)}</div>
        <div class="blades">
          ${problem ? nothing : BLADES.map((blade) => bladeToBe(blade, blockCells(question.rows, answer)))}
        </div>
      </div>
      <p role="status">${problem ?? ''}</p>
      <button
        class="main"
        ?disabled=${problem !== undefined}
        @click=${() => this.dispatchEvent(new BlockAnswerEvent(answer))}
      >
        It lies so
      </button>`;
  }

  private renderTable({ rows }: BlockQuestion, answer: BlockAnswer) {
    const { fromTipMm, across, blades } = answer;
    const cells = blockCells(rows, answer);
    const lines = blades === 'under' ? [...fromTipMm, ...fromTipMm] : fromTipMm;
    const columns = blades === 'beside' ? [...across, ...across] : across;
    return html`<table>
      <thead>
        <tr>
          <th scope="col">mm from the tip</th>
          ${columns.map((share, j) => this.renderColumnHead(answer, share, j))}
        </tr>
      </thead>
      <tbody>
        ${lines.map((mm, i) => {
          const line = cells.slice(i * columns.length, (i + 1) * columns.length);
          return html`<tr>
            ${this.renderLineHead(answer, mm, i)} ${line.map(({ text }) => html`<td>${text}</td>`)}
          </tr>`;
        })}
      </tbody>
    </table>`;
  }

  /** The place of a column; that of the second blade's goes by the first's. */
  private renderColumnHead({ across, blades }: BlockAnswer, share: number, j: number) {
    const isFirst = blades === 'beside' && j % across.length === 0;
    return html`<th scope="col">
      ${isFirst ? `Blade ${BLADES[j / across.length]}` : ''} ${acrossWords(share, this)}
      ${
        j < across.length
          ? html`<input
              aria-label="Place across of column ${j + 1}, from -1 to 1"
              .value=${Number.isNaN(share) ? '' : plainText(share, this)}
              @change=${(event: Event) => this.handlePlace('across', j, event)}
            />`
          : nothing
      }
    </th>`;
  }

  private renderLineHead({ fromTipMm }: BlockAnswer, mm: number, i: number) {
    if (i >= fromTipMm.length) return html`<th scope="row">B ${plainText(mm, this)}</th>`;
    return html`<th scope="row">
      <input
        aria-label="Distance of line ${i + 1} from the tip, mm"
        inputmode="decimal"
        .value=${Number.isNaN(mm) ? '' : plainText(mm, this)}
        @change=${(event: Event) => this.handlePlace('fromTipMm', i, event)}
      />
    </th>`;
  }
}

/** The answer with another arrangement of the blades: lines and columns are counted anew, and those named stay. */
function withBlades(
  rows: BlockQuestion['rows'],
  answer: BlockAnswer,
  blades: BlockAnswer['blades'],
): BlockAnswer {
  const offered = offeredLines(rows, answer.turned);
  const whole = (list: 'fromTipMm' | 'across', split: BlockAnswer['blades']) =>
    offered[list].length * (offered.blades === split ? 2 : 1);
  const nLines = Math.ceil(whole('fromTipMm', 'under') / (blades === 'under' ? 2 : 1));
  const nColumns = Math.ceil(whole('across', 'beside') / (blades === 'beside' ? 2 : 1));
  return { ...answer, blades, ...placesFor(nLines, nColumns, answer) };
}

function placesFor(nLines: number, nColumns: number, { fromTipMm, across }: BlockAnswer) {
  return {
    fromTipMm: fromTipMm.length === nLines ? fromTipMm : usualRows(nLines),
    across: across.length === nColumns ? across : usualAcross(nColumns),
  };
}
