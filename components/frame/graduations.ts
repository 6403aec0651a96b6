import { css, html, svg } from 'lit';
import { customElement } from 'lit/decorators.js';
import { BenchElement } from '../theme/bench-element.ts';

/** Ten fine graduations to one coarse, px apart. */
const FINE = 6;

/** The edge of a ruler under the top bar: the one ornament of the bench. */
@customElement('bench-graduations')
export class Graduations extends BenchElement {
  static override styles = css`
    svg {
      display: block;
      width: 100%;
      height: 8px;
      border-bottom: 1px solid var(--bench-rule2);
    }
    path {
      fill: none;
      stroke: var(--bench-rule2);
    }
  `;

  override render() {
    const ticks = Array.from({ length: 10 }, (_, i) => `M${i * FINE + 0.5} ${i === 0 ? 0 : 4}V8`).join('');
    return html`<svg aria-hidden="true">
      <defs>
        ${svg`<pattern id="edge" width=${10 * FINE} height="8" patternUnits="userSpaceOnUse"><path d=${ticks}></path></pattern>`}
      </defs>
      <rect width="100%" height="8" fill="url(#edge)"></rect>
    </svg>`;
  }
}
