import { html, nothing } from 'lit';
import type { CsvAnswers } from '../../src/exchange/csv/questions.ts';
import type { FileProblem } from '../../src/exchange/file-problem.ts';
import { mendText } from './mend-text.ts';
import type { Answers, ReadReadings } from './read-chosen.ts';

/** What can be done about problems. */
export interface ProblemActs {
  readonly mend: (name: string, text: string) => void;
  readonly answer: (answers: Answers) => void;
  readonly takeBack: unknown;
  readonly nothing: () => void;
}

/** Cells at fault may stay open: they come in as not read. */
function openCells({ files, answers }: ReadReadings, problems: readonly FileProblem[], acts: ProblemActs) {
  if (files.length === 0 || problems.some(({ column }) => column === undefined)) return nothing;
  const cells = problems.length === 1 ? 'this cell' : `these ${problems.length} cells`;
  const open = files.map(({ name }) => {
    const now: CsvAnswers = { ...answers.get(name), openCells: 'not read' };
    return [name, now] as const;
  });
  return html`<button @click=${() => acts.answer(new Map(open))}>Leave ${cells} open: not read</button>`;
}

/** Why files cannot be brought in as they are, and what can be done about it. */
export function problemsView(read: ReadReadings, problems: readonly FileProblem[], acts: ProblemActs) {
  const [file, ...others] = read.files;
  return html`<section class="problems" role="alert" aria-label="Not understood">
    <p class="say">This cannot be brought in as it is. Nothing was kept.</p>
    <ul>
      ${problems.map(({ where, what }) => html`<li>${where}: ${what}</li>`)}
    </ul>
    ${file && others.length === 0 ? mendText(file, problems, (text) => acts.mend(file.name, text)) : nothing}
    ${openCells(read, problems, acts)} ${acts.takeBack}
    <button @click=${acts.nothing}>Keep nothing</button>
  </section>`;
}
