import { html } from 'lit';
import type { Problem } from '../../shared/errors.ts';
import type { CsvFile } from '../../src/exchange/csv/read-file.ts';

/** More lines than these are mended in the program they came from. */
const MOST_LINES = 400;

/**
 * What is wrong, and the text itself to be put right where it stands, before anything is kept.
 *
 * @param read Reads the file anew with another text.
 */
export function mendText(file: CsvFile, problems: readonly Problem[], read: (text: string) => void) {
  const text = new TextDecoder().decode(file.bytes);
  if (text.split('\n').length > MOST_LINES) return html``;
  const submit = (event: SubmitEvent) => {
    event.preventDefault();
    const { value } = (event.currentTarget as HTMLFormElement).querySelector('textarea')!;
    read(value);
  };
  return html`<form class="mend" @submit=${submit}>
    <label
      >Put it right here: ${problems.length === 1 ? 'one place' : `${problems.length} places`}. Your file
      stays as it is.<textarea rows="12" spellcheck="false" .value=${text}></textarea></label
    ><button class="main">Read it again</button>
  </form>`;
}
