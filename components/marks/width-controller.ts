import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** A chart is never so narrow, but for a moment while the page around it is laid out. */
const LEAST_PX = 160;

/** Tells its host how wide it is, CSS pixels, so that charts draw their words at their own size at any width. */
export class WidthController implements ReactiveController {
  width = 0;
  private told = 0;
  private readonly host: ReactiveControllerHost & Element;
  private readonly observer = new ResizeObserver(([entry]) => {
    const width = Math.floor(entry!.contentRect.width);
    if (width < LEAST_PX || width === this.told) return;
    this.told = width;
    // With the next frame: a chart of another height within this one would be measured without end.
    requestAnimationFrame(() => {
      this.width = this.told;
      this.host.requestUpdate();
    });
  });

  constructor(host: ReactiveControllerHost & Element) {
    this.host = host;
    host.addController(this);
  }

  hostConnected(): void {
    this.observer.observe(this.host);
  }

  hostDisconnected(): void {
    this.observer.disconnect();
  }
}
