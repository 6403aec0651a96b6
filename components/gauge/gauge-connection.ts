import { html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Connection } from '../../shared/gauge.ts';
import { readingsOfSample, type LineReading } from '../../src/gauge-lines/line-format.ts';
import { base, controls } from '../theme/base.styles.ts';
import { GaugeConnectionEvent, GaugePlugEvent } from './gauge-events.ts';
import { gaugeStyles } from './gauge.styles.ts';
import type { GaugeNews, GaugeSource } from './gauge-source.ts';
import { HeardGauge } from './heard-gauge.ts';
import { SerialGauge } from './serial-gauge.ts';
import { browserSerial, NO_SERIAL, portTrouble, type SerialLike } from './serial-port.ts';

const SPEEDS = [1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200];
const LINES_SHOWN = 6;

/**
 * A gauge on a cable: taught from one sample line, plugged in, and heard.
 *
 * @event bench-gauge-connection - The maker taught a format; to be kept with the gauge.
 * @event bench-gauge-plug - A gauge was plugged in; its owner keeps it, hands it back as `source`, and closes it.
 */
@customElement('bench-gauge-connection')
export class GaugeConnection extends LitElement {
  static override styles = [base, controls, gaugeStyles];

  protected readonly heard = new HeardGauge(
    this,
    () => this.source,
    (news) => this.hear(news),
  );
  @query('[name=sample]') private readonly sample!: HTMLInputElement;
  @query('[name=speed]') private readonly speed!: HTMLSelectElement;
  @query('[name=sends]') private readonly sends!: HTMLSelectElement;
  @state() private offers: readonly LineReading[] = [];
  @state() private problem = '';
  @state() private lines: readonly string[] = [];

  /** How the gauge is plugged in, as it was taught. */
  @property({ attribute: false }) connection: Connection | undefined;
  /** The browser's Web Serial, or a stand-in. */
  @property({ attribute: false }) serial: SerialLike | undefined = browserSerial();
  /** The gauge that is heard now. */
  @property({ attribute: false }) source: GaugeSource | undefined;

  private get isOpen(): boolean {
    return this.source?.state.is === 'open';
  }

  private handleSample() {
    this.offers = readingsOfSample(this.sample.value);
    this.problem = this.sample.value && this.offers.length === 0 ? 'There is no number in this line.' : '';
  }

  private choose({ format }: LineReading) {
    const sends = this.sends.value as Connection['sends'];
    const connection: Connection = {
      baudRate: Number(this.speed.value),
      dataBits: 8,
      parity: 'none',
      stopBits: 1,
      sends,
      line: format,
    };
    this.offers = [];
    this.dispatchEvent(new GaugeConnectionEvent(connection));
  }

  private hear(news: GaugeNews) {
    if (news.kind === 'line')
      this.lines = [...this.lines.slice(1 - LINES_SHOWN), `${news.understood ? '' : '? '}${news.line}`];
    if (news.kind === 'state') this.problem = this.heard.trouble;
  }

  private async handlePlug() {
    const { connection, serial } = this;
    if (!connection || !serial) return;
    try {
      const port = await serial.requestPort();
      const gauge = new SerialGauge('Gauge', connection);
      this.source = gauge;
      this.dispatchEvent(new GaugePlugEvent(gauge));
      await gauge.open(port);
    } catch (error) {
      this.problem = portTrouble(error);
    }
  }

  override render() {
    return html`<h2>A gauge on a cable</h2>
      ${this.serial ? this.renderTeach() : html`<p>${NO_SERIAL}</p>`}
      <p class="problem" role="status">${this.problem}</p>`;
  }

  private renderTeach() {
    return html`<p class="quiet">
        Type or paste one line as the gauge sends it, then choose what it showed. A gauge that types like a
        keyboard needs none of this.
      </p>
      <div class="row">
        <label>Sample line <input name="sample" autocomplete="off" @input=${this.handleSample} /></label>
        <label>
          Speed
          <select name="speed">
            ${SPEEDS.map((speed) => html`<option ?selected=${speed === (this.connection?.baudRate ?? 9600)}>${speed}</option>`)}
          </select>
        </label>
        <label>
          It sends
          <select name="sends">
            <option value="on-button">when its button is pressed</option>
            <option value="all-the-time" ?selected=${this.connection?.sends === 'all-the-time'}>
              all the time
            </option>
          </select>
        </label>
      </div>
      ${
        this.offers.length > 0
          ? html`<div class="row" role="group" aria-label="What did it show?">
              ${this.offers.map(
                (offer) =>
                  html`<button @click=${() => this.choose(offer)}>
                    ${offer.thicknessMm.toFixed(3)} mm
                  </button>`,
              )}
            </div>`
          : nothing
      }
      ${
        this.connection
          ? html`<div class="row">
              <button @click=${this.handlePlug}>${this.isOpen ? 'Plug in another' : 'Plug in'}</button>
              <span>${this.isOpen ? 'Heard.' : `Taught: ${this.connection.line.shape}`}</span>
            </div>`
          : nothing
      }
      ${this.lines.length > 0 ? html`<pre>${this.lines.join('\n')}</pre>` : nothing}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-gauge-connection': GaugeConnection;
  }
}
