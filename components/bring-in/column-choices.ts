import { html, nothing } from 'lit';
import { COLUMN_NAMES, COLUMNS, knownHeading, NEEDED, type Column } from '../../src/exchange/csv/columns.ts';
import type { CsvAnswers } from '../../src/exchange/csv/questions.ts';
import type { CsvFileFacts } from '../../src/exchange/csv/read-file.ts';
import type { Answers } from './read-chosen.ts';

/** Columns that a file may name in another way, in the words of the bench. */
const WORDS: Readonly<Partial<Record<Column, string>>> = {
  reed: 'Reed',
  pass: 'Pass',
  overall_length_mm: 'Overall length, mm',
  state: 'Dry, damp or wet',
  blade: 'Blade',
  from_tip_mm: 'Distance from the tip, mm',
  across: 'Place across',
  thickness_mm: 'Thickness',
};

/** The choices as they would be with another heading for a column; blank takes the choice back. Others stay. */
function withChoice(chosen: CsvAnswers['columns'], column: Column, heading: string): CsvAnswers['columns'] {
  const { [column]: _, ...others } = chosen ?? {};
  return heading === '' ? others : { ...others, [column]: heading };
}

/** One row a column: the heading that stands for it, each of which can be chosen once and taken back. */
export function columnChoices(
  { name, headings, columns }: Pick<CsvFileFacts, 'name' | 'headings' | 'columns'>,
  answers: Answers,
  answer: (file: string, change: CsvAnswers) => void,
) {
  const chosen = answers.get(name)?.columns ?? {};
  const offered = COLUMN_NAMES.filter((column) => WORDS[column] !== undefined);
  const takenBy = (heading: string) =>
    COLUMN_NAMES.find((column) => (chosen[column] ?? columns[column]) === heading);
  return html`<div class="columns">
    ${offered.map((column) => {
      const now = chosen[column] ?? columns[column] ?? '';
      const free = headings.filter(
        (heading) => heading !== '' && [undefined, column].includes(takenBy(heading)),
      );
      const unsaid = NEEDED.includes(column) ? 'Which column is it?' : 'not in this file';
      const own = headings.find((heading) => knownHeading(heading)?.column === column);
      return html`<label
        >${WORDS[column]} <span>${COLUMNS[column].of === 'reading' ? nothing : 'the same in every row'}</span
        ><select
          @change=${(event: Event) =>
            answer(name, {
              columns: withChoice(chosen, column, (event.target as HTMLSelectElement).value) ?? {},
            })}
        >
          <option value="">${own && chosen[column] ? `as headed: ${own}` : unsaid}</option>
          ${free.map((heading) => html`<option value=${heading} ?selected=${heading === now}>${heading}</option>`)}
        </select></label
      >`;
    })}
  </div>`;
}
