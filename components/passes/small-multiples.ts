import { css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import '../map/blade-map.ts';
import type { BladeMapData } from '../map/map-data.ts';
import type { Quantity } from '../theme/ramp.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** One small picture: a pass of a reed, or a reed. */
export interface Multiple {
  readonly id: string;
  readonly title: string;
  /** A line or two under the title. */
  readonly notes: readonly string[];
  readonly data: BladeMapData;
}

/** A small picture was chosen. */
export class MultipleChooseEvent extends Event {
  readonly id: string;

  constructor(id: string) {
    super('bench-multiple-choose');
    this.id = id;
  }
}

/**
 * Many blades at one scale, to see a history or a case at a glance: passes of a reed, or reeds beside each other.
 *
 * @event bench-multiple-choose - One of them was clicked or entered.
 */
@customElement('bench-small-multiples')
export class SmallMultiples extends BenchElement {
  static override styles = css`
    ul {
      display: grid;
      grid-template-columns: repeat(auto-fill, minmax(68px, 1fr));
      gap: var(--bench-space-2);
      margin: 0;
      padding: 0;
      list-style: none;
    }
    button {
      display: block;
      width: 100%;
      padding: var(--bench-space-2);
      border: 0;
      border-radius: var(--bench-radius-control);
      background: none;
      color: var(--bench-ink2);
      font: var(--bench-font-caption);
      cursor: pointer;
    }
    button[aria-current='true'] {
      background: var(--bench-sunk);
    }
    .title {
      display: block;
      color: var(--bench-ink);
      font: var(--bench-font-aside);
      white-space: nowrap;
    }
    .note {
      display: block;
    }
    @media (forced-colors: active) {
      button[aria-current='true'] {
        border: 2px solid Highlight;
      }
    }
  `;

  @property({ attribute: false }) items: readonly Multiple[] = [];
  @property() quantity: Quantity = 'thickness';
  /** Id of the one that is shown elsewhere. */
  @property() current = '';

  override render() {
    const longest = Math.max(0, ...this.items.map(({ data }) => data.bladeLengthMm));
    return html`<ul>
      ${this.items.map(
        ({ id, title, notes, data }) =>
          html`<li>
            <button
              aria-current=${id === this.current ? 'true' : 'false'}
              @click=${() => this.dispatchEvent(new MultipleChooseEvent(id))}
            >
              <bench-blade-map
                plain
                aria-hidden="true"
                .data=${data}
                .quantity=${this.quantity}
                .lengthMm=${longest}
              >
              </bench-blade-map>
              <span class="title" part="words">${title}</span>
              ${notes.map((note) => html`<span class="note" part="words">${note}</span>`)}
            </button>
          </li>`,
      )}
    </ul>`;
  }
}

declare global {
  interface HTMLElementEventMap {
    'bench-multiple-choose': MultipleChooseEvent;
  }
}
