import { html, nothing, type TemplateResult } from 'lit';
import type { CsvAnswers, CsvQuestion } from '../../src/exchange/csv/questions.ts';
import { UNIT_WORDS } from '../../src/words/format.ts';

const DECIMAL_WORDS = { point: 'Decimal points', comma: 'Decimal commas' } as const;
const capital = (words: string) => `${words[0]!.toUpperCase()}${words.slice(1)}`;

/** What a question may be answered with, in words. */
function choices(question: CsvQuestion): readonly (readonly [words: string, answers: CsvAnswers])[] {
  switch (question.about) {
    case 'unit':
      return question.options.map((unit) => [capital(UNIT_WORDS[unit].name), { unit }] as const);
    case 'decimal':
      return question.options.map((decimal) => [DECIMAL_WORDS[decimal], { decimal }] as const);
    case 'hidden':
      return question.options.map((hidden) => [capital(hidden), { hidden }] as const);
    default:
      return [];
  }
}

/** What readings leave open: with buttons where one word answers it, else as a sentence that says what to do. */
export const questionsView = (
  questions: readonly CsvQuestion[],
  answer: (answers: CsvAnswers) => void,
): TemplateResult[] =>
  questions.map((question) => {
    const offered = choices(question);
    return html`<fieldset part="question">
      <legend>${question.sentence}</legend>
      ${
        offered.length === 0
          ? nothing
          : html`<div class="choice">
              ${offered.map(
                ([words, answers]) => html`<button @click=${() => answer(answers)}>${words}</button>`,
              )}
            </div>`
      }
    </fieldset>`;
  });
