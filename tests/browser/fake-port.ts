import type { PortLike, SerialLike, SerialSettings } from '../../components/gauge/serial-port.ts';

/** A serial port in memory: text is fed to it, and it can break and be unplugged. */
export class FakePort implements PortLike {
  private controller: ReadableStreamDefaultController<Uint8Array> | undefined;
  readable: ReadableStream<Uint8Array> | null = null;
  writable: WritableStream<Uint8Array> | null = null;
  /** Everything that was written to it. */
  asked = '';
  /** What it was opened with. */
  settings: SerialSettings | undefined;
  signals: { dataTerminalReady: boolean; requestToSend: boolean } | undefined;
  /** What it answers when it is asked. */
  answer: (() => string) | undefined;
  isOpen = false;
  failure: DOMException | undefined;

  async open(settings?: SerialSettings): Promise<void> {
    if (this.failure) throw this.failure;
    this.isOpen = true;
    this.settings = settings;
    this.stream();
    this.writable = new WritableStream<Uint8Array>({
      write: async (chunk) => {
        this.asked += new TextDecoder().decode(chunk);
        if (this.answer) await this.feed(this.answer());
      },
    });
    return Promise.resolve();
  }
  async close(): Promise<void> {
    if (this.readable?.locked) throw new TypeError('Cannot close a port whose stream is locked');
    this.isOpen = false;
    this.readable = this.writable = null;
    return Promise.resolve();
  }

  setSignals(signals: { dataTerminalReady: boolean; requestToSend: boolean }): Promise<void> {
    this.signals = signals;
    return Promise.resolve();
  }

  async feed(...chunks: string[]): Promise<void> {
    for (const chunk of chunks) {
      this.controller?.enqueue(new TextEncoder().encode(chunk));
      await new Promise((resolve) => setTimeout(resolve));
    }
  }

  /** A framing error: the stream ends and another takes its place. */
  async break(): Promise<void> {
    const broken = this.controller;
    this.stream();
    broken?.error(new DOMException('framing', 'FramingError'));
    await new Promise((resolve) => setTimeout(resolve));
  }

  async unplug(): Promise<void> {
    this.readable = null;
    this.controller?.error(new DOMException('The device has been lost.', 'NetworkError'));
    await new Promise((resolve) => setTimeout(resolve));
  }

  private stream() {
    this.readable = new ReadableStream<Uint8Array>({
      start: (controller) => void (this.controller = controller),
    });
  }
}

/** A browser's serial ports with one port, chosen before; `plugIn` tells that it is plugged in again. */
export function fakeSerial(port: PortLike): SerialLike & { plugIn(): void } {
  const events = new EventTarget();
  return {
    requestPort: () => Promise.resolve(port),
    getPorts: () => Promise.resolve([port]),
    addEventListener: (type, listener, options) => events.addEventListener(type, listener, options),
    plugIn: () => events.dispatchEvent(new Event('connect')),
  };
}
