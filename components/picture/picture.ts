import { css, html } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { pngBlob, svgText } from './picture-export.ts';
import { pictureParts } from './picture-parts.ts';

/** The day, as it stands in the file of a picture that belongs to no pass. */
const today = (): string => new Date().toISOString().slice(0, 10);

/**
 * Wraps pictures of the bench and saves what they show, with caption, units and date, as a drawing or as pixels.
 *
 * @slot - One or more elements that show a picture.
 * @slot twin - What is folded beside the saving: the same as a table.
 */
@customElement('bench-picture')
export class BenchPicture extends BenchElement {
  static override styles = [
    controls,
    css`
      .folds {
        display: flex;
        flex-wrap: wrap;
        gap: 0 var(--bench-space-5);
        margin-top: var(--bench-space-1);
      }
      details[open],
      ::slotted(details[open]) {
        flex-basis: 100%;
        min-width: 0;
      }
      details {
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
      }
      summary {
        width: fit-content;
      }
      .save {
        flex-wrap: wrap;
        display: flex;
        gap: var(--bench-space-2);
        align-items: center;
      }
      button {
        padding-inline: var(--bench-space-3);
        font: var(--bench-font-caption);
      }
      @media print {
        details {
          display: none;
        }
      }
    `,
  ];

  @state() private said = '';

  /** What is shown and in which unit; stands in the file under the picture. */
  @property() caption = '';
  /** The day, as it shall stand in the file; today unless told. */
  @property() date = '';
  /** Name of the file, without its ending. */
  @property({ attribute: 'file-name' }) fileName = 'picture';

  private async save(kind: 'svg' | 'png') {
    const parts = pictureParts(this);
    if (parts.pictures.length === 0) {
      this.said = 'There is no picture to save yet.';
      return;
    }
    const note = { caption: this.caption, date: this.date || today() };
    const blob =
      kind === 'png'
        ? await pngBlob(parts, note)
        : new Blob([svgText(parts, note)], { type: 'image/svg+xml' });
    const link = this.ownerDocument.createElement('a');
    link.href = URL.createObjectURL(blob);
    link.download = `${this.fileName}.${kind}`;
    link.click();
    // The browser reads the address after this task; a minute is plenty.
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
    this.said = `Saved as ${link.download}.`;
  }

  override render() {
    return html`<slot></slot>
      <div class="folds">
        <slot name="twin"></slot>
        <details>
          <summary>Save the picture</summary>
          <div class="save">
            <button @click=${() => this.save('svg')} aria-label="Save the picture as a drawing, SVG">
              SVG
            </button>
            <button @click=${() => this.save('png')} aria-label="Save the picture as pixels, PNG">PNG</button>
            <span role="status">${this.said}</span>
          </div>
        </details>
      </div>`;
  }
}
