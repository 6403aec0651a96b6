import { ContextConsumer, createContext } from '@lit/context';
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { NumberFormat } from '../../src/words/format.ts';
import { USUAL_CHOICES, type Choices } from './choices.ts';
import type { LibraryStore } from './library-store.ts';

export const libraryContext = createContext<LibraryStore | undefined>(Symbol('library'));

/** Whether figures are to be written otherwise: two of these may be alike and not the same. */
export function isOtherFormat(now: NumberFormat, before: NumberFormat | undefined): boolean {
  return now.unit !== before?.unit || now.decimal !== before.decimal;
}

/** Gives its host the library of the page around it, and a new update when the library changes. */
export class LibraryController implements ReactiveController {
  store: LibraryStore | undefined;
  private readonly host: ReactiveControllerHost & HTMLElement;
  private listening: AbortController | undefined;

  constructor(host: ReactiveControllerHost & HTMLElement) {
    this.host = host;
    host.addController(this);
    new ContextConsumer(host, {
      context: libraryContext,
      subscribe: true,
      callback: (store) => this.attach(store),
    });
  }

  get choices(): Choices {
    return this.store?.choices ?? USUAL_CHOICES;
  }

  /** How figures are to be written. */
  get writing(): NumberFormat {
    const { unit, decimal } = this.choices;
    return { unit, decimal };
  }

  hostConnected(): void {
    this.attach(this.store);
  }

  hostDisconnected(): void {
    this.listening?.abort();
  }

  private attach(store: LibraryStore | undefined): void {
    this.listening?.abort();
    this.store = store;
    this.host.requestUpdate();
    if (!store) return;
    this.listening = new AbortController();
    const { signal } = this.listening;
    store.addEventListener('bench-library-change', () => this.host.requestUpdate(), { signal });
  }
}
