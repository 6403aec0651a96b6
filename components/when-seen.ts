import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** How long what is in sight may wait for the page to come to rest, ms. Common practice, no source. */
const PATIENCE_MS = 1000;

/** Calls back when what is more urgent, the first picture above all, is painted. */
export function whenAtRest(work: () => void): void {
  // Not every browser tells when it rests.
  if ('requestIdleCallback' in globalThis) requestIdleCallback(work, { timeout: PATIENCE_MS });
  else setTimeout(work, PATIENCE_MS / 4);
}

/** Calls back each time its host comes into sight, so that what is folded away costs nothing. */
export class WhenSeen implements ReactiveController {
  private readonly host: Element;
  private readonly sight: IntersectionObserver;

  constructor(host: ReactiveControllerHost & Element, seen: () => void) {
    this.host = host;
    this.sight = new IntersectionObserver((entries) => {
      if (entries.some(({ isIntersecting }) => isIntersecting)) seen();
    });
    host.addController(this);
  }

  hostConnected(): void {
    this.sight.observe(this.host);
  }

  hostDisconnected(): void {
    this.sight.disconnect();
  }
}
