/** The part of the Web Serial API that the bench uses, so that a test can put its own port in its place. */
export interface PortLike {
  readonly readable: ReadableStream<Uint8Array> | null;
  readonly writable?: WritableStream<Uint8Array> | null;
  /** Sets the control lines, by which many a cable is powered. */
  setSignals?(signals: { dataTerminalReady: boolean; requestToSend: boolean }): Promise<void>;
  open(options: SerialSettings): Promise<void>;
  close(): Promise<void>;
}

export interface SerialSettings {
  readonly baudRate: number;
  readonly dataBits: 7 | 8;
  readonly parity: 'none' | 'even' | 'odd';
  readonly stopBits: 1 | 2;
}

export interface SerialLike {
  /** Lets the maker choose; needs a click or a key. */
  requestPort(): Promise<PortLike>;
  /** Ports chosen before. */
  getPorts(): Promise<readonly PortLike[]>;
  /** A port that was chosen before is plugged in. */
  addEventListener(type: 'connect', listener: () => void, options: { signal: AbortSignal }): void;
}

/** The browser's own Web Serial; undefined where it has none. */
export function browserSerial(): SerialLike | undefined {
  return (navigator as { readonly serial?: SerialLike }).serial;
}

export const NO_SERIAL =
  'This browser cannot hear a gauge on a cable. Use a browser that can read a serial port, on a computer, or a gauge that types like a keyboard; typing works everywhere.';

/** What went wrong with a port, in a sentence that says what to do. */
export function portTrouble(error: unknown): string {
  const name = error instanceof DOMException ? error.name : '';
  if (name === 'NotFoundError') return 'No gauge was chosen. Plug it in and choose it from the list.';
  if (name === 'SecurityError') return 'The browser asks for a click first. Press Plug in once more.';
  if (name === 'InvalidStateError' || name === 'NetworkError') {
    return 'The gauge cannot be opened. Another program or window may hold it: close that, and plug in again.';
  }
  return 'The gauge cannot be heard. Unplug it, plug it in again, and try once more.';
}

export const NO_ANSWER = 'The gauge was asked and did not answer. Ask once more, or type; nothing is lost.';

export const SILENT_GAUGE = 'The gauge is silent. Type, or plug it in; nothing is lost.';
