import { css, html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { mapGrid } from '../../src/figures/surface-map.ts';
import { previewClip, type ClipPreview } from '../../src/plan/clip-preview.ts';
import { closestVersion, type Version } from '../../src/plan/closest-version.ts';
import { makeTarget, type Followed } from '../../src/plan/make-target.ts';
import { sayClosest } from '../../src/plan/say-closest.ts';
import { offsetTarget } from '../../src/plan/target.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { unbroken } from '../bench/question-element.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { ClipSlideEvent } from './clip-ruler.ts';

const LONGEST_MM = 1;
const [ALONG, ACROSS] = [36, 15];

/**
 * Looks for the clip and the common offset for which a target can be reached best, and says what that would cost.
 *
 * @event bench-clip-slide - The ruler is to show the clip that was found.
 */
@customElement('bench-closest')
export class Closest extends BenchElement {
  static override styles = [
    controls,
    css`
      :host {
        margin-top: var(--bench-space-3);
      }
      p {
        margin: 0 0 var(--bench-space-2);
        font: var(--bench-font-aside);
      }
    `,
  ];

  @property({ attribute: false }) own: ReedAtPass | undefined;
  @property({ attribute: false }) followed: Followed | undefined;
  @property({ attribute: false }) asItIs: ClipPreview | undefined;
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };
  @state() private found:
    | { readonly version: Version; readonly then: ClipPreview; readonly name: string }
    | undefined;

  override willUpdate(changed: PropertyValues) {
    if (changed.has('asItIs')) this.found = undefined;
  }

  private handleLook() {
    const { own, followed } = this;
    if (!own || !followed) return;
    const { bladeLengthMm } = own.benched.assembled.passes[own.pass]!;
    const target = makeTarget(followed, own, mapGrid(bladeLengthMm, ALONG, ACROSS));
    const version = closestVersion(own.benched.model!, own.pass, target, LONGEST_MM);
    const then = previewClip(own, offsetTarget(target, version.offsetMm), version.clipMm);
    this.found = { version, then, name: target.name };
  }

  override render() {
    const { found, asItIs } = this;
    if (!asItIs) return nothing;
    if (!found) return html`<button @click=${this.handleLook}>Look for the closest version</button>`;
    const { version, then, name } = found;
    return html`<p role="status">${unbroken(sayClosest(version, asItIs, then, name, this.writing))}</p>
      ${
        version.clipMm > 0
          ? html`<button @click=${() => this.dispatchEvent(new ClipSlideEvent(version.clipMm))}>
              Show this clip
            </button>`
          : nothing
      }`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-closest': Closest;
  }
}
