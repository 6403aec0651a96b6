import { html, nothing } from 'lit';
import type { Place } from '../../shared/blade.ts';
import { readingText, type NumberFormat } from '../../src/words/format.ts';

/** Why the reading of a station is odd. */
export interface OddCell {
  /** `Odd for B, 10 mm, right: 40 to 45 was expected.` */
  readonly words: string;
  /** The same as a question: `Here 40 to 45 was expected. Is it 46, with its digits turned?` */
  readonly asks: string;
  /** What the maker may have meant, mm. */
  readonly slipMm?: number;
}

/** The maker says that the reading of a station, odd or not, is as read. */
export class ReadingAsReadEvent extends Event {
  readonly place: Place;

  constructor(place: Place) {
    super('bench-reading-as-read');
    this.place = place;
  }
}

/** What is done with an answer. */
export interface OddAnswers {
  readonly correct: (thicknessMm: number) => void;
  readonly asRead: () => void;
  readonly again: () => void;
}

/** The question under the line of an odd reading: it waits for an answer, and the keys go on. */
export function oddQuestionRow(
  { asks, slipMm }: OddCell,
  reading: { readonly words: string; readonly text: string; readonly columns: number },
  writing: NumberFormat,
  answers: OddAnswers,
) {
  return html`<tr class="asked">
    <td colspan=${reading.columns}>
      <div class="chips" role="group" aria-label=${`Odd: ${reading.words}`}>
        <span><i aria-hidden="true">&#9671;</i> ${reading.text} at ${reading.words}. ${asks}</span>
        ${
          slipMm === undefined
            ? nothing
            : html`<button @click=${() => answers.correct(slipMm)}>
                It is ${readingText(slipMm, writing)}
              </button>`
        }
        <button @click=${answers.again}>Read again</button>
        <button @click=${answers.asRead}>${reading.text}, as read</button>
      </div>
    </td>
  </tr>`;
}
