import type { Id } from '../../shared/ids.ts';
import type { Act } from '../../shared/round.ts';
import type { Versions } from '../../shared/stamp.ts';
import type { LibraryDocument } from '../../shared/library.ts';
import type { Ledger } from '../ledger/ledger-face.ts';
import { compareVersions } from '../ledger/versions.ts';

/** What a document of a shared case holds, as far as another may hold more of it. */
export type Held = { readonly acts: readonly Id[] } | { readonly document: Id; readonly versions: Versions };

export const heldActs = (acts: readonly Act[]): Held => ({ acts: acts.map(({ id }) => id) });
export const heldDocument = ({ id, versions }: Pick<LibraryDocument, 'id' | 'versions'>): Held => ({
  document: id,
  versions,
});

/**
 * Whether one holds all of another, and more. A strict order: whatever is taken out because another holds more of it,
 * the largest of all stays, whoever takes out what, and in whatever order.
 */
export function holdsMore(more: Held, less: Held): boolean {
  if ('acts' in more && 'acts' in less) {
    if (less.acts.length >= more.acts.length) return false;
    const all = new Set(more.acts);
    return less.acts.every((id) => all.has(id));
  }
  if ('acts' in more || 'acts' in less || more.document !== less.document) return false;
  return compareVersions(more.versions, less.versions) === 'newer';
}

/** A document that this device has sent. */
export interface SentOne {
  readonly id: string;
  readonly rev: string;
  readonly held: Held;
}

const SENT = 'shared case sent';
/** So many acts and documents are remembered: some weeks of readings. What was sent before stays there. Our own number. */
const MOST = 4000;

const weightOf = ({ held }: SentOne) => ('acts' in held ? held.acts.length : 1);

/** What this device has sent and may take out again, once more of it is there. */
export class SentMemory {
  private all: readonly SentOne[];
  private readonly ledger: Pick<Ledger, 'recall' | 'remember'> | undefined;

  constructor(all: readonly SentOne[] = [], ledger?: SentMemory['ledger']) {
    this.all = all;
    this.ledger = ledger;
  }

  static async open(ledger: Ledger): Promise<SentMemory> {
    return new SentMemory(((await ledger.recall(SENT)) ?? []) as readonly SentOne[], ledger);
  }

  get isEmpty(): boolean {
    return this.all.length === 0;
  }

  supersededBy(there: readonly Held[]): readonly SentOne[] {
    return this.all.filter(({ held }) => there.some((more) => holdsMore(more, held)));
  }

  /** Notes what was sent, and forgets what was taken out. */
  async change(sent: readonly SentOne[], out: readonly SentOne[] = []): Promise<void> {
    if (sent.length + out.length === 0) return;
    let weight = 0;
    this.all = [...sent, ...this.all.filter((one) => !out.includes(one))].filter(
      (one) => (weight += weightOf(one)) <= MOST,
    );
    await this.ledger?.remember(SENT, this.all);
  }

  async clear(): Promise<void> {
    this.all = [];
    await this.ledger?.remember(SENT, undefined);
  }
}
