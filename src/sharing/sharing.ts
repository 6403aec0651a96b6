import type { Ledger } from '../ledger/ledger-face.ts';
import { CarrierError, isPassing, type Carrier } from './carrier.ts';
import type { Chosen } from './chosen.ts';
import type { Refused } from './carried.ts';
import { makeDown, type Down } from './down.ts';
import {
  isWaiting,
  joinWaiting,
  NOTHING_WAITS,
  noteProgress,
  readProgress,
  waitingOf,
  type Progress,
  type Waiting,
} from './progress.ts';
import { SentMemory } from './sent.ts';
import { sendUp } from './up.ts';

/** How sharing stands. */
export type SharingState =
  | { readonly is: 'starting' | 'stopped' }
  /** Much goes up or comes down; `share` is done of it, 0 to 1. */
  | { readonly is: 'copying'; readonly way: 'up' | 'down'; readonly share: number }
  /** All that was known at that time is on both sides. */
  | { readonly is: 'even'; readonly at: string }
  /** Tried again by itself. */
  | { readonly is: 'away'; readonly error: CarrierError }
  /** Not tried again by itself. */
  | { readonly is: 'trouble'; readonly error: unknown };

export interface SharingOptions {
  readonly ledger: Ledger;
  readonly carrier: Carrier;
  readonly chosen: Chosen;
  /** The name under which it is used there. */
  readonly by: string;
  /** Whether somebody looks at the page: it is followed then, and otherwise asked now and then. */
  readonly isWatched?: () => boolean;
  /** Called whenever the state may have changed. */
  readonly changed?: () => void;
  /** Waits so many ms. */
  readonly gather?: (ms: number) => Promise<void>;
}

/**
 * A change waits a moment for others that go with it, and goes no sooner than a second after those before: the other
 * device follows within a second, and no second has two requests. Our own numbers.
 */
const GATHER_MS = { moment: 100, apart: 1000 };
const gatherAWhile = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));
/** How often a page that nobody looks at asks: 48 times a day. Our own number. */
const UNWATCHED_MS = 30 * 60_000;
/** How long after a failure it is tried again, ms: twice as long each time. Common practice, no source. */
const AGAIN_MS = { first: 2000, most: 300_000 };
const REFUSED_KEPT = 20;

/** Keeps a library and its shared case in step, whatever comes between. */
export class Sharing {
  private readonly options: SharingOptions;
  private readonly control = new AbortController();
  /** Ends what is waited for: something has changed here, or somebody looks again. */
  private bell = new AbortController();
  private isGathering = false;
  private apart: Promise<void> = Promise.resolve();
  private progress: Progress | undefined;
  private readonly known = new Set<string>();
  private down: Down | undefined;
  private memory: SentMemory | undefined;
  private failures = 0;
  private noting: Promise<unknown> = Promise.resolve();
  state: SharingState = { is: 'starting' };
  waiting: Waiting = NOTHING_WAITS;
  /** What was refused on either side, last first. */
  refused: readonly Refused[] = [];

  constructor(options: SharingOptions) {
    this.options = options;
  }

  /** Shares until it is stopped, or until something is wrong that does not pass by itself. */
  async run(): Promise<void> {
    const { ledger } = this.options;
    const unlisten = ledger.onChange((change) => this.hear(waitingOf(change, ledger.now())));
    try {
      this.progress = await readProgress(ledger);
      this.memory = await SentMemory.open(ledger);
      this.waiting = joinWaiting(this.progress.waiting, this.waiting);
      while (!this.control.signal.aborted) await this.session();
    } finally {
      unlisten();
      await this.noting;
    }
  }

  /** What is under way is given up; it is gone on with at the next time. */
  stop(): void {
    this.control.abort(new Error('stopped'));
    this.bell.abort();
    this.show({ is: 'stopped' });
  }

  /** Looks at once, after the network came back or somebody looks at the page again. */
  wake(): void {
    this.failures = 0;
    this.bell.abort();
  }

  private hear(waiting: Waiting): void {
    if (!isWaiting(waiting) || this.options.chosen.role === 'guest') return;
    this.waiting = joinWaiting(this.waiting, waiting);
    if (!this.isGathering) void this.gather();
    void this.note();
    this.options.changed?.();
  }

  private async gather(): Promise<void> {
    const { gather = gatherAWhile } = this.options;
    this.isGathering = true;
    await Promise.all([gather(GATHER_MS.moment), this.apart]);
    this.isGathering = false;
    this.apart = gather(GATHER_MS.apart);
    this.bell.abort();
  }

  /** From greeting the server until something goes wrong. */
  private async session(): Promise<void> {
    try {
      await this.agree();
      await this.takeAll();
      for (;;) {
        await this.send();
        this.failures = 0;
        this.show({ is: 'even', at: this.options.ledger.now() });
        await this.follow();
        this.control.signal.throwIfAborted();
      }
    } catch (error) {
      if (this.control.signal.aborted) return;
      await this.failed(error);
    }
  }

  private async failed(error: unknown): Promise<void> {
    if (!(error instanceof CarrierError) || !isPassing(error)) {
      this.show({ is: 'trouble', error });
      this.control.abort(error);
      return;
    }
    this.show({ is: 'away', error });
    const wait = Math.min(AGAIN_MS.most, AGAIN_MS.first * 2 ** this.failures++);
    await this.rest(wait);
  }

  /** A server that has forgotten what was sent to it, put back from a copy, gets everything again, and is asked for all. */
  private async agree(): Promise<void> {
    const { carrier, ledger, chosen } = this.options;
    await carrier.greet();
    if (chosen.role !== 'guest' && (await this.isForgotten())) {
      this.known.clear();
      await this.memory!.clear();
      this.waiting = joinWaiting(this.waiting, { ...NOTHING_WAITS, all: true, since: ledger.now() });
      const { device, waiting, count } = this.progress!;
      this.progress = { device, waiting, count, since: '0', isMarked: false };
    }
    const { known, control } = this;
    this.down = makeDown({ ...this.options, known, memory: this.memory!, signal: control.signal });
  }

  /** Whether the server no longer has what was sent to it first, or last. */
  private async isForgotten(): Promise<boolean> {
    const { carrier } = this.options;
    const { device, isMarked, last } = this.progress!;
    if (!isMarked) return false;
    return !(await carrier.mark(device)) || (last !== undefined && !(await carrier.remembers(last)));
  }

  /** Takes in what came down, and notes how far that is. */
  private async take(rows: Awaited<ReturnType<Carrier['changes']>>): Promise<void> {
    this.refuse(await this.down!.take(rows, this.progress!.since));
    this.progress = { ...this.progress!, since: rows.last };
    await this.note();
  }

  private async takeAll(): Promise<void> {
    let done = 0;
    for (;;) {
      const rows = await this.down!.next(this.progress!.since);
      if (rows.rows.length === 0 && rows.last === this.progress!.since) return;
      await this.take(rows);
      done += rows.rows.length;
      if (rows.pending > 0) this.show({ is: 'copying', way: 'down', share: done / (done + rows.pending) });
      else return;
    }
  }

  /** Sends what waits. What could not be sent waits on. */
  private async send(): Promise<void> {
    const { waiting } = this;
    if (!isWaiting(waiting)) return;
    this.waiting = NOTHING_WAITS;
    try {
      const onProgress = (share: number) => this.show({ is: 'copying', way: 'up', share });
      const { signal } = this.control;
      const upward = { ...this.options, known: this.known, memory: this.memory! };
      const { last, refused } = await sendUp(upward, waiting, { signal, onProgress });
      this.refuse(refused);
      if (last !== undefined) await this.mark(last);
    } catch (error) {
      this.waiting = joinWaiting(waiting, this.waiting);
      throw error;
    }
    await this.note();
  }

  private async mark(last: string): Promise<void> {
    const { device, isMarked } = this.progress!;
    if (!isMarked) await this.options.carrier.setMark(device);
    this.progress = { ...this.progress!, isMarked: true, last };
  }

  /** Waits for a change on either side. */
  private async follow(): Promise<void> {
    const { isWatched = () => true, carrier } = this.options;
    const signal = this.nextBell();
    if (signal.aborted || (isWaiting(this.waiting) && !this.isGathering)) return;
    if (!isWatched()) {
      await this.rest(UNWATCHED_MS);
      return this.takeAll();
    }
    try {
      await this.take(await carrier.hold(this.progress!.since, signal));
    } catch (error) {
      if (!signal.aborted) throw error;
    }
  }

  private nextBell(): AbortSignal {
    if (this.bell.signal.aborted) this.bell = new AbortController();
    return AbortSignal.any([this.bell.signal, this.control.signal]);
  }

  private rest(ms: number): Promise<void> {
    const signal = this.nextBell();
    return new Promise((resolve) => {
      if (signal.aborted) return resolve();
      const timer = setTimeout(resolve, ms);
      signal.addEventListener('abort', () => {
        clearTimeout(timer);
        resolve();
      });
    });
  }

  private refuse(refused: readonly Refused[]): void {
    if (refused.length > 0) this.refused = [...refused, ...this.refused].slice(0, REFUSED_KEPT);
  }

  /** Notes how far it has come, one note after the other, each as things then stand. */
  private note(): Promise<unknown> {
    this.noting = this.noting.then(async () => {
      if (this.progress) await noteProgress(this.options.ledger, { ...this.progress, waiting: this.waiting });
    });
    return this.noting;
  }

  private show(state: SharingState): void {
    this.state = state;
    this.options.changed?.();
  }
}
