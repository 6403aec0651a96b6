import { css, html } from 'lit';
import { customElement } from 'lit/decorators.js';
import { BenchElement } from '../theme/bench-element.ts';
import './own-floors.ts';
import './own-habits.ts';
import './own-zones.ts';

/** What the maker goes by: zones, the floors that no plan goes under, and what is tried when something is heard. */
@customElement('bench-practice')
export class PracticePage extends BenchElement {
  static override styles = css`
    :host {
      display: grid;
      grid-template-columns: minmax(0, 2fr) minmax(0, 3fr);
      gap: var(--bench-space-6);
      align-items: start;
      padding: var(--bench-space-5) var(--bench-page-margin) var(--bench-space-7);
    }
    h1,
    .whole {
      grid-column: 1 / -1;
    }
    h1 {
      margin: 0;
      font: var(--bench-font-say);
    }
    h2 {
      margin: 0 0 var(--bench-space-3);
      font: var(--bench-font-head);
    }
    @media (max-width: 900px) {
      :host {
        grid-template-columns: minmax(0, 1fr);
      }
    }
  `;

  override render() {
    return html`<h1>Zones, floors and habits</h1>
      <section class="whole">
        <h2>Zones</h2>
        <bench-own-zones></bench-own-zones>
      </section>
      <section>
        <h2>Floors</h2>
        <bench-own-floors></bench-own-floors>
      </section>
      <section>
        <h2>What is heard, and what to try</h2>
        <bench-own-habits></bench-own-habits>
      </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-practice': PracticePage;
  }
}
