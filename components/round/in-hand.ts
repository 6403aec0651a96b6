import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** A telephone either way up, or any screen that is touched: there the round has keys of its own. */
const IN_HAND = '(max-width: 640px), (max-width: 960px) and (max-height: 520px), (pointer: coarse)';

/** Whether the page is in the hand, and a new update of its host when that changes. */
export class InHand implements ReactiveController {
  private readonly query = matchMedia(IN_HAND);
  private readonly handleChange = () => this.host.requestUpdate();
  private readonly host: ReactiveControllerHost;

  constructor(host: ReactiveControllerHost) {
    this.host = host;
    host.addController(this);
  }

  get matches(): boolean {
    return this.query.matches;
  }

  hostConnected(): void {
    this.query.addEventListener('change', this.handleChange);
  }

  hostDisconnected(): void {
    this.query.removeEventListener('change', this.handleChange);
  }
}
