import { html } from 'lit';
import { acrossWords } from '../../src/words/figure-words.ts';

/** The heads of a sheet's columns: where across the blade. */
export function gridHead(across: readonly number[]) {
  return html`<thead>
    <tr>
      <th scope="col">mm from the tip</th>
      ${across.map((u) => html`<th scope="col">${acrossWords(u)}</th>`)}
    </tr>
  </thead>`;
}
