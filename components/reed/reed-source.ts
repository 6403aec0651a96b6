import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { CsvAnswers } from '../../src/exchange/csv/questions.ts';
import type { SourceState, Wish } from './source-state.ts';

/** Reads and fits what its host is given, and gives it up when the host leaves the page. */
export class ReedSource implements ReactiveController {
  state: SourceState = { is: 'empty' };
  private wish: Wish | undefined;
  private answers: CsvAnswers = {};
  private stop = new AbortController();
  private isDone = false;
  private readonly host: ReactiveControllerHost & Element;
  private readonly told: (state: SourceState) => void;

  /** @param told Hears of every new state. */
  constructor(host: ReactiveControllerHost & Element, told: (state: SourceState) => void) {
    this.host = host;
    this.told = told;
    host.addController(this);
  }

  give(wish: Wish | undefined): void {
    this.wish = wish;
    this.answers = {};
    this.begin(wish ? { is: 'reading' } : { is: 'empty' });
  }

  /** Takes answers to what the readings left open. */
  answer(answers: CsvAnswers): void {
    this.answers = { ...this.answers, ...answers };
    this.begin({ is: 'reading' });
  }

  /** Gives up what is being done, until it is taken up again. */
  cancel(): void {
    this.stop.abort();
    this.tell({ is: 'stopped' });
  }

  /** Takes up again what was given up. */
  resume(): void {
    this.begin({ is: 'reading' });
  }

  hostConnected(): void {
    const isGivenUp = this.stop.signal.aborted && this.state.is !== 'stopped';
    if (this.wish && !this.isDone && isGivenUp) this.begin(this.state);
  }

  /** An element that is only moved is on the page again before this is looked at. */
  hostDisconnected(): void {
    queueMicrotask(() => {
      if (!this.host.isConnected) this.stop.abort();
    });
  }

  private begin(state: SourceState): void {
    this.stop.abort();
    this.stop = new AbortController();
    this.isDone = false;
    this.tell(state);
    if (this.wish) void this.follow(this.wish, this.stop.signal);
  }

  private tell(state: SourceState): void {
    this.state = state;
    this.told(state);
    this.host.requestUpdate();
  }

  /** What reads and fits is loaded with the first readings: a reed that is fitted already needs none of it. */
  private async follow(wish: Wish, signal: AbortSignal): Promise<void> {
    const { followReed } = await import('./follow-reed.ts');
    for await (const state of followReed(wish, this.answers, signal)) {
      if (signal.aborted) return;
      if (state.is !== 'fitting' || this.state.is !== 'fitted') this.tell(state);
    }
    this.isDone = !signal.aborted;
  }
}
