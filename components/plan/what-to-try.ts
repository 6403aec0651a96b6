import { css, html, nothing, type PropertyValues } from 'lit';
import '../caution/caution.ts';
import { customElement, property, state } from 'lit/decorators.js';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import { ownHabits, whoSays } from '../../src/plan/own-habits.ts';
import { habitsFor, sayOrder, seeReed, type HabitShown, type ReedSeen } from '../../src/plan/signs.ts';
import type { Target } from '../../src/plan/target.ts';
import { hrefOf } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { forms } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** From what is heard to what the maker's own table says of it, and to what this reed's figures show there. */
@customElement('bench-what-to-try')
export class WhatToTry extends BenchElement {
  static override styles = [
    controls,
    forms,
    css`
      p,
      ul {
        margin: var(--bench-space-2) 0 0;
      }
      ul {
        padding-left: var(--bench-space-4);
      }
      li.speaks {
        font-weight: 600;
      }
      .note {
        color: var(--bench-ink3);
        font: var(--bench-font-caption);
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  private seen: ReedSeen | undefined;

  @property({ attribute: false }) benched: FittedReed | undefined;
  /** Place of the pass. */
  @property({ type: Number }) pass = 0;
  /** What the reed is brought to, if anything. */
  @property({ attribute: false }) target: Target | undefined;
  @state() private heard = '';
  @state() private open = false;

  override willUpdate(changed: PropertyValues) {
    if (changed.has('benched') || changed.has('pass') || changed.has('target')) this.seen = undefined;
    const { benched, pass, target } = this;
    if (this.open && benched?.model) this.seen ??= seeReed({ benched, pass }, target);
  }

  private handleToggle(event: Event) {
    this.open = (event.currentTarget as HTMLDetailsElement).open;
  }

  private get rows(): HabitShown[] {
    const { store, writing } = this.library;
    return habitsFor(ownHabits(store?.snapshot.live.habit ?? []), this.seen ?? { zones: [] }, writing);
  }

  override render() {
    return html`<details @toggle=${this.handleToggle}>
      <summary>What to try when something is heard</summary>
      ${this.open ? this.renderTable(this.rows) : nothing}
    </details>`;
  }

  private renderTable(rows: readonly HabitShown[]) {
    const row = rows.find(({ habit: { key } }) => key === this.heard);
    return html`<label
        >What is heard
        <select @change=${(event: Event) => (this.heard = (event.target as HTMLSelectElement).value)}>
          <option value="">choose</option>
          ${this.renderGroup(
            'The figures show something there',
            rows.filter(({ speaks }) => speaks),
          )}
          ${this.renderGroup(
            'The figures show nothing sure there',
            rows.filter(({ speaks }) => !speaks),
          )}
        </select></label
      >
      <p class="note">${sayOrder(rows)}</p>
      <div role="status">${row ? this.renderRow(row) : nothing}</div>
      <bench-caution about="paper tying"></bench-caution>
      <p><a href=${hrefOf({ at: 'practice' })}>Change floors and what to try</a></p>`;
  }

  private renderGroup(label: string, rows: readonly HabitShown[]) {
    if (rows.length === 0) return nothing;
    return html`<optgroup label=${label}>
      ${rows.map(
        ({ habit: { key, symptom } }) =>
          html`<option value=${key} ?selected=${key === this.heard}>${symptom}</option>`,
      )}
    </optgroup>`;
  }

  private renderRow({ habit, shown }: HabitShown) {
    const { lookAt, action, risk, contested } = habit;
    const where = this.benched?.reed.styleId === 'short-scrape' ? habit.shortScrape : habit.longScrape;
    return html`<p>
        Look at ${lookAt}. ${where ? `Often: ${where}. ` : ''}Try: ${action}. ${risk ? `Mind: ${risk}.` : ''}
        ${contested ? 'Schools differ on it.' : ''} ${whoSays(habit)}
      </p>
      ${
        shown.length === 0
          ? html`<p>No figure of this reed speaks of it.</p>`
          : html`<p>On this reed:</p>
              <ul>
                ${shown.map(({ words, speaks }) => html`<li class=${speaks ? 'speaks' : ''}>${words}</li>`)}
              </ul>`
      }`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-what-to-try': WhatToTry;
  }
}
