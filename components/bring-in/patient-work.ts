import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { ProgressOptions } from '../../src/ledger/patience.ts';

/** Lets the page draw and hear its maker between two slices. */
const pause = () => new Promise<void>((resolve) => setTimeout(resolve));

/** One long piece of work at a time for its host, which can be given up; a new one ends the one before. */
export class PatientWork implements ReactiveController {
  /** How much is done, 0 to 1; absent while nothing is under way. */
  share: number | undefined;
  private readonly host: ReactiveControllerHost;
  private control: AbortController | undefined;

  constructor(host: ReactiveControllerHost) {
    this.host = host;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.cancel();
  }

  /** What the work came to; undefined when it was given up. What the work throws of itself is passed on. */
  async run<T extends object>(work: (patience: ProgressOptions) => Promise<T>): Promise<T | undefined> {
    this.cancel();
    const control = new AbortController();
    const { signal } = control;
    this.control = control;
    this.show(0);
    const onProgress = (share: number) => {
      if (!signal.aborted) this.show(Math.max(share, this.share ?? 0));
    };
    try {
      const result = await work({ signal, onProgress, pause });
      return signal.aborted ? undefined : result;
    } catch (error) {
      if (signal.aborted) return undefined;
      throw error;
    } finally {
      if (this.control === control) this.cancel();
    }
  }

  cancel(): void {
    this.control?.abort();
    this.control = undefined;
    this.show(undefined);
  }

  private show(share: number | undefined): void {
    this.share = share;
    this.host.requestUpdate();
  }
}
