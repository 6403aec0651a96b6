import { html, nothing, type TemplateResult } from 'lit';
import type { SVGTemplateResult } from 'lit';
import '../figures-table/copy-table.ts';

/** What a chart shows, as a table: every mark has its row. */
export interface Twin {
  readonly caption: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly (string | TemplateResult)[])[];
}

/** The table of a chart, folded, to stand in its `bench-picture`; its first column names the row. */
export function sameAsTable({ caption, heads, rows }: Twin, summary = 'The same as a table'): TemplateResult {
  return html`<details class="twin" slot="twin">
    <summary>${summary}</summary>
    <div class="scroll" tabindex="0" role="region" aria-label=${caption}>
      <table>
        <caption>
          ${caption}
          <bench-copy></bench-copy>
        </caption>
        <thead>
          <tr>
            ${heads.map((head) => html`<th scope="col">${head}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${rows.map(
            ([name, ...cells]) =>
              html`<tr>
                <th scope="row">${name}</th>
                ${cells.map((cell) => html`<td>${cell}</td>`)}
              </tr>`,
          )}
        </tbody>
      </table>
    </div>
  </details>`;
}

/** What the marks of a chart mean. */
export function markKey(entries: readonly (readonly [drawn: SVGTemplateResult, words: string] | false)[]) {
  return html`<ul class="key">
    ${entries.map((entry) =>
      entry
        ? html`<li>
            <svg part="picture key" viewBox="-13 -8 26 16" width="26" height="16" aria-hidden="true">
              ${entry[0]}
            </svg>
            <span part="words">${entry[1]}</span>
          </li>`
        : nothing,
    )}
  </ul>`;
}
