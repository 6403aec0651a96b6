import { css, html } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import { controls, tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { dialogs } from '../theme/forms.styles.ts';
import type { Command } from './commands.ts';

const SHOWN: Readonly<Record<string, string>> = { 'Ctrl+z': 'Ctrl Z', 'Ctrl+Shift+z': 'Ctrl Shift Z' };

/** The list of keys, in a dialog. What it lists is what the keys do: both come from one table. */
@customElement('bench-key-sheet')
export class KeySheet extends BenchElement {
  static override styles = [
    controls,
    tables,
    dialogs,
    css`
      dialog {
        width: fit-content;
        max-width: min(520px, 92vw);
      }
      td {
        text-align: left;
      }
      kbd {
        font: var(--bench-font-body);
        font-weight: 600;
      }
      p {
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
    `,
  ];

  @query('dialog') private readonly dialog!: HTMLDialogElement;
  @property({ attribute: false }) commands: readonly Command[] = [];

  show(): void {
    if (!this.dialog.open) this.dialog.showModal();
  }

  private handleClose() {
    this.dialog.close();
  }

  override render() {
    return html`<dialog aria-labelledby="title">
      <h2 id="title">The keys</h2>
      <table>
        <tbody>
          ${this.commands.map(
            ({ keys, words }) =>
              html`<tr>
                <th scope="row"><kbd>${keys.map((key) => SHOWN[key] ?? key).join(' ')}</kbd></th>
                <td>${words}</td>
              </tr>`,
          )}
        </tbody>
      </table>
      <p>
        On a blade: arrows walk its stations, x goes to the facing place, Enter opens the reading. Keys of one
        letter can be switched off in Setup.
      </p>
      <button autofocus @click=${this.handleClose}>Close</button>
    </dialog>`;
  }
}
