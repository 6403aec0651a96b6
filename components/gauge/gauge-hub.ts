import type { GaugeListener, GaugeNews, GaugeState } from './gauge-source.ts';

/** Passes a gauge's news on to everyone who listens, and remembers its state. */
export class GaugeHub {
  private readonly listeners = new Set<GaugeListener>();
  state: GaugeState = { is: 'closed' };

  listen(listener: GaugeListener): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  tell(news: GaugeNews): void {
    if (news.kind === 'state') this.state = news.state;
    for (const listener of [...this.listeners]) listener(news);
  }
}
