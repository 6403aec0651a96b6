import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { OfferedPlan } from '../../src/round/own-plans.ts';
import '../caution/caution.ts';
import { hrefOf } from '../frame/routes.ts';
import { base, controls } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import { RoundStartEvent } from './round-start-event.ts';

/**
 * Choice of the plan for a new round; the keyboard stands on the one used last, so that Enter begins.
 *
 * @event bench-round-start - Carries the plan.
 * @slot - What may be written about the pass beforehand.
 */
@customElement('bench-round-start')
export class RoundStart extends LitElement {
  static override styles = [
    base,
    controls,
    css`
      :host {
        max-width: 720px;
        padding: var(--bench-space-6) var(--bench-page-margin);
      }
      h1 {
        margin: 0 0 var(--bench-space-4);
        font: var(--bench-font-reed);
      }
      ul {
        display: grid;
        gap: var(--bench-space-3);
        margin: 0 0 var(--bench-space-6);
        padding: 0;
        list-style: none;
      }
      button {
        width: 100%;
        min-height: 84px;
        border-radius: var(--bench-radius-key);
        text-align: left;
      }
      strong {
        font-size: calc(21px * var(--bench-scale));
        font-weight: 600;
      }
      span {
        color: var(--bench-ink2);
      }
      h1 .whole {
        color: inherit;
        white-space: nowrap;
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);

  @property({ attribute: 'reed-label' }) reedLabel = '';
  @property({ attribute: false }) plans: readonly OfferedPlan[] = [];
  /** Name of the plan used last. */
  @property({ attribute: 'last-plan' }) lastPlan = '';

  override firstUpdated() {
    this.renderRoot.querySelector<HTMLElement>('[data-last]')?.focus();
  }

  override render() {
    const last = this.plans.some(({ name }) => name === this.lastPlan) ? this.lastPlan : this.plans[0]?.name;
    return html`<h1>Start a round of <span class="whole">${this.reedLabel}</span></h1>
      <ul>
        ${this.plans.map(
          (plan) =>
            html`<li>
              <button
                ?data-last=${plan.name === last}
                @click=${() => this.dispatchEvent(new RoundStartEvent(plan))}
              >
                <strong>${plan.name}</strong> <span>${plan.stations.length} places</span>
              </button>
            </li>`,
        )}
      </ul>
      <p><a href=${hrefOf({ at: 'grids' })}>Change the rounds and their stations</a></p>
      <slot></slot>
      <bench-caution about="ball"></bench-caution>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-round-start': RoundStart;
  }
}
