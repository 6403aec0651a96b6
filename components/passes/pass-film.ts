import { css, html, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ThicknessUnit } from '../../shared/units.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import '../map/blade-pair.ts';
import type { BladeMapData } from '../map/map-data.ts';
import { controls } from '../theme/base.styles.ts';
import type { Quantity } from '../theme/ramp.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** One picture of the film. */
export interface FilmFrame {
  /** What it shows, for example `Pass 2 less pass 3`. */
  readonly title: string;
  readonly a?: BladeMapData;
  readonly b?: BladeMapData;
}

const FRAME_MS = 900;

/** A reed through all its passes: a slider, and a button that lets it run once through. */
@customElement('bench-pass-film')
export class PassFilm extends BenchElement {
  static override styles = [
    controls,
    css`
      button {
        white-space: nowrap;
      }
      .reel {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-3);
        align-items: center;
        margin-bottom: var(--bench-space-2);
      }
      input {
        flex: 1;
        min-width: 0;
        min-height: var(--bench-touch);
        accent-color: var(--bench-ink);
      }
      output {
        min-width: 9em;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
    `,
  ];

  private timer: ReturnType<typeof setInterval> | undefined;

  @state() private shown = 0;
  @state() private isRunning = false;

  @property({ attribute: false }) frames: readonly FilmFrame[] = [];
  @property() quantity: Quantity = 'thickness';
  @property() unit: ThicknessUnit = 'hundredths';
  @property() decimal: NumberFormat['decimal'] = 'point';

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.stop();
  }

  override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('frames')) this.shown = Math.max(0, Math.min(this.shown, this.frames.length - 1));
  }

  private stop() {
    clearInterval(this.timer);
    this.isRunning = false;
  }

  private handleRun() {
    if (this.isRunning) {
      this.stop();
      return;
    }
    this.shown = 0;
    this.isRunning = true;
    this.timer = setInterval(() => {
      if (this.shown < this.frames.length - 1) this.shown++;
      if (this.shown === this.frames.length - 1) this.stop();
    }, FRAME_MS);
  }

  private handleSlide(event: Event) {
    this.stop();
    this.shown = (event.target as HTMLInputElement).valueAsNumber;
  }

  override render() {
    const frame = this.frames[this.shown];
    if (!frame) return html`<p>One pass so far. The next one shows here.</p>`;
    return html`<div class="reel">
        <button @click=${this.handleRun}>${this.isRunning ? 'Stop' : 'Run through'}</button>
        <input
          type="range"
          aria-label="Pass"
          aria-valuetext=${frame.title}
          min="0"
          max=${this.frames.length - 1}
          step="1"
          .value=${String(this.shown)}
          @input=${this.handleSlide}
        />
        <output>${frame.title}</output>
      </div>
      <bench-blade-pair
        .a=${frame.a}
        .b=${frame.b}
        .quantity=${this.quantity}
        .unit=${this.unit}
        .decimal=${this.decimal}
        caption=${`${frame.title}.`}
      ></bench-blade-pair>`;
  }
}
