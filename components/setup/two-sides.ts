import { css, html, nothing } from 'lit';
import { customElement } from 'lit/decorators.js';
import type { Id } from '../../shared/ids.ts';
import type { LibraryDocument } from '../../shared/library.ts';
import { documentName } from '../../src/ledger/document-words.ts';
import type { Siblings } from '../../src/ledger/sides.ts';
import '../figures-table/copy-table.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls, tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { fieldRows } from './field-rows.ts';
import { momentWords } from './moment-words.ts';
import { rows, sideBySide } from './setup.styles.ts';

/** What was changed on two devices at once: the sides next to each other, for the maker to choose. */
@customElement('bench-two-sides')
export class TwoSides extends BenchElement {
  static override styles = [
    controls,
    tables,
    rows,
    sideBySide,
    css`
      h3 {
        margin: var(--bench-space-3) 0 0;
        font: var(--bench-font-head);
      }
    `,
  ];

  private readonly library = new LibraryController(this);

  private readonly labelOf = (reedId: Id) => this.library.store?.reed(reedId)?.label;

  override updated() {
    this.hidden = !this.library.store?.snapshot.disagreements.length;
  }

  private handleChoice(chosen: LibraryDocument, sides: Siblings) {
    void this.library.store?.settle(chosen, sides, documentName(chosen, this.labelOf));
  }

  override render() {
    const disagreements = this.library.store?.snapshot.disagreements ?? [];
    if (disagreements.length === 0) return nothing;
    return html`<section aria-label="Two sides">
      <h2>Two sides</h2>
      <p>
        These were changed on two devices that were not in step. Both sides are kept until you choose; the one
        that you do not choose is set aside and can be taken later.
      </p>
      ${disagreements.map((sides) => this.renderSides(sides))}
    </section>`;
  }

  private renderChoices(sides: Siblings, name: string) {
    if (this.library.store!.lent.has(sides[0]!.id))
      return sides.map(() => html`<td>chosen by whoever shares it</td>`);
    return sides.map(
      (side, i) =>
        html`<td>
          <button @click=${() => this.handleChoice(side, sides)}>
            Keep this side<span class="said">, ${i + 1}, of ${name}</span>
          </button>
        </td>`,
    );
  }

  private renderSides(sides: Siblings) {
    const name = documentName(sides[0]!, this.labelOf);
    return html`<h3>${name}</h3>
      <div class="scroll" tabindex="0" role="region" aria-label=${`Sides of ${name}`}>
        <table>
          <thead>
            <tr>
              <td></td>
              ${sides.map(({ updatedAt }, i) => html`<th scope="col">Side ${i + 1}, ${momentWords(updatedAt)}</th>`)}
            </tr>
          </thead>
          <tbody>
            ${fieldRows(sides)}
            <tr>
              <td></td>
              ${this.renderChoices(sides, name)}
            </tr>
          </tbody>
        </table>
        <bench-copy></bench-copy>
      </div>`;
  }
}
