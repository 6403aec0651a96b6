import { html, type TemplateResult } from 'lit';
import type { LibraryDocument } from '../../shared/library.ts';
import { differences } from '../../src/ledger/differences.ts';

/** A row for each field in which sides of one document differ, a cell a side. */
export const fieldRows = (sides: readonly LibraryDocument[]): TemplateResult[] =>
  differences(sides).map(
    ({ field, values }) =>
      html`<tr>
        <th scope="row">${field}</th>
        ${values.map((value) => html`<td>${value}</td>`)}
      </tr>`,
  );
