import { css, html, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Remedy } from '../../shared/remedy.ts';
import { sentence } from '../../src/words/figure-words.ts';
import { sayFault, sayReadAgain, sayRemedy } from '../../src/answers/fault-words.ts';
import type { Fault, PassFaults } from '../../src/faults/fault.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { FaultRemedyEvent, FaultTakeBackEvent } from './fault-events.ts';

/** What is the same fault while the pass is not read anew. */
const keyOf = (index: number, { kind, blade, valueMm, place }: Fault) =>
  JSON.stringify([index, kind, blade, valueMm, place]);

/**
 * What the readings of a pass show to be wrong, each with the one act that puts it right, and the acts that were taken.
 * Nothing is put right before the maker says so.
 *
 * @event bench-fault-remedy - The maker takes a remedy.
 * @event bench-fault-take-back - The maker takes back a remedy that was taken before.
 */
@customElement('bench-fault-notice')
export class FaultNotice extends BenchElement {
  static override styles = [
    controls,
    css`
      section {
        margin: var(--bench-space-4) var(--bench-page-margin) 0;
        border: 1px solid var(--bench-rule);
        border-radius: var(--bench-radius-button);
        background: var(--bench-plate);
      }
      h2 {
        position: absolute;
        overflow: hidden;
        width: 1px;
        height: 1px;
        clip-path: inset(50%);
      }
      ul {
        margin: 0;
        padding: 0;
        list-style: none;
      }
      li {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-2) var(--bench-space-5);
        align-items: center;
        justify-content: space-between;
        padding: var(--bench-space-3) var(--bench-space-4);
      }
      li + li {
        border-top: 1px solid var(--bench-rule);
      }
      p {
        flex: 1 1 24em;
        max-width: 46em;
        margin: 0;
        font: var(--bench-font-aside);
        text-wrap: pretty;
      }
      p small {
        display: block;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      .acts {
        display: flex;
        gap: var(--bench-space-3);
      }
    `,
  ];

  /** What was found in the shown pass. */
  @property({ attribute: false }) found: PassFaults | undefined;
  /** Remedies that the pass already has. */
  @property({ attribute: false }) remedies: readonly Remedy[] = [];
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  /** Faults that the maker wants as read; until the page is opened again. */
  @state() private asRead: ReadonlySet<string> = new Set();

  /** Until the reed is fitted anew, a fault that was just put right is still among those found. */
  private isTaken({ remedy }: Fault): boolean {
    return this.remedies.some((taken) => JSON.stringify(taken) === JSON.stringify(remedy));
  }

  private handleAsRead(key: string) {
    this.asRead = new Set([...this.asRead, key]);
  }

  override render() {
    const { found, writing } = this;
    const open = (found?.faults ?? []).filter(
      (fault) => !this.asRead.has(keyOf(found!.index, fault)) && !this.isTaken(fault),
    );
    const again = found?.readAgain ?? [];
    const lines = [
      ...open.map((fault) => this.renderFault(fault)),
      ...again.map((place) => html`<li><p>${sayReadAgain(place, writing)}</p></li>`),
      ...this.remedies.map((remedy, at) => this.renderTaken(remedy, at)),
    ];
    if (lines.length === 0) return nothing;
    return html`<section aria-labelledby="head">
      <h2 id="head">The readings of this pass</h2>
      <ul role="list">
        ${lines}
      </ul>
    </section>`;
  }

  private renderFault(fault: Fault): TemplateResult {
    const { remedy } = fault;
    const say = sayFault(fault, this.writing);
    return html`<li>
      <p>
        ${say}${remedy ? html` <small>If you use this, ${sayRemedy(remedy, this.writing)}.</small>` : nothing}
      </p>
      <div class="acts">
        ${
          remedy
            ? html`<button
                aria-label=${`Use this: ${sayRemedy(remedy, this.writing)}`}
                @click=${() => this.dispatchEvent(new FaultRemedyEvent(remedy))}
              >
                Use this
              </button>`
            : nothing
        }
        <button
          aria-label=${`As read: ${say}`}
          @click=${() => this.handleAsRead(keyOf(this.found!.index, fault))}
        >
          As read
        </button>
      </div>
    </li>`;
  }

  private renderTaken(remedy: Remedy, at: number): TemplateResult {
    const say = sayRemedy(remedy, this.writing);
    return html`<li>
      <p>Put right in this pass: ${say}.<small>The readings themselves stay as they were typed.</small></p>
      <div class="acts">
        <button
          aria-label=${`As read: without ${sentence(say)}`}
          @click=${() => this.dispatchEvent(new FaultTakeBackEvent(at))}
        >
          As read
        </button>
      </div>
    </li>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-fault-notice': FaultNotice;
  }
}
