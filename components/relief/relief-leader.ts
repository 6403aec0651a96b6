import { css, html, nothing, svg } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import type { Print } from '../map/prints.ts';
import { held } from '../scene/motion.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** Where a place stands on the picture, CSS pixels, and whether it faces the reader: above 0. */
export interface Led {
  readonly left: number;
  readonly top: number;
  readonly facing: number;
}

/** How wide the words are, and how far they keep from the edge, CSS pixels. */
const WORDS = { width: 86, onStaple: 250, apart: 4 };
/** The button in the upper right corner is left free, CSS pixels. */
const UNDER_BUTTON = 50;
/** The line ends before the ring round the place. */
const SHORT = 9;

/** What stands at a picked place, in a free corner of the picture, with a line that leads to it. */
@customElement('bench-relief-leader')
export class ReliefLeader extends BenchElement {
  static override styles = css`
    :host {
      position: absolute;
      inset: 0;
      overflow: hidden;
      pointer-events: none;
    }
    svg {
      position: absolute;
      width: 100%;
      height: 100%;
      fill: none;
    }
    .halo {
      stroke: var(--bench-plate);
      stroke-width: 4;
    }
    .line {
      stroke: var(--bench-ink);
      stroke-width: 1.2;
    }
    p {
      position: absolute;
      margin: 0;
      color: var(--bench-ink);
      font: var(--bench-font-caption);
    }
    .right {
      text-align: right;
    }
  `;

  @query('p') private readonly said!: HTMLElement | null;

  /** What stands there, in words. */
  @property() text = '';
  @property({ attribute: false }) at: Led | undefined;
  @property() stance: Print = 'opened';

  /** The reed on its staple leaves the lower left free; opened it leaves both sides. */
  private get words(): { readonly left: number; readonly top: number; readonly width: number } {
    const { clientWidth: width, clientHeight: height, at, stance } = this;
    if (stance === 'staple') return { left: WORDS.apart, top: height * 0.72, width: WORDS.onStaple };
    const isRight = (at?.left ?? 0) > width / 2;
    const top = held((at?.top ?? 0) - 40, isRight ? UNDER_BUTTON : 0, height - 130);
    return { left: isRight ? width - WORDS.width - WORDS.apart : WORDS.apart, top, width: WORDS.width };
  }

  override render() {
    const { at, text } = this;
    if (!at || !text) return nothing;
    const { left, top, width } = this.words;
    const isRight = left > this.clientWidth / 2;
    const from = { x: isRight ? left - 4 : left + Math.min(width, 90), y: top - 4 };
    const [dx, dy] = [at.left - from.x, at.top - from.y];
    const share = Math.max(0, 1 - SHORT / (Math.hypot(dx, dy) || 1));
    const d = `M${from.x} ${from.y}L${from.x + share * dx} ${from.y + share * dy}`;
    return html`${
        at.facing > 0
          ? html`<svg aria-hidden="true">
              ${svg`<path class="halo" d=${d}></path><path class="line" d=${d}></path>`}
            </svg>`
          : nothing
      }
      <p class=${isRight ? 'right' : ''} aria-hidden="true">${text}</p>`;
  }

  override updated() {
    for (const [side, px] of Object.entries(this.words)) this.said?.style.setProperty(side, `${px}px`);
  }
}
