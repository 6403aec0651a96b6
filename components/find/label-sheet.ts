import { css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Id } from '../../shared/ids.ts';
import type { Reed } from '../../shared/reed.ts';
import { SIGNS_ON_THREAD, type ThreadNumber } from '../../src/rotation/thread-number.ts';
import { dayWords } from '../../src/words/day-words.ts';
import { unbroken } from '../bench/question-element.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** A reed on a label. */
export interface Labelled {
  readonly reed: Reed;
  readonly lot?: string;
}

/** Paper flags for reeds, 45 by 18 mm when printed: the label at arm's length, and the number for the thread. */
@customElement('bench-label-sheet')
export class LabelSheet extends BenchElement {
  static override styles = css`
    ul {
      display: flex;
      flex-wrap: wrap;
      gap: 2mm;
      margin: 0;
      padding: 0;
      list-style: none;
    }
    li {
      display: grid;
      grid-template-columns: 1fr auto;
      align-content: center;
      width: 45mm;
      height: 18mm;
      padding: 1mm 2mm;
      overflow: hidden;
      border: 0.2mm solid var(--bench-rule2);
      break-inside: avoid;
    }
    b {
      font: 600 15pt / 1 var(--bench-sans);
      white-space: nowrap;
    }
    .thread {
      font: 600 11pt / 1 var(--bench-sans);
      text-align: right;
    }
    small {
      grid-column: 1 / -1;
      overflow: hidden;
      font: 7pt / 1.3 var(--bench-sans);
      text-overflow: ellipsis;
      white-space: nowrap;
    }
    @media print {
      ul {
        display: block;
        font-size: 0;
      }
      li {
        display: inline-grid;
        margin: 0 2mm 2mm 0;
        vertical-align: top;
        border-color: #000;
        color: #000;
      }
    }
  `;

  @property({ attribute: false }) labelled: readonly Labelled[] = [];
  /** By the reed. */
  @property({ attribute: false }) numbers: ReadonlyMap<Id, ThreadNumber> = new Map();

  override render() {
    return html`<ul>
      ${this.labelled.map(({ reed, lot }) => {
        const number = this.numbers.get(reed.id)!;
        const reason =
          'none' in number && (number.none === 'taken' ? `as ${number.by}` : `over ${SIGNS_ON_THREAD} signs`);
        const facts = [
          lot && `lot ${lot}`,
          reed.tiedOn && `tied ${dayWords(reed.tiedOn)}`,
          reed.invented && 'invented',
        ];
        return html`<li>
          <b>${unbroken(reed.label)}</b>
          <span class="thread">${'text' in number ? html`&bull; ${number.text}` : reason}</span>
          <small>${facts.filter(Boolean).join(', ')}</small>
        </li>`;
      })}
    </ul>`;
  }
}
