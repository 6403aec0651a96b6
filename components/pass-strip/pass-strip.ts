import { html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { BenchElement } from '../theme/bench-element.ts';
import { styles } from './pass-strip.styles.ts';

/** One pass on the strip. */
export interface PassMark {
  readonly index: number;
  readonly href: string;
  /** For example `day 3, clip 0.4`. */
  readonly facts: string;
  /** What was done with the knife. */
  readonly done: string;
  /** What was heard when it was played. */
  readonly heard: string;
  /** The tip was clipped before this pass: two strokes break the line. */
  readonly clipped: boolean;
  /** `after` is the pass shown, `before` the one it is compared with. */
  readonly role?: 'before' | 'after';
}

/** A pass to compare with was chosen with Shift. */
export class PassBeforeEvent extends Event {
  readonly index: number;

  constructor(index: number) {
    super('bench-pass-before');
    this.index = index;
  }
}

const RING = svg`<circle cx="10" cy="9" r="6"></circle>`;
const CHOSEN = svg`<circle class="ring" cx="10" cy="9" r="9"></circle><circle class="dot" cx="10" cy="9" r="6.5"></circle>`;
const CLIP = svg`<path d="M2 16L9 2M8 16L15 2"></path>`;

/**
 * The passes of a reed on one line, each a link: the shown one a filled dot, the one before it a ring. Arrows go along it;
 * with Shift they move the earlier pass.
 *
 * @event bench-pass-before - The earlier of two compared passes was moved here.
 */
@customElement('bench-pass-strip')
export class PassStrip extends BenchElement {
  static override styles = styles;

  @property({ attribute: false }) passes: readonly PassMark[] = [];

  private handleKey(event: KeyboardEvent) {
    const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (step === undefined || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    if (event.shiftKey) this.stepBefore(step);
    else {
      const links = [...this.renderRoot.querySelectorAll('a')];
      const at = links.findIndex((link) => link === this.shadowRoot?.activeElement);
      links[at + step]?.focus();
    }
  }

  private stepBefore(step: number) {
    const before = this.passes.findIndex(({ role }) => role === 'before');
    const after = this.passes.findIndex(({ role }) => role === 'after');
    const moved = this.passes[before + step];
    if (before >= 0 && moved && before + step < after) this.dispatchEvent(new PassBeforeEvent(moved.index));
  }

  override render() {
    return html`<nav aria-label="Passes" @keydown=${this.handleKey}>
      <ol>
        ${this.passes.map((mark) => this.renderPass(mark))}
      </ol>
    </nav>`;
  }

  private renderPass({ index, href, facts, done, heard, clipped, role }: PassMark) {
    return html`<li>
      <a href=${href} data-role=${role ?? nothing} aria-current=${role === 'after' ? 'step' : nothing}>
        ${clipped ? html`<svg class="clip" aria-hidden="true">${CLIP}</svg>` : nothing}
        <svg aria-hidden="true">${role === 'after' ? CHOSEN : RING}</svg>
        <span class="line"><b>Pass ${index}</b> <span class="facts">${facts}</span></span>
        <span class="line done">${done}</span><span class="line heard">${heard}</span>
        ${role === 'before' ? html`<span class="said">compared with</span>` : nothing}
      </a>
    </li>`;
  }
}
