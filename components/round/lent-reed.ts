import { css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { hrefOf } from '../frame/routes.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** What stands in place of a round where the reed is the shared case's and this device its guest. */
@customElement('bench-lent-reed')
export class LentReed extends BenchElement {
  static override styles = [
    css`
      :host {
        max-width: 36em;
        padding: var(--bench-space-6) var(--bench-page-margin);
        font: var(--bench-font-say);
      }
      h1 {
        margin: 0;
        font: var(--bench-font-reed);
      }
      a {
        display: inline-block;
        min-height: var(--bench-touch);
        align-content: center;
      }
    `,
  ];

  @property({ attribute: 'reed-label' }) reedLabel = '';
  @property({ attribute: 'reed-id' }) reedId = '';

  override render() {
    const { reedLabel, reedId } = this;
    return html`<h1>${reedLabel}</h1>
      <p>
        This reed is of the shared case, which this device reads as a guest: it is read elsewhere, and each
        pass is shown here once it is finished.
      </p>
      <p><a href=${hrefOf({ at: 'bench', reedId, question: 'there' })}>To the reed</a></p>`;
  }
}
