import type { ReactiveController, ReactiveControllerHost } from 'lit';

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
