import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { NOTHING_TO_TAKE, type SaidStep } from '../../src/plan/say-step.ts';
import { unbroken } from '../bench/question-element.ts';
import { stepStyles } from '../bench/question.styles.ts';
import { hrefOf } from '../frame/routes.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

/**
 * The one framed step of a plan: where, how much of how much, with how many strokes, and what then.
 *
 * @event bench-plan-keep - It is taken up.
 * @event bench-plan-other - Another one is wanted.
 */
@customElement('bench-plan-step')
export class PlanStep extends BenchElement {
  static override styles = [
    controls,
    stepStyles,
    css`
      .say {
        font: var(--bench-font-say);
      }
      .note {
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
      }
      .acts {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-2);
      }
    `,
  ];

  /** Absent when there is nothing measurable to take. */
  @property({ attribute: false }) said: SaidStep | undefined;
  /** How many other steps there are. */
  @property({ attribute: false }) others = 0;
  /** A plan was taken up from this pass. */
  @property({ attribute: false }) kept = false;
  @property({ attribute: false }) reedId = '';

  override render() {
    const { said } = this;
    if (!said) return html`<p class="say">${NOTHING_TO_TAKE}</p>`;
    return html`<section class="step" aria-label="The next step">
      <p class="note">Next, and only this</p>
      <p class="say">${said.where}</p>
      <p class="take">Take <b>${said.take}</b> <span>${unbroken(said.of)}</span></p>
      <p>${said.strokes} ${said.after}</p>
      <div class="acts">
        <button @click=${() => this.dispatchEvent(new Event('bench-plan-keep'))}>
          ${this.kept ? 'Take up this one instead' : 'Take up this plan'}
        </button>
        ${
          this.others > 0
            ? html`<button @click=${() => this.dispatchEvent(new Event('bench-plan-other'))}>
                Not this
              </button>`
            : nothing
        }
      </div>
      <p class="note" role="status">
        ${
          this.kept
            ? html`Kept. Scrape, then
                <a href=${hrefOf({ at: 'round', reedId: this.reedId })}>read the places again</a>: the next
                pass shows here beside what was meant.`
            : nothing
        }
      </p>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-plan-step': PlanStep;
  }
}
