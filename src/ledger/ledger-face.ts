import type { Id } from '../../shared/ids.ts';
import type { DocumentKind, Gone, LibraryDocument, NotChosen } from '../../shared/library.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Act } from '../../shared/round.ts';
import type { Journal } from './journal/journal.ts';
import type { MergeReport } from './merge.ts';
import type { ProgressOptions } from './patience.ts';
import type { AboutPhoto } from './photos.ts';
import type { Changed, Incoming, WholeLibrary } from './whole-library.ts';
import type { Checked, Portions } from './read-library.ts';
import type { Taking } from './store-library.ts';
import type { Draft, Step } from './drafts.ts';
import type { LateRound } from './late-acts.ts';
import type { Health, StorageManagerLike } from './health.ts';
import type { ChangeListener } from './notices.ts';
import type { Siblings } from './sides.ts';
import type { Snapshot } from './snapshot.ts';
import type { ActDraft, SeenActs } from './store.ts';

export interface LedgerOptions {
  /** Name of the database. */
  readonly name?: string;
  readonly clock?: () => Date;
  /** Fresh random bytes. */
  readonly random?: (count: number) => Uint8Array;
  /** Called while another window holds the opening up: the maker should close it. */
  readonly onWaiting?: () => void;
  readonly storage?: StorageManagerLike;
  /** Where a change is written besides, before it is called kept. Pictures are not. */
  readonly journal?: Pick<Journal, 'append'>;
  /** How many changes of a device are in a copy outside the database. */
  readonly knownCount?: (deviceId: Id) => Promise<number>;
}

/** One accepted change, as it was written. */
export interface Kept {
  readonly label: string;
  readonly steps: readonly Step[];
}

/** The one place where a maker's library is kept. */
export interface Ledger {
  readonly deviceId: Id;
  /** False when a newer version of the program owns the library: it can then only be read. */
  readonly writable: boolean;
  readonly newId: () => Id;
  /** Local time with offset, by the ledger's clock. */
  readonly now: () => string;
  readonly read: () => Promise<Snapshot>;
  /** Documents in use of one kind. */
  readonly documents: <K extends DocumentKind>(kind: K) => Promise<Snapshot['live'][K]>;
  /** A reed's passes with their readings, those in use. */
  readonly passesOf: (reedId: Id) => Promise<readonly Pass[]>;
  /** A document in use or in the bin. */
  readonly get: (id: Id) => Promise<LibraryDocument | undefined>;
  /**
   * Keeps one change, whole or not at all; resolves when it is on the disk. A draft with `versions` changes the
   * document that was read with them.
   *
   * @param seen When the change closes a round: how many acts were folded into its pass.
   * @throws FormatError, ConflictError, StorageError
   */
  readonly keep: (drafts: readonly Draft[], label: string, seen?: SeenActs) => Promise<Kept>;
  /** Puts documents into the bin. */
  readonly remove: (ids: readonly Id[], label: string) => Promise<Kept>;
  /** Takes documents out of the bin. */
  readonly restore: (ids: readonly Id[], label: string) => Promise<Kept>;
  /** Removes documents in the bin for good, from this device only. Cannot be undone. */
  readonly purge: (ids: readonly Id[]) => Promise<void>;
  /** Ends a disagreement with what the maker chose, or takes what was not chosen; all sides are kept as not chosen. */
  readonly settle: (chosen: LibraryDocument, seen: Siblings, label: string) => Promise<Kept>;
  /** Adds to the log of an open round; resolves when it is on the disk. Calls keep their order. */
  readonly appendAct: (draft: ActDraft) => Promise<Act>;
  /** Sides that were not chosen where devices had disagreed. */
  readonly notChosen: () => Promise<readonly NotChosen[]>;
  /** A round's log, in the order of its counts. */
  readonly actsOf: (roundId: Id) => Promise<readonly Act[]>;
  /** Acts that this window has read or was given, in the order of their counts: what is left of them when the database is gone. */
  readonly heldActs: () => readonly Act[];
  /** Finished rounds with acts that came too late for their pass, and that nobody has decided on. */
  readonly lateRounds: () => Promise<readonly LateRound[]>;
  /** Keeps a photograph and its document together. @throws InputError when it is too large or no picture. */
  readonly keepPhoto: (about: AboutPhoto, bytes: Uint8Array, label: string) => Promise<Kept>;
  /** The bytes of a photograph; nothing when only its document came here. */
  readonly photoBytes: (sha256: string) => Promise<Uint8Array | undefined>;
  /** Everything at once; for a small library. */
  readonly readWhole: () => Promise<WholeLibrary>;
  /** A part of the library, or all of it, in portions: for a copy of any size. */
  readonly portions: (changed: Changed | 'all') => Promise<Portions>;
  /** What is remembered of documents that were removed for good. */
  readonly goneOf: (ids: readonly Id[]) => Promise<readonly Gone[]>;
  /** What `merge` would do. @throws FormatError */
  readonly compare: (incoming: Incoming, taking?: Taking) => Promise<MergeReport>;
  /** Takes another library in, whole or not at all. Nothing that is here is lost. @throws FormatError */
  readonly merge: (incoming: Incoming, taking?: Taking) => Promise<MergeReport>;
  /** Looks at every record, whatever was found sound before. What is not is set aside from then on. */
  readonly checkAll: (patience?: ProgressOptions) => Promise<Checked>;
  /** Small things to remember about this device that are no part of the library. */
  readonly recall: (key: string) => Promise<unknown>;
  readonly remember: (key: string, value: unknown) => Promise<void>;
  /** What is remembered of documents on this device, of those of which there is anything. It goes with its document. */
  readonly recallOf: (ids: readonly Id[]) => Promise<ReadonlyMap<Id, unknown>>;
  readonly rememberOf: (all: ReadonlyMap<Id, unknown>) => Promise<void>;
  readonly onChange: (listener: ChangeListener) => () => void;
  readonly health: () => Promise<Health>;
  /** Asks the browser not to clear the library away. Returns its answer. */
  readonly requestPersistence: () => Promise<boolean>;
  readonly close: () => void;
}
