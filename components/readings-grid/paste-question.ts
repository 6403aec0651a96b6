import { html } from 'lit';
import type { PasteAnswers } from '../../src/exchange/paste.ts';

/** What a pasted block leaves open, and what to do with the answer. */
export interface PasteQuestion {
  readonly about: 'decimal' | 'comma';
  readonly sentence: string;
  readonly answer: (answers: PasteAnswers) => void;
}

const CHOICES: Readonly<
  Record<PasteQuestion['about'], readonly (readonly [words: string, answers: PasteAnswers])[]>
> = {
  comma: [
    ['One number', { comma: 'decimal' }],
    ['Two numbers', { comma: 'separator' }],
  ],
  decimal: [
    ['The point is decimal', { decimal: 'point' }],
    ['The comma is decimal', { decimal: 'comma' }],
  ],
};

/** The question with a button for each answer. */
export function pasteQuestion({ about, sentence, answer }: PasteQuestion) {
  return html`<div class="chips" role="group" aria-label="Before it is pasted">
    <p role="alert">${sentence}</p>
    ${CHOICES[about].map(([words, answers]) => html`<button @click=${() => answer(answers)}>${words}</button>`)}
  </div>`;
}
