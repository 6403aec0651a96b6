import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { GaugeNews, GaugeSource } from './gauge-source.ts';

type Live = Extract<GaugeNews, { kind: 'live' }>;

/** Hears a gauge while its host is on the page, and knows what it shows and whether it can still be heard. */
export class HeardGauge implements ReactiveController {
  private readonly host: ReactiveControllerHost;
  private readonly given: () => GaugeSource | undefined;
  private readonly hear: (news: GaugeNews) => void;
  private heard: GaugeSource | undefined;
  private stopListening: (() => void) | undefined;
  /** What it shows now; absent for a gauge that sends on its button alone. */
  live: Live | undefined;
  /** Why it cannot be heard any more; empty while it can. */
  trouble = '';

  /**
   * @param given The gauge that is to be heard.
   * @param hear Called with everything it says, after this has taken note of it.
   */
  constructor(
    host: ReactiveControllerHost,
    given: () => GaugeSource | undefined,
    hear: (news: GaugeNews) => void = () => undefined,
  ) {
    this.host = host;
    this.given = given;
    this.hear = hear;
    host.addController(this);
  }

  /** The last live value was taken: the lowest is sought anew. */
  release(): void {
    this.heard?.release();
  }

  /** Asks for a reading now; absent for a gauge that sends by itself. */
  get request(): (() => void) | undefined {
    return this.heard?.state.is === 'open' ? this.heard.request : undefined;
  }

  hostConnected(): void {
    this.listen();
  }

  hostUpdate(): void {
    if (this.given() !== this.heard) this.listen();
  }

  hostDisconnected(): void {
    this.stopListening?.();
    this.stopListening = this.heard = this.live = undefined;
  }

  private listen(): void {
    const gauge = this.given();
    this.stopListening?.();
    this.live = undefined;
    this.heard = gauge;
    this.stopListening = gauge?.listen((news) => this.take(news));
    this.trouble = gauge?.state.is === 'lost' ? gauge.state.why : '';
  }

  private take(news: GaugeNews): void {
    if (news.kind === 'live') this.live = news;
    if (news.kind === 'state') {
      this.trouble = news.state.is === 'lost' ? news.state.why : '';
      if (news.state.is !== 'open') this.live = undefined;
      this.host.requestUpdate();
    }
    if (news.kind === 'no-answer') this.say(news.why);
    if (news.kind === 'reading' && this.trouble) this.say('');
    this.hear(news);
  }

  private say(trouble: string): void {
    this.trouble = trouble;
    this.host.requestUpdate();
  }
}
