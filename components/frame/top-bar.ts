import { css, html, nothing } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import type { ThicknessUnit } from '../../shared/units.ts';
import { UNIT_WORDS } from '../../src/words/format.ts';
import type { Keeping } from '../store/library-store.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './graduations.ts';
import { hrefOf, PLACE_WORDS, PLACES, type Place, type Route } from './routes.ts';

const MORE_FROM: Place = 'gauge';

/**
 * The bar over everything: the five places, how the keeping stands, Bring in, Setup and the unit. Ends in graduations.
 *
 * @event bench-unit-step - The next unit of thickness is wanted.
 */
@customElement('bench-top-bar')
export class TopBar extends BenchElement {
  static override styles = [
    controls,
    css`
      .bar {
        display: flex;
        align-items: stretch;
        gap: var(--bench-space-5);
        min-height: 48px;
        padding: 0 var(--bench-page-margin);
        white-space: nowrap;
      }
      .name {
        align-self: center;
        font: 700 calc(18.5px * var(--bench-scale)) / 1 var(--bench-serif);
        letter-spacing: 0.02em;
      }
      nav,
      .right {
        display: flex;
        gap: var(--bench-space-5);
      }
      .right {
        flex: 1;
        gap: var(--bench-space-4);
        align-items: center;
        justify-content: flex-end;
      }
      a {
        display: inline-flex;
        align-items: center;
        color: var(--bench-ink2);
        text-decoration: none;
      }
      nav a {
        margin-top: 3px;
        border-bottom: 3px solid transparent;
      }
      nav a[aria-current] {
        border-bottom-color: var(--bench-ink);
        color: var(--bench-ink);
        font-weight: 600;
      }
      .right a {
        min-height: var(--bench-touch);
        text-decoration: underline;
        text-underline-offset: 3px;
      }
      .keeping,
      .right a,
      .unit {
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      /* As high as a finger for the hand, as high as its words for the eye. */
      .unit {
        position: relative;
        border-color: transparent;
        color: var(--bench-ink);
      }
      .unit::before {
        position: absolute;
        inset: 5px 0;
        border: 1px solid var(--bench-rule2);
        border-radius: var(--bench-radius-control);
        content: '';
      }
      .more {
        display: none;
        position: relative;
        align-self: center;
      }
      .more > div {
        position: absolute;
        z-index: 2;
        right: 0;
        display: grid;
        gap: var(--bench-space-2);
        padding: var(--bench-space-3) var(--bench-space-4);
        border: 1px solid var(--bench-rule2);
        border-radius: var(--bench-radius-button);
        background: var(--bench-plate);
      }
      .more > div a {
        min-height: var(--bench-touch);
      }
      summary {
        display: flex;
        align-items: center;
        justify-content: flex-end;
        min-width: var(--bench-touch);
        min-height: var(--bench-touch);
        color: var(--bench-ink2);
        list-style: none;
        text-decoration: underline;
        text-underline-offset: 3px;
      }
      @media (forced-colors: active) {
        nav a:not([aria-current]) {
          border-bottom-color: Canvas;
        }
      }
      @media (max-width: 1100px) {
        .bar,
        nav {
          gap: var(--bench-space-4);
        }
      }
      @media (max-width: 860px) {
        .right {
          display: none;
        }
        .more {
          display: block;
          margin-left: auto;
        }
      }
      @media (max-width: 560px) {
        nav a[data-late] {
          display: none;
        }
      }
      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  @query('details') private readonly more!: HTMLDetailsElement | null;

  /** The place that is open, or another screen. */
  @property() at: Route['at'] = 'case';
  @property({ attribute: false }) keeping: Keeping = { state: 'opening' };
  @property() unit: ThicknessUnit = 'hundredths';

  private get kept(): string {
    const { keeping } = this;
    if (keeping.state === 'opening') return 'Opening';
    if (keeping.state === 'keeping') return 'Keeping';
    if (keeping.state !== 'kept') return 'Not kept';
    const time = keeping.at.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
    return keeping.once ? `Kept once only, ${time}` : `All kept, ${time}`;
  }

  /** Said aloud when it begins. */
  private get trouble(): string {
    const { keeping } = this;
    if (keeping.state === 'trouble') return 'Not kept';
    return keeping.state === 'kept' && keeping.once ? 'Kept once only' : '';
  }

  private handleUnit() {
    this.dispatchEvent(new Event('bench-unit-step'));
  }

  private closeMore() {
    if (this.more) this.more.open = false;
  }

  override render() {
    return html`<div class="bar">
        <span class="name">Hundredths</span>
        <nav aria-label="Places">${PLACES.map((place) => this.renderPlace(place))}</nav>
        <div class="right">
          <span class="keeping">${this.kept}</span>
          ${this.renderLinks()} ${this.renderUnit()}
        </div>
        <details class="more" @click=${this.handleMore}>
          <summary>More</summary>
          <div>
            ${PLACES.slice(PLACES.indexOf(MORE_FROM)).map((place) => this.renderPlace(place))}
            ${this.renderLinks()} ${this.renderUnit()}
            <span class="keeping">${this.kept}</span>
          </div>
        </details>
      </div>
      <bench-graduations></bench-graduations>
      <span class="said" role="status">${this.trouble}</span>`;
  }

  private handleMore(event: Event) {
    if (event.composedPath().some((node) => node instanceof HTMLAnchorElement)) this.closeMore();
  }

  private renderPlace(place: Place) {
    const route: Route = place === 'bench' ? { at: 'bench', question: 'there' } : { at: place };
    const isLate = PLACES.indexOf(place) >= PLACES.indexOf(MORE_FROM);
    return html`<a
      href=${hrefOf(route)}
      ?data-late=${isLate}
      aria-current=${this.at === place ? 'page' : nothing}
      >${PLACE_WORDS[place]}</a
    >`;
  }

  private renderLinks() {
    return html`<a href=${hrefOf({ at: 'bring-in' })}>Bring in</a
      ><a href=${hrefOf({ at: 'setup' })}>Setup</a>`;
  }

  private renderUnit() {
    return html`<button
      class="unit"
      aria-label=${`Unit: ${UNIT_WORDS[this.unit].name}. Change it`}
      @click=${this.handleUnit}
    >
      ${UNIT_WORDS[this.unit].name}
    </button>`;
  }
}
