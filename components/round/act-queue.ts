import type { Id } from '../../shared/ids.ts';
import type { Act } from '../../shared/round.ts';
import type { ActDraft } from '../../src/ledger/store.ts';

/** Keeps one act; resolves when it is on the disk. */
export type KeepAct = (draft: ActDraft) => Promise<Act>;

/** A draft whose act can be referred to before it is kept. */
export type NamedDraft = ActDraft & { readonly id: Id };

/** An act that waits to be kept, as a round's fold can read it: after everything kept, in order. */
function provisional(draft: NamedDraft, seq: number): Act {
  return { ...draft, deviceId: draft.id, seq, at: draft.at ?? '' };
}

/**
 * Keeps acts one after the other, in the order in which they were made, so that no key ever waits for the disk. An act
 * that cannot be kept stays first in the queue with all that follow it, and is tried again with the next act.
 */
export class ActQueue {
  private waiting: readonly NamedDraft[] = [];
  private busy = false;
  private readonly keep: KeepAct;
  private readonly changed: () => void;

  /** Acts on the disk. */
  kept: readonly Act[];
  /** Why the first waiting act could not be kept. */
  trouble: unknown;

  constructor(kept: readonly Act[], keep: KeepAct, changed: () => void) {
    this.kept = kept;
    this.keep = keep;
    this.changed = changed;
  }

  /** Kept acts and, after them, those that wait. */
  get all(): readonly Act[] {
    const last = this.kept.reduce((most, { seq }) => Math.max(most, seq), 0);
    return [...this.kept, ...this.waiting.map((draft, i) => provisional(draft, last + 1 + i))];
  }

  get nWaiting(): number {
    return this.waiting.length;
  }

  isWaiting(id: Id): boolean {
    return this.waiting.some((draft) => draft.id === id);
  }

  push(drafts: readonly NamedDraft[]): void {
    this.waiting = [...this.waiting, ...drafts];
    void this.run();
  }

  /** Takes in a log with acts that were kept elsewhere: in another window, or on another device. */
  join(log: readonly Act[]): void {
    const known = new Set(log.map(({ id }) => id));
    const own = this.kept.filter(({ id }) => !known.has(id));
    if (log.length + own.length === this.kept.length) return;
    this.kept = [...log, ...own];
    this.waiting = this.waiting.filter(({ id }) => !known.has(id));
    this.changed();
  }

  /** Tries again to keep what waits. */
  async run(): Promise<void> {
    if (this.busy) return;
    this.busy = true;
    try {
      for (let first = this.waiting[0]; first; first = this.waiting[0]) {
        const act = await this.keep(first);
        this.kept = [...this.kept, act];
        this.waiting = this.waiting.slice(1);
        this.trouble = undefined;
        this.changed();
      }
    } catch (error) {
      this.trouble = error;
      this.changed();
    } finally {
      this.busy = false;
    }
  }
}
