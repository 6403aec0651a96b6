import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { GaugeCount } from '../../src/round/gauge-count.ts';
import { readingText } from '../../src/round/reading-text.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { typedReading } from '../../src/round/typed-reading.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { GaugeStudyEvent } from './gauge-events.ts';
import { gaugeStyles } from './gauge.styles.ts';

/** Two minutes' work: five readings at each of four places. Common practice, no source. */
const PLACES = ['A, 7 mm, middle', 'A, 3 mm, middle', 'A, 12 mm, left', 'B, 7 mm, middle'] as const;
const REPEATS = 5;

/**
 * A guided study of the gauge's own scatter: the same places read again and again, the reed lifted between.
 *
 * @event bench-gauge-study - All places were read.
 */
@customElement('bench-repeat-study')
export class RepeatStudy extends BenchElement {
  static override styles = [controls, gaugeStyles];

  @query('input') private readonly input!: HTMLInputElement | null;
  @state() private readings: readonly number[] | undefined;
  @state() private problem = '';

  @property() count: GaugeCount = 'hundredths';
  @property() decimal: NumberFormat['decimal'] = 'point';

  private async handleStart() {
    this.readings = [];
    await this.updateComplete;
    this.input?.focus();
  }

  private handleReading(event: Event) {
    event.preventDefault();
    const { input, readings } = this;
    if (!input || !readings) return;
    const typed = typedReading(input.value, this.count, this.decimal);
    this.problem = typed.kind === 'unclear' ? typed.why : '';
    input.value = '';
    if (typed.kind !== 'reading') return;
    const all = [...readings, typed.thicknessMm];
    this.readings = all.length < PLACES.length * REPEATS ? all : undefined;
    if (this.readings) return;
    const stations = PLACES.map((_, i) => all.slice(i * REPEATS, (i + 1) * REPEATS));
    this.dispatchEvent(new GaugeStudyEvent(stations));
  }

  private handleBack() {
    this.readings = this.readings?.slice(0, -1);
    this.input?.focus();
  }

  override render() {
    const { readings } = this;
    return html`<div class="over">
        <h2>
          Repeat study
          <small>two minutes: four places, five times each; lift the reed off the tongue between</small>
        </h2>
        ${readings ? nothing : html`<button @click=${this.handleStart}>Start</button>`}
      </div>
      ${readings ? this.renderStudy(readings) : nothing}`;
  }

  private renderStudy(readings: readonly number[]) {
    const place = Math.floor(readings.length / REPEATS);
    const done = readings.slice(place * REPEATS).map((mm) => readingText(mm, this));
    return html`<p class="say" aria-live="polite">
        ${PLACES[place]}: reading ${done.length + 1} of ${REPEATS}. Lift and set down again.
      </p>
      <form class="row" @submit=${this.handleReading}>
        <label>The gauge shows <input inputmode="decimal" enterkeyhint="next" autocomplete="off" /></label>
        <button>Take</button>
        ${readings.length > 0 ? html`<button type="button" @click=${this.handleBack}>Back one</button>` : nothing}
      </form>
      <p class="problem" role="status">${this.problem}</p>
      <p class="quiet">${done.join(', ')}</p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-repeat-study': RepeatStudy;
  }
}
