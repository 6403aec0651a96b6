import { html, nothing } from 'lit';
import { numberText, withUnit, type NumberFormat } from '../../src/words/format.ts';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Connection } from '../../shared/gauge.ts';
import { requestOf, requestText } from '../../src/gauge-lines/request-text.ts';
import { readingsOfLines, readingsOfSample, type LineReading } from '../../src/gauge-lines/line-format.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { GaugeConnectionEvent, GaugePlugEvent } from './gauge-events.ts';
import { gaugeStyles } from './gauge.styles.ts';
import type { GaugeNews, GaugeSource } from './gauge-source.ts';
import { HeardGauge } from './heard-gauge.ts';
import { SerialGauge, type Plugged } from './serial-gauge.ts';
import { browserSerial, NO_SERIAL, portTrouble, type PortLike, type SerialLike } from './serial-port.ts';

const SPEEDS = [1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200];
const LINES_SHOWN = 6;
/** As many lines as tell a number that changes from one that stays. */
const LINES_KEPT = 60;
/** Data bits, parity and stop bits, as instruments are set. */
const FRAMES = [
  [8, 'none', 1],
  [7, 'even', 1],
  [7, 'odd', 1],
  [7, 'even', 2],
  [7, 'none', 2],
  [8, 'even', 1],
  [8, 'odd', 1],
  [8, 'none', 2],
] as const;

/**
 * A gauge on a cable: plugged in and listened to first; moving its spindle shows which number is the reading, and the
 * maker says which it is. A line may be typed instead.
 *
 * @event bench-gauge-connection - The maker taught a format; to be kept with the gauge.
 * @event bench-gauge-plug - A gauge was plugged in; its owner keeps it, hands it back as `source`, and closes it.
 */
@customElement('bench-gauge-connection')
export class GaugeConnection extends BenchElement {
  static override styles = [controls, gaugeStyles];

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
  @query('[name=frame]') private readonly frame!: HTMLSelectElement;
  @query('[name=ask]') private readonly ask!: HTMLInputElement;
  @query('[name=asks]') private readonly asks!: HTMLSelectElement;
  @state() private lines: readonly string[] = [];
  private raw: readonly string[] = [];
  private port: PortLike | undefined;
  /** Its lines are heard to find the reading in them. */
  @state() private isListening = false;

  /** How the gauge is plugged in, as it was taught. */
  @property({ attribute: false }) connection: Connection | undefined;
  @property() decimal: NumberFormat['decimal'] = 'point';
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

  /** How the gauge is set to send, as chosen here. */
  private get settings(): Plugged {
    const [dataBits, parity, stopBits] = FRAMES[Number(this.frame.value)] ?? FRAMES[0];
    const ask = this.ask.value;
    const baudRate = Number(this.speed.value);
    const set = { baudRate, dataBits, parity, stopBits };
    if (ask === '') return { ...set, sends: this.sends.value as Connection['sends'] };
    const isByKey = this.asks.value === 'key';
    return {
      ...set,
      sends: isByKey ? 'on-button' : 'all-the-time',
      ask: requestOf(ask),
      asks: isByKey ? 'key' : 'timer',
    };
  }

  private async choose({ format }: LineReading) {
    const connection: Connection = { ...this.settings, line: format };
    this.offers = [];
    this.isListening = false;
    this.dispatchEvent(new GaugeConnectionEvent(connection));
    if (this.port) await this.hearPort(this.port, connection);
  }

  private hear(news: GaugeNews) {
    if (news.kind === 'state' || news.kind === 'no-answer') this.problem = this.heard.trouble;
    if (news.kind !== 'line') return;
    this.raw = [...this.raw.slice(1 - LINES_KEPT), news.line];
    this.lines = [
      ...this.lines.slice(1 - LINES_SHOWN),
      `${news.understood || this.isListening ? '' : '? '}${news.line}`,
    ];
    if (this.isListening) this.offers = readingsOfLines(this.raw);
  }

  private async plugIn(connection: Plugged) {
    const { serial } = this;
    if (!serial) return;
    try {
      this.port = await serial.requestPort();
      await this.hearPort(this.port, connection);
    } catch (error) {
      this.isListening = false;
      this.problem = portTrouble(error);
    }
  }

  private async hearPort(port: PortLike, connection: Plugged) {
    await this.source?.close();
    const gauge = new SerialGauge('Gauge', connection);
    this.source = gauge;
    this.dispatchEvent(new GaugePlugEvent(gauge));
    await gauge.open(port);
  }

  private handlePlug() {
    return this.connection && this.plugIn(this.connection);
  }

  private handleListen() {
    this.isListening = true;
    this.raw = this.lines = this.offers = [];
    // Asked again and again while it is listened to: its spindle is moved meanwhile.
    return this.plugIn({ ...this.settings, asks: 'timer' });
  }

  override render() {
    return html`<h2>A gauge on a cable</h2>
      ${this.serial ? this.renderTeach() : html`<p>${NO_SERIAL}</p>`}
      <p class="problem" role="status">${this.problem}</p>`;
  }

  private frameOf(): string {
    const { dataBits = 8, parity = 'none', stopBits = 1 } = this.connection ?? {};
    return [dataBits, parity, stopBits].join();
  }

  private listeningWords(): string {
    if (this.raw.length === 0)
      return 'Listening. Nothing has come yet: move the spindle, or press the button that sends. If nothing comes, try another speed.';
    if (this.offers.length === 0)
      return 'Lines come, and none holds a number: try another speed, or other bits and parity.';
    return 'Move the spindle. Which of these does the gauge show now?';
  }

  private renderTeach() {
    return html`<p class="quiet">
        Plug the gauge in, listen, and move its spindle: then choose what it shows. A gauge that types like a
        keyboard needs none of this. One that must be asked has its request in its book: \\r and \\n may stand
        in it.
      </p>
      <div class="row">
        <button @click=${this.handleListen}>Listen to a gauge</button>
        <label>Or type a line <input name="sample" autocomplete="off" @input=${this.handleSample} /></label>
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
        <label>
          Bits, parity, stop bits
          <select name="frame">
            ${FRAMES.map((frame, i) => html`<option value=${i} ?selected=${frame.join() === this.frameOf()}>${frame.join(', ')}</option>`)}
          </select>
        </label>
        <label>
          Asked for a value by
          <input
            name="ask"
            maxlength="18"
            autocomplete="off"
            .value=${requestText(this.connection?.ask ?? '')}
          />
        </label>
        <label>
          and asked
          <select name="asks">
            <option value="timer">again and again</option>
            <option value="key" ?selected=${this.connection?.asks === 'key'}>
              when I press Enter, a pedal or Take
            </option>
          </select>
        </label>
      </div>
      ${this.isListening ? html`<p role="status">${this.listeningWords()}</p>` : nothing}
      ${
        this.offers.length > 0
          ? html`<div class="row" role="group" aria-label="What did it show?">
              ${this.offers.map(
                (offer) =>
                  html`<button @click=${() => this.choose(offer)}>
                    ${withUnit(numberText(offer.thicknessMm, 3, this), 'mm')}
                  </button>`,
              )}
            </div>`
          : nothing
      }
      ${
        this.connection
          ? html`<div class="row">
              <button @click=${this.handlePlug}>${this.isOpen ? 'Plug in another' : 'Plug in'}</button>
              ${this.heard.request ? html`<button @click=${this.heard.request}>Ask it now</button>` : nothing}
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
