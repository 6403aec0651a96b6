import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { FormatError, IllPosedError, InputError } from '../../shared/errors.ts';
import type { ReedDraft } from '../../src/exchange/csv/drafts.ts';
import type { CsvAnswers, CsvQuestion } from '../../src/exchange/csv/questions.ts';
import { OpenQuestionsError } from '../../src/exchange/csv/reeds-of.ts';
import { readGiven, type Given } from './given.ts';
import { sharedFit, type FittedSoFar } from './shared-fits.ts';

/** What is wanted: which reed of which readings, with whose zones. */
export interface Wish {
  readonly given: Given;
  /** The label of the reed; the first one where it is blank. */
  readonly label: string;
  readonly styleId: string;
}

export type SourceState =
  | { readonly is: 'empty' }
  | { readonly is: 'reading' }
  | { readonly is: 'stopped' }
  | { readonly is: 'fitting'; readonly label: string }
  | { readonly is: 'asks'; readonly questions: readonly CsvQuestion[] }
  | { readonly is: 'refused'; readonly problems: readonly string[] }
  | ({ readonly is: 'fitted'; readonly labels: readonly string[] } & FittedSoFar);

function chosen(reeds: readonly ReedDraft[], label: string): ReedDraft {
  const reed = label === '' ? reeds[0] : reeds.find((one) => one.label === label);
  if (reed) return reed;
  const there = reeds.map((one) => one.label).join(', ');
  throw new InputError(`There is no reed ${label} in these readings; there is ${there}.`);
}

/** What went wrong, as it is said to the reader; a fault of the program is thrown on. */
function stateOf(error: unknown): SourceState {
  if (error instanceof OpenQuestionsError) return { is: 'asks', questions: error.questions };
  if (error instanceof FormatError)
    return { is: 'refused', problems: error.problems.map(({ where, what }) => `${where}: ${what}`) };
  if (error instanceof InputError || error instanceof IllPosedError)
    return { is: 'refused', problems: [error.message] };
  throw error;
}

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

  private async follow({ given, label, styleId }: Wish, signal: AbortSignal): Promise<void> {
    const tell = (state: SourceState) => {
      if (!signal.aborted) this.tell(state);
    };
    try {
      const reeds = await readGiven(given, this.answers, signal);
      const reed = chosen(reeds, label);
      if (this.state.is !== 'fitted') tell({ is: 'fitting', label: reed.label });
      const labels = reeds.map((one) => one.label);
      for await (const soFar of sharedFit(reed, styleId, signal)) tell({ is: 'fitted', labels, ...soFar });
    } catch (error) {
      if (!signal.aborted) tell(stateOf(error));
    }
    this.isDone = !signal.aborted;
  }
}
