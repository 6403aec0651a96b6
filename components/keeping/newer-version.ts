import { css, html } from 'lit';
import { customElement } from 'lit/decorators.js';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { ACROSS_SHADOWS } from '../across-shadows.ts';

/** The newer version of the bench is wanted now. */
export class NewerVersionUseEvent extends Event {
  constructor() {
    super('bench-newer-version-use', ACROSS_SHADOWS);
  }
}

/**
 * Says that a newer version lies ready. Nothing happens until the maker asks for it.
 *
 * @event bench-newer-version-use - The maker asked for it.
 */
@customElement('bench-newer-version')
export class NewerVersion extends BenchElement {
  static override styles = [
    controls,
    css`
      :host {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-3);
        align-items: center;
        padding: var(--bench-space-3) var(--bench-page-margin);
        background: var(--bench-plate);
      }
    `,
  ];

  private handleUse() {
    this.dispatchEvent(new NewerVersionUseEvent());
  }

  override render() {
    return html`<span role="status">A newer version of the bench lies ready.</span>
      <button @click=${this.handleUse}>Use it</button>`;
  }
}

declare global {
  interface HTMLElementEventMap {
    'bench-newer-version-use': NewerVersionUseEvent;
  }
}
