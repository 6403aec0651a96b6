import { css, html, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { BenchElement } from '../theme/bench-element.ts';

const SIZE = 56;
const RADIUS = 22;
const STEP = Math.PI / 12;
const TURN = 2 * Math.PI;

/** The light over a relief was turned. */
export class LightTurnEvent extends Event {
  readonly angle: number;
  constructor(angle: number) {
    super('bench-light-turn');
    this.angle = angle;
  }
}

const QUARTERS = ['right', 'upper right', 'top', 'upper left', 'left', 'lower left', 'bottom', 'lower right'];
/** Where a light comes from, in words. */
export const lightWords = (angle: number): string =>
  `from the ${QUARTERS[Math.round((((angle % TURN) + TURN) % TURN) / (TURN / 8)) % 8]!}`;

/**
 * A dial on which the light over a relief is turned, by hand or by the arrow keys.
 *
 * @event bench-light-turn - The light comes from `angle` now, rad, 0 from the right, counter-clockwise.
 */
@customElement('bench-light-dial')
export class LightDial extends BenchElement {
  static override styles = css`
    :host {
      display: inline-block;
    }
    svg {
      display: block;
      touch-action: none;
      cursor: pointer;
    }
    circle.ring {
      fill: none;
      stroke: var(--bench-rule2);
    }
    path {
      stroke: var(--bench-ink3);
    }
    circle.light {
      fill: var(--bench-ink);
    }
  `;

  /** Where the light comes from, rad: 0 from the right, counter-clockwise. */
  @property({ type: Number }) angle = 0;

  private turn(angle: number) {
    this.dispatchEvent(new LightTurnEvent(((angle % TURN) + TURN) % TURN));
  }

  private handleKey(event: KeyboardEvent) {
    const way = { ArrowLeft: 1, ArrowUp: 1, ArrowRight: -1, ArrowDown: -1 }[event.key];
    if (way === undefined) return;
    event.preventDefault();
    this.turn(this.angle + way * STEP);
  }

  private handlePointer(event: PointerEvent) {
    if (event.type === 'pointerdown') (event.currentTarget as Element).setPointerCapture(event.pointerId);
    if (event.buttons === 0) return;
    const { left, top, width, height } = (event.currentTarget as Element).getBoundingClientRect();
    this.turn(Math.atan2(top + height / 2 - event.clientY, event.clientX - left - width / 2));
  }

  override render() {
    const [x, y] = [RADIUS * Math.cos(this.angle), -RADIUS * Math.sin(this.angle)];
    const ticks = Array.from({ length: 12 }, (_, k) => {
      const [c, s] = [Math.cos((k * TURN) / 12), Math.sin((k * TURN) / 12)];
      return `M${20 * c} ${20 * s}L${24 * c} ${24 * s}`;
    }).join('');
    return html`<svg
      width=${SIZE}
      height=${SIZE}
      viewBox="-28 -28 56 56"
      role="slider"
      tabindex="0"
      aria-label="Light"
      aria-valuemin="0"
      aria-valuemax="360"
      aria-valuenow=${Math.round((this.angle * 360) / TURN)}
      aria-valuetext=${lightWords(this.angle)}
      @keydown=${this.handleKey}
      @pointerdown=${this.handlePointer}
      @pointermove=${this.handlePointer}
    >
      ${svg`<circle class="ring" r=${RADIUS} /><path d=${ticks} /><path d=${`M0 0L${x} ${y}`} /><circle class="light" cx=${x} cy=${y} r="5" />`}
    </svg>`;
  }
}
