import { html, nothing } from 'lit';
import { thicknessCount } from '../../shared/pass.ts';
import { STARTING_STYLES } from '../../src/blade/starting-styles.ts';
import type { ReedDraft } from '../../src/exchange/csv/drafts.ts';
import type { CsvAnswers, CsvQuestion } from '../../src/exchange/csv/questions.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { plainText } from '../../src/words/format.ts';
import { hrefOf } from '../frame/routes.ts';
import { columnChoices } from './column-choices.ts';
import './blades-to-be.ts';
import './block-question.ts';
import type { BlockAnswerEvent } from './block-question.ts';
import type { Done } from './keep-readings.ts';
import type { Answers } from './read-chosen.ts';

type Answer = (file: string, change: CsvAnswers) => void;

const valueOf = (event: Event) => (event.target as HTMLInputElement | HTMLSelectElement).value;

/** What became of readings that were kept, and the way on. */
export function doneView({ words, reedId }: Done) {
  return html`<p class="say" role="status">
    ${words}
    ${reedId ? html`<a class="way-on" href=${hrefOf({ at: 'bench', reedId, question: 'there' })}>To the bench</a>` : nothing}
  </p>`;
}

/** The style that new reeds are of. */
export function styleView(styleId: string, choose: (styleId: string) => void) {
  return html`<label
    >Style of new reeds<select @change=${(event: Event) => choose(valueOf(event))}>
      ${STARTING_STYLES.map(({ key, name }) => html`<option value=${key} ?selected=${key === styleId}>${name}</option>`)}
    </select></label
  >`;
}

/** How far the reading of files has come, and the way out of it. */
export function readingView(share: number | undefined, name: string, cancel: () => void) {
  if (share === undefined) return html`<div role="status"></div>`;
  return html`<div role="status">Reading ${name}</div>
    <div class="reading">
      <progress max="1" .value=${share} aria-label="How much is read"></progress>
      <p>${Math.floor(100 * share)} % is read</p>
      <button class="cancel" @click=${cancel}>Cancel</button>
    </div>`;
}

/** The reeds of what was read, with their passes. */
export function reedsView(reeds: readonly ReedDraft[], writing: NumberFormat) {
  const passWords = ({ index, readings, overallLengthMm }: ReedDraft['passes'][number]) =>
    `pass ${index}, ${thicknessCount({ readings: [...readings] })} readings${overallLengthMm === undefined ? '' : `, ${plainText(overallLengthMm, writing)} mm overall`}`;
  return html`<ul>
      ${reeds.map(({ label, passes }) => html`<li>${label}: ${passes.map(passWords).join('; ')}</li>`)}
    </ul>
    <bench-blades-to-be .reeds=${reeds} .writing=${writing}></bench-blades-to-be>`;
}

/** What a file leaves open, and the ways to answer. */
export function questionView(
  question: CsvQuestion,
  answers: Answers,
  answer: Answer,
  labels: readonly string[],
  writing: NumberFormat,
) {
  return html`<section aria-label="A question">
    <p class="say">${question.sentence}</p>
    ${answerView(question, answers, answer, labels, writing)}
  </section>`;
}

function answerView(
  question: CsvQuestion,
  answers: Answers,
  answer: Answer,
  labels: readonly string[],
  { decimal }: NumberFormat,
) {
  const { file } = question;
  switch (question.about) {
    case 'label':
      return labelView(file, answer, labels);
    case 'columns':
      return columnChoices(
        { name: file, headings: question.headings, columns: question.columns },
        answers,
        answer,
      );
    case 'block':
      return html`<bench-block-question
        .question=${question}
        .decimal=${decimal}
        @bench-block-answer=${({ block }: BlockAnswerEvent) => answer(file, { block })}
      ></bench-block-question>`;
    case 'hidden':
    case 'unit':
    case 'decimal':
      return optionsView(question, answer);
  }
}

function labelView(file: string, answer: Answer, labels: readonly string[]) {
  const choose = (event: Event) => answer(file, { label: valueOf(event).trim() });
  return html`<div class="acts">
    <label
      >One of your reeds<select @change=${choose}>
        <option value="">Which one?</option>
        ${labels.map((label) => html`<option>${label}</option>`)}
      </select></label
    >
    <label>Or the label of a new one<input type="text" @change=${choose} /></label>
  </div>`;
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
