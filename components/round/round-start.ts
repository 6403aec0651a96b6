import { css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { OfferedPlan } from '../../src/round/own-plans.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import '../caution/caution.ts';
import { hrefOf } from '../frame/routes.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { RoundStartEvent } from './round-start-event.ts';
import './short-start.ts';
import { SHORT_ROUND, type OfferedShort } from './short-start.ts';

/**
 * Choice of the plan for a new round; the keyboard stands on the one used last, so that Enter begins.
 *
 * @event bench-round-start - Carries the plan.
 * @slot - What may be written about the pass beforehand.
 */
@customElement('bench-round-start')
export class RoundStart extends BenchElement {
  static override styles = [
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
      p {
        margin: 0 0 var(--bench-space-4);
      }
      /* What is written beforehand stands beside the choice. */
      @media (min-width: 1000px) {
        :host {
          display: grid;
          grid-template-columns: minmax(0, 2fr) minmax(0, 3fr);
          grid-template-rows: auto auto auto 1fr;
          gap: 0 var(--bench-space-7);
          max-width: 1280px;
        }
        h1,
        .plans {
          grid-column: 1;
        }
        .about {
          grid-row: 2 / span 3;
          grid-column: 2;
        }
        button {
          min-height: 64px;
        }
      }
    `,
  ];

  @property({ attribute: 'reed-label' }) reedLabel = '';
  @property({ attribute: false }) plans: readonly OfferedPlan[] = [];
  /** What a short round may be asked; absent where none can be. */
  @property({ attribute: false }) short: OfferedShort | undefined;
  /** What it may be asked is not known yet. */
  @property({ attribute: 'working-out', type: Boolean }) isWorkingOut = false;
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };
  /** Name of the plan used last. */
  @property({ attribute: 'last-plan' }) lastPlan = '';

  override firstUpdated() {
    this.renderRoot.querySelector<HTMLElement>('[data-last]')?.focus();
  }

  override render() {
    const last = this.plans.some(({ name }) => name === this.lastPlan) ? this.lastPlan : this.plans[0]?.name;
    return html`<h1>Start a round of <span class="whole">${this.reedLabel}</span></h1>
      <ul class="plans">
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
      <div>
        ${
          this.isWorkingOut
            ? html`<p role="status">Working out what your other reeds tell, for a short round.</p>`
            : this.short &&
              html`<bench-short-start
                ?data-last=${this.lastPlan === SHORT_ROUND}
                .offered=${this.short}
                .writing=${this.writing}
              ></bench-short-start>`
        }
        <p><a href=${hrefOf({ at: 'grids' })}>Change the rounds and their stations</a></p>
      </div>
      <div class="about"><slot></slot></div>
      <bench-caution about="ball"></bench-caution>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-round-start': RoundStart;
  }
}
