import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { heldValue, type HeldValue } from '../../src/gauge-lines/held-value.ts';
import type { GaugeNews, GaugeSource } from '../gauge/gauge-source.ts';

type Live = Extract<GaugeNews, { kind: 'live' }>;

/** Hears its host's gauge while the host is on the page: readings are passed on, what it shows now is kept. */
export class GaugeFeed implements ReactiveController {
  private readonly host: ReactiveControllerHost & { readonly gauge: GaugeSource | undefined };
  private readonly take: (value: Pick<HeldValue, 'thicknessMm'> & { readonly method?: string }) => void;
  private heard: GaugeSource | undefined;
  private stopListening: (() => void) | undefined;
  private live: Live | undefined;
  /** Why the gauge cannot be heard any more; empty while it can. */
  trouble = '';

  constructor(host: GaugeFeed['host'], take: GaugeFeed['take']) {
    this.host = host;
    this.take = take;
    host.addController(this);
  }

  /** Whether the gauge sends all the time, so that Enter takes its value. */
  get isLive(): boolean {
    return this.live !== undefined;
  }

  hostUpdate(): void {
    if (this.host.gauge !== this.heard) this.listen();
  }

  hostConnected(): void {
    this.listen();
  }

  hostDisconnected(): void {
    this.stopListening?.();
    this.heard = undefined;
    this.live = undefined;
  }

  /** The value of a gauge that sends all the time, for a place this far from the tip; the lowest is sought anew. */
  release(fromTipMm: number): HeldValue | undefined {
    const { live } = this;
    if (!live) return undefined;
    this.heard?.release();
    return heldValue(live.shownMm, live.lowestMm, fromTipMm);
  }

  private listen(): void {
    const { gauge } = this.host;
    this.stopListening?.();
    this.live = undefined;
    this.heard = gauge;
    this.stopListening = gauge?.listen((news) => this.hear(news));
    this.trouble = gauge?.state.is === 'lost' ? gauge.state.why : '';
  }

  private hear(news: GaugeNews): void {
    if (news.kind === 'reading') this.take(news);
    if (news.kind === 'live') this.live = news;
    if (news.kind !== 'state') return;
    this.trouble = news.state.is === 'lost' ? news.state.why : '';
    if (news.state.is !== 'open') this.live = undefined;
    this.host.requestUpdate();
  }
}
