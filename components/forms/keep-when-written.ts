import type { LitElement, ReactiveController } from 'lit';

/** How long the keys rest before a long text is kept while it is still being written. */
const REST_MS = 1200;

/**
 * Keeps a form as it is written: at once when a field is left or a step chosen, and a long text when the keys rest. What is
 * still being written when the form goes away is kept, too.
 */
export class KeepWhenWritten implements ReactiveController {
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly host: LitElement;
  private readonly keep: () => void;

  constructor(host: LitElement, keep: () => void) {
    this.host = host;
    this.keep = keep;
    host.addController(this);
  }

  hostDisconnected(): void {
    queueMicrotask(() => this.flush());
  }

  /** For `input` and `change` of the form. */
  readonly written = (event: Event): void => {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.flush(), REST_MS);
    // A field that goes away with its form says that it has changed in the midst of the update that takes it away.
    if (event.type === 'change') queueMicrotask(() => this.flush());
  };

  /** Keeps what waits. */
  flush(): void {
    if (this.timer === undefined) return;
    clearTimeout(this.timer);
    this.timer = undefined;
    this.keep();
  }

  /** True while a text is in the hand: what stands in the library must not be written over it. */
  get isWriting(): boolean {
    const field = this.host.shadowRoot?.activeElement;
    return field?.matches('textarea, input:not([type=radio]), bench-note-field') ?? false;
  }
}
