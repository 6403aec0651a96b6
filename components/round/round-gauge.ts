import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { GaugeCount } from '../../src/round/gauge-count.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { readingText } from '../../src/round/reading-text.ts';
import type { GaugeNews, GaugeSource } from '../gauge/gauge-source.ts';
import { HeardGauge } from '../gauge/heard-gauge.ts';
import { SimulatedGauge } from '../gauge/simulated-gauge.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** How often the simulated gauge presses its own button: about as fast as a hand that knows its way. */
const EVERY_MS = 700;

/**
 * The gauge of a round in one line: whether it is heard, what it shows now, and the buttons of a simulated one.
 *
 * @event bench-gauge-simulate - The simulated gauge is wanted.
 */
@customElement('bench-round-gauge')
export class RoundGauge extends BenchElement {
  static override styles = [
    controls,
    css`
      p {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-2) var(--bench-space-4);
        align-items: center;
        margin: 0;
        color: var(--bench-ink2);
      }
    `,
  ];

  protected readonly heard = new HeardGauge(
    this,
    () => this.source,
    () => this.requestUpdate(),
  );

  /** The gauge that is heard. */
  @property({ attribute: false }) source: GaugeSource | undefined;
  /** Offer the simulated gauge where there is no other: its readings are invented. */
  @property({ type: Boolean, attribute: 'can-simulate' }) canSimulate = false;
  @property() count: GaugeCount = 'hundredths';
  @property() decimal: NumberFormat['decimal'] = 'point';

  override render() {
    const { source } = this;
    if (source instanceof SimulatedGauge) return this.renderSimulated(source);
    if (source?.state.is === 'open')
      return html`<p>${this.heard.live ? this.liveWords(this.heard.live) : 'The gauge is heard.'}</p>`;
    if (!this.canSimulate) return nothing;
    return html`<p>
      <button @click=${() => this.dispatchEvent(new Event('bench-gauge-simulate'))}>
        Try a simulated gauge
      </button>
    </p>`;
  }

  private liveWords({ shownMm, lowestMm }: Extract<GaugeNews, { kind: 'live' }>): string {
    const shown = `The gauge shows ${readingText(shownMm, this)}`;
    return lowestMm === undefined ? `${shown}.` : `${shown}, lowest at rest ${readingText(lowestMm, this)}.`;
  }

  private renderSimulated(gauge: SimulatedGauge) {
    const isRunning = gauge.state.is === 'open';
    return html`<p>
      ${gauge.name}
      <button ?disabled=${isRunning} @click=${() => gauge.press()}>Press its button</button>
      <button @click=${() => (isRunning ? gauge.stop() : gauge.run(EVERY_MS))}>
        ${isRunning ? 'Stop it' : 'Let it read'}
      </button>
    </p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-round-gauge': RoundGauge;
  }
}
