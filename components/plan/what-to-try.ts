import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { ownHabits } from '../../src/plan/own-habits.ts';
import { hrefOf } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { forms } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';

/** From what is heard to what the maker's own table says of it. */
@customElement('bench-what-to-try')
export class WhatToTry extends LitElement {
  static override styles = [
    base,
    controls,
    forms,
    css`
      p {
        margin: var(--bench-space-2) 0 0;
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  @property({ attribute: 'style-id' }) styleId = 'long-scrape';
  @state() private heard = '';

  override render() {
    const rows = ownHabits(this.library.store?.snapshot.live.habit ?? []).filter(({ off }) => !off);
    const row = rows.find(({ key }) => key === this.heard);
    const where = this.styleId === 'short-scrape' ? row?.shortScrape : row?.longScrape;
    return html`<label
        >What is heard
        <select @change=${(event: Event) => (this.heard = (event.target as HTMLSelectElement).value)}>
          <option value="">choose</option>
          ${rows.map(({ key, symptom }) => html`<option value=${key} ?selected=${key === this.heard}>${symptom}</option>`)}
        </select></label
      >
      ${
        row
          ? html`<p role="status">
              Look at ${row.lookAt}. ${where ? `Often: ${where}. ` : ''}Try: ${row.action}.
              ${row.risk ? `Mind: ${row.risk}.` : ''} ${row.contested ? 'Schools differ on it.' : ''}
              ${row.own ? 'Your own practice.' : 'Common practice, no source.'}
            </p>`
          : nothing
      }
      <p><a href=${hrefOf({ at: 'practice' })}>Change floors and what to try</a></p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-what-to-try': WhatToTry;
  }
}
