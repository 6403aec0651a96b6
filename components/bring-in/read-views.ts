import { html, nothing } from 'lit';
import type { ReedDraft } from '../../src/exchange/csv/drafts.ts';
import type { CsvAnswers, CsvQuestion } from '../../src/exchange/csv/questions.ts';
import type { Writing } from '../../src/words/format.ts';
import { plainText } from '../figure-text.ts';
import type { Answers } from './read-chosen.ts';

type Answer = (file: string, change: CsvAnswers) => void;

const valueOf = (event: Event) => (event.target as HTMLInputElement | HTMLSelectElement).value;

/** The reeds of what was read, with their passes. */
export function reedsView(reeds: readonly ReedDraft[], writing: Pick<Writing, 'decimal'>) {
  const passWords = ({ index, readings, overallLengthMm }: ReedDraft['passes'][number]) =>
    `pass ${index}, ${readings.length} readings${overallLengthMm === undefined ? '' : `, ${plainText(overallLengthMm, writing)} mm overall`}`;
  return html`<ul>
    ${reeds.map(({ label, passes }) => html`<li>${label}: ${passes.map(passWords).join('; ')}</li>`)}
  </ul>`;
}

/** What a file leaves open, and the ways to answer. */
export function questionView(question: CsvQuestion, answers: Answers, answer: Answer) {
  return html`<section aria-label="A question">
    <p class="say">${question.sentence}</p>
    ${question.about === 'label' ? labelView(question.file, answer) : optionsView(question, answer)}
    ${question.about === 'columns' ? columnsView(question, answers, answer) : nothing}
  </section>`;
}

function labelView(file: string, answer: Answer) {
  return html`<label
    >Label of the reed<input
      type="text"
      @change=${(event: Event) => answer(file, { label: valueOf(event).trim() })}
  /></label>`;
}

function optionsView(question: CsvQuestion, answer: Answer) {
  const options = 'options' in question ? question.options : [];
  return html`<div class="acts">
    ${options.map(
      (option) =>
        html`<button @click=${() => answer(question.file, { [question.about]: option })}>${option}</button>`,
    )}
  </div>`;
}

function columnsView(
  { file, lacking, headings }: CsvQuestion & { readonly about: 'columns' },
  answers: Answers,
  answer: Answer,
) {
  const choose = (column: string) => (event: Event) =>
    answer(file, { columns: { ...answers.get(file)?.columns, [column]: valueOf(event) } });
  return lacking.map(
    (column) =>
      html`<label
        >${column}<select @change=${choose(column)}>
          <option value="">Which column is it?</option>
          ${headings.map((heading) => html`<option>${heading}</option>`)}
        </select></label
      >`,
  );
}
