import type { Connection } from '../../shared/gauge.ts';
import { holdLowest } from '../../src/gauge-lines/hold-lowest.ts';
import { readLine } from '../../src/gauge-lines/line-format.ts';
import { lineSplitter } from '../../src/gauge-lines/line-splitter.ts';
import { GaugeHub } from './gauge-hub.ts';
import type { GaugeListener, GaugeSource, GaugeState } from './gauge-source.ts';
import { NO_ANSWER, portTrouble, SILENT_GAUGE, type PortLike } from './serial-port.ts';

/** How a gauge is plugged in; without a line format its lines are heard, and none is understood. */
export type Plugged = Omit<Connection, 'line'> & Partial<Pick<Connection, 'line'>>;

/** A gauge that has to be asked is asked this often. */
const ASK_EVERY_MS = 250;
/** A gauge that is asked by a key answers within this, or does not. Common practice, no source. */
const ANSWER_MS = 1500;

/** A gauge on a serial port, read line by line in the format that the maker taught. */
export class SerialGauge implements GaugeSource {
  private readonly hub = new GaugeHub();
  private readonly connection: Plugged;
  private readonly nowMs: () => number;
  private port: PortLike | undefined;
  private stop: AbortController | undefined;
  private reading: Promise<void> = Promise.resolve();
  private asking: Promise<void> = Promise.resolve();
  private hold = holdLowest();
  private unanswered: ReturnType<typeof setTimeout> | undefined;
  readonly name: string;

  /** @param nowMs Time of a sample, for telling which values stood still. */
  constructor(name: string, connection: Plugged, nowMs: () => number = () => performance.now()) {
    this.name = name;
    this.connection = connection;
    this.nowMs = nowMs;
  }

  get state(): GaugeState {
    return this.hub.state;
  }

  listen(listener: GaugeListener): () => void {
    return this.hub.listen(listener);
  }

  release(): void {
    this.hold = holdLowest();
  }

  /** Asks for one reading, where the gauge is asked by a key. */
  get request(): (() => void) | undefined {
    return this.connection.asks === 'key' ? this.askOnce : undefined;
  }

  private readonly askOnce = () => {
    const { ask } = this.connection;
    const writable = this.port?.writable;
    // Asked twice it might answer twice, for two places.
    if (ask === undefined || !writable || writable.locked || this.unanswered !== undefined) return;
    this.unanswered = setTimeout(() => {
      this.unanswered = undefined;
      this.hub.tell({ kind: 'no-answer', why: NO_ANSWER });
    }, ANSWER_MS);
    const writer = writable.getWriter();
    // Where the port went away, the reading side says so.
    void writer.write(new TextEncoder().encode(ask)).catch(() => undefined);
    writer.releaseLock();
  };

  /** Opens a port and hears it until it is unplugged or closed. @returns False, with the state saying why not. */
  async open(port: PortLike): Promise<boolean> {
    await this.close();
    const { baudRate, dataBits, parity, stopBits } = this.connection;
    try {
      await port.open({ baudRate, dataBits, parity, stopBits });
    } catch (error) {
      this.tellState({ is: 'lost', why: portTrouble(error) });
      return false;
    }
    await port.setSignals?.({ dataTerminalReady: true, requestToSend: true }).catch(() => undefined);
    this.port = port;
    this.stop = new AbortController();
    this.tellState({ is: 'open' });
    this.asking = this.ask(port, this.stop.signal);
    this.reading = this.read(port, this.stop.signal);
    return true;
  }

  async close(): Promise<void> {
    if (!this.port) return;
    this.stop?.abort();
    this.endWait();
    await Promise.all([this.reading, this.asking]);
    await this.port.close().catch(() => undefined);
    this.port = undefined;
    this.tellState({ is: 'closed' });
  }

  /** Asks for a value again and again, where the gauge does not send by itself. */
  private async ask({ writable }: PortLike, signal: AbortSignal): Promise<void> {
    const { ask, asks } = this.connection;
    if (ask === undefined || asks === 'key' || !writable) return;
    const writer = writable.getWriter();
    const request = new TextEncoder().encode(ask);
    try {
      while (!signal.aborted) {
        await writer.write(request);
        await new Promise((resolve) => setTimeout(resolve, ASK_EVERY_MS));
      }
    } catch {
      // The port went away; the reading side says so.
    } finally {
      writer.releaseLock();
    }
  }

  /**
   * A parity or framing error ends the stream, and the port gives a new one: reading goes on after the broken line. A
   * port without a stream is unplugged.
   */
  private async read(port: PortLike, signal: AbortSignal): Promise<void> {
    let isBroken = false;
    let split = lineSplitter();
    const decoder = new TextDecoder();
    let last: ReadableStream<Uint8Array> | undefined;
    while (port.readable && port.readable !== last && !signal.aborted) {
      last = port.readable;
      const take = new WritableStream<Uint8Array>({
        write: (chunk) => {
          let text = decoder.decode(chunk, { stream: true });
          if (isBroken) {
            const end = text.search(/[\r\n]/);
            if (end < 0) return;
            text = text.slice(end);
            isBroken = false;
          }
          for (const line of split(text)) this.take(line);
        },
      });
      split = lineSplitter();
      await last.pipeTo(take, { signal }).catch(() => {
        isBroken = true;
      });
    }
    if (!signal.aborted) await this.lose(port);
  }

  /** Lets a port that went away go at once: closed later, it would be taken from whoever opened it again meanwhile. */
  private async lose(port: PortLike): Promise<void> {
    this.stop?.abort();
    this.endWait();
    this.port = undefined;
    await port.close().catch(() => undefined);
    this.tellState({ is: 'lost', why: SILENT_GAUGE });
  }

  private endWait(): void {
    clearTimeout(this.unanswered);
    this.unanswered = undefined;
  }

  private take(line: string): void {
    const format = this.connection.line;
    const mm = format && readLine(line, format);
    this.hub.tell({ kind: 'line', line, understood: mm !== undefined });
    if (mm === undefined) return;
    this.endWait();
    if (this.connection.sends === 'on-button') {
      if (mm > 0) this.hub.tell({ kind: 'reading', thicknessMm: mm });
      return;
    }
    const { lowestMm } = this.hold({ mm, atMs: this.nowMs() });
    this.hub.tell({ kind: 'live', shownMm: mm, ...(lowestMm !== undefined && { lowestMm }) });
  }

  private tellState(state: GaugeState): void {
    this.hub.tell({ kind: 'state', state });
  }
}
