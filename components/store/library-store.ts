import type { Id } from '../../shared/ids.ts';
import type { LibraryDocument } from '../../shared/library.ts';
import type { Pass, PassHead } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Trial } from '../../shared/trial.ts';
import type { Draft } from '../../src/ledger/drafts.ts';
import { readHere, type Reader } from '../../src/incoming/reader.ts';
import { openHistory, type History, type HistoryState } from '../../src/ledger/history.ts';
import type { Kept, Ledger } from '../../src/ledger/ledger-face.ts';
import type { LedgerChange } from '../../src/ledger/notices.ts';
import type { Snapshot } from '../../src/ledger/snapshot.ts';
import type { CopyTrouble, SecondCopy } from '../../src/ledger/open-library.ts';
import type { Siblings } from '../../src/ledger/sides.ts';
import type { SeenActs } from '../../src/ledger/store.ts';
import { ownStyle } from '../../src/blade/own-style.ts';
import type { StyleTemplate } from '../../src/blade/starting-styles.ts';
import { StorageError } from '../../src/ledger/errors.ts';
import { GuestError, touchedBy } from '../../src/sharing/guest.ts';
import type { WorkerLike } from '../../src/workers/client.ts';
import type { GaugeSource } from '../gauge/gauge-source.ts';
import { USUAL_CHOICES, type Choices } from './choices.ts';
import { makeFitThread } from './fit-thread.ts';
import { libraryIndex } from './library-index.ts';
import { othersNow } from './others-now.ts';
import { makeModelCache, type ModelCache, type StyleNow } from './model-cache.ts';
import { withScraped } from './scraped.ts';
import { makeReadingsCache, type ReadingsCache } from './readings-cache.ts';
import { keepFirst } from './spare-time.ts';
import { rescueAct, troubleOf, type Trouble } from './trouble.ts';

/** How the keeping stands, for the top bar. */
export type Keeping =
  | { readonly state: 'opening' | 'keeping' | 'trouble' }
  /** `once`: journal or second copy could not be written, and what is kept stands in one place only. */
  | { readonly state: 'kept'; readonly at: Date; readonly once?: boolean };

/** What works beside the page; what is left out is done on the page's own thread. */
interface Workers {
  readonly reader: Reader;
  /** Starts the worker that fits reeds. */
  readonly startFits?: () => WorkerLike;
  /** What is wrong with journal and second copy. */
  readonly copyTroubles?: () => readonly CopyTrouble[];
}

/** Where it is remembered which equal names the maker has left as they are. */
const LEFT = 'equal names left';
async function recallLeft(ledger: Ledger): Promise<ReadonlySet<string>> {
  const left = await ledger.recall(LEFT);
  return new Set(Array.isArray(left) ? left.map(String) : []);
}

/** A round that has been begun and not put down. */
type Round = Snapshot['live']['round'][number];

/**
 * What the page shows of the maker's library, and the way to change it. Every change goes through the ledger and can be
 * undone; what went wrong stands in `trouble`.
 */
export class LibraryStore extends EventTarget {
  readonly ledger: Ledger;
  readonly models: ModelCache;
  readonly readings: ReadingsCache;
  snapshot: Snapshot;
  keeping: Keeping;
  trouble: Trouble | undefined;
  /** The gauge that is heard, whichever screen is shown. */
  gauge: GaugeSource | undefined;
  /** The copy of the library in another storage of the browser, where it has one. */
  readonly copy: SecondCopy | undefined;
  /** What is wrong with journal and second copy now. */
  readonly copyTroubles: () => readonly CopyTrouble[];
  /** The own name on what is read here, in a class or workshop. */
  readerName: string | undefined;
  /** What is the shared case's, where this device reads it as a guest: it stays as it is there. */
  lent: ReadonlySet<Id> = new Set();
  /** Reads what is brought in. */
  readonly reader: Reader;
  private readonly history: History;
  /** Changes are made one after the other, each on top of the one before: no key has to wait for the disk. */
  private queue: Promise<unknown> = Promise.resolve();
  private reads = { begun: 0, shown: 0 };
  /** Reeds whose readings are being read. */
  private readonly awaited = new Set<Id>();
  private left: ReadonlySet<string> = new Set();
  private readonly stop: () => void;

  private constructor(
    ledger: Ledger,
    snapshot: Snapshot,
    copy: SecondCopy | undefined,
    { reader, startFits, copyTroubles = () => [] }: Workers,
  ) {
    super();
    const fits = makeFitThread(startFits);
    this.readings = makeReadingsCache(ledger.passesOf);
    this.models = makeModelCache(
      () => this.snapshot.live.gauge,
      fits,
      this.readings,
      (styleId) => this.styleNow(styleId),
      (reed, passes) => (this.choices.fromOthers ? othersNow(this.snapshot, reed, passes) : undefined),
    );
    this.ledger = ledger;
    this.copy = copy;
    this.reader = reader;
    this.snapshot = snapshot;
    this.copyTroubles = copyTroubles;
    this.keeping = this.kept();
    this.history = openHistory(ledger);
    const stopHearing = ledger.onChange((change) => void this.take(change));
    const stopMinding = copy?.mirroring.onChange(() => this.mindCopies());
    this.stop = () => {
      stopHearing();
      stopMinding?.();
      fits.close();
    };
  }

  static async over(
    ledger: Ledger,
    copy?: SecondCopy,
    workers: Partial<Workers> = {},
  ): Promise<LibraryStore> {
    const [snapshot, left] = await Promise.all([ledger.read(), recallLeft(ledger)]);
    const store = new LibraryStore(ledger, snapshot, copy, { reader: readHere, ...workers });
    store.left = left;
    return store;
  }

  /** Whether the maker has left an equal name as it is, by the key of its question; remembered on this device. */
  hasLeft(key: string): boolean {
    return this.left.has(key);
  }

  async leave(key: string): Promise<void> {
    // Another window may have left others since.
    const left = new Set([...(await recallLeft(this.ledger)), key]);
    await this.ledger.remember(LEFT, [...left]);
    this.left = left;
    this.changed();
  }

  get choices(): Choices {
    return { ...USUAL_CHOICES, ...this.snapshot.live.settings[0] };
  }

  /** A style with the maker's own zones and floors. */
  styleOf(styleId: string): StyleTemplate {
    return ownStyle(styleId, this.snapshot.live);
  }

  /** The same with what tells one state of it from another; undefined where it is as it starts. */
  styleNow(styleId: string): StyleNow | undefined {
    const { floors, zones } = this.snapshot.live;
    const own = [...floors, ...zones].filter((one) => one.styleId === styleId);
    if (own.length === 0) return undefined;
    const key = JSON.stringify(own.map(({ id, versions }) => [id, versions]));
    return { key, style: this.styleOf(styleId) };
  }

  get undoable(): HistoryState {
    return this.history.state();
  }

  /** Reeds that are not retired first, each group by label. */
  get reeds(): readonly Reed[] {
    return libraryIndex(this.snapshot).reeds;
  }

  reed(id: Id): Reed | undefined {
    return libraryIndex(this.snapshot).reed.get(id);
  }

  /** A reed's passes in their order, without their readings. */
  passesOf(reedId: Id): readonly PassHead[] {
    return libraryIndex(this.snapshot).passesOf(reedId);
  }

  /**
   * A reed's passes in their order, with their readings, where these are at hand. Otherwise undefined: they are then
   * read, and the library says that it has changed.
   */
  wholePassesOf(reedId: Id): readonly Pass[] | undefined {
    const passes = this.readings.peek(reedId);
    if (!passes && !this.awaited.has(reedId)) {
      this.awaited.add(reedId);
      void this.loadPasses(reedId)
        .then(() => this.changed())
        .catch((error: unknown) => this.tell(error))
        .finally(() => this.awaited.delete(reedId));
    }
    return passes;
  }

  /** A reed's passes in their order, with their readings. */
  async loadPasses(reedId: Id): Promise<readonly Pass[]> {
    return this.readings.peek(reedId) ?? this.readings.load(reedId);
  }

  trialsOf(reedId: Id): readonly Trial[] {
    return libraryIndex(this.snapshot).trials.get(reedId) ?? [];
  }

  openRoundOf(reedId: Id): Round | undefined {
    return this.snapshot.live.round.find((round) => round.reedId === reedId && round.closedAs === undefined);
  }

  /** Keeps one change; false when it could not be kept, and then `trouble` says why. */
  keep(drafts: readonly Draft[], label: string, seen?: SeenActs): Promise<boolean> {
    return this.write(() => this.history.keep(this.own(this.scraped(drafts)), label, seen));
  }

  /** As `keep`, of what is made from the library as it stands when the changes before this one are kept. */
  keepLatest(make: () => readonly Draft[], label: string): Promise<boolean> {
    return this.write(() => this.history.keep(this.own(this.scraped(make())), label));
  }

  /** @throws GuestError where one is the shared case's and this device its guest. */
  checkOwn(ids: readonly Id[]): void {
    if (ids.some((id) => this.lent.has(id))) throw new GuestError();
  }

  private own(drafts: readonly Draft[]): readonly Draft[] {
    this.checkOwn(touchedBy(drafts));
    return drafts;
  }

  private scraped(drafts: readonly Draft[]): readonly Draft[] {
    return withScraped(drafts, (id) => this.reed(id));
  }

  remove(ids: readonly Id[], label: string): Promise<boolean> {
    return this.write(() => {
      this.checkOwn(ids);
      return this.history.remove(ids, label);
    });
  }

  restore(ids: readonly Id[], label: string): Promise<boolean> {
    return this.write(() => {
      this.checkOwn(ids);
      return this.history.restore(ids, label);
    });
  }

  /** Removes what is in the bin for good. Cannot be undone. */
  purge(ids: readonly Id[]): Promise<boolean> {
    return this.write(async () => void (await this.ledger.purge(ids)));
  }

  /** Ends a disagreement with the side that the maker chose. */
  settle(chosen: LibraryDocument, seen: Siblings, name: string): Promise<boolean> {
    return this.write(() => {
      this.checkOwn([chosen.id]);
      return this.history.settle(chosen, seen, `choosing a side of ${name}`);
    });
  }

  undo(): Promise<boolean> {
    return this.write(() => this.history.undo());
  }

  redo(): Promise<boolean> {
    return this.write(() => this.history.redo());
  }

  choose(changed: Partial<Choices>): Promise<boolean> {
    // Made from what stands when its turn comes: a choice right after another one is not a quarrel of two windows.
    const draft = (): Draft => {
      const settings = this.snapshot.live.settings[0];
      return settings ? { ...settings, ...changed } : { kind: 'settings', ...USUAL_CHOICES, ...changed };
    };
    return this.write(() => this.ledger.keep([draft()], 'a choice in Setup'));
  }

  /** Hears another gauge from now on; the one before is closed. */
  useGauge(gauge: GaugeSource | undefined): void {
    const before = this.gauge;
    this.gauge = gauge;
    this.changed();
    if (before !== gauge) before?.close().catch((error: unknown) => this.tell(error));
  }

  /** Shows what was thrown in the one place for it. */
  tell(error: unknown): void {
    this.trouble = troubleOf(error);
    if (error instanceof StorageError && error.trouble === 'gone')
      this.trouble = {
        ...this.trouble,
        act: rescueAct(() => this.snapshot, this.readings.held, this.ledger.heldActs),
      };
    if (error instanceof StorageError) this.keeping = { state: 'trouble' };
    this.changed();
  }

  dismiss(): void {
    this.trouble = undefined;
    this.changed();
  }

  /** Reads the library anew, after something was kept past the store. */
  async refresh(): Promise<void> {
    await this.read();
    this.keeping = this.kept();
    this.changed();
  }

  /** Lets go of the library; the ledger stays open. */
  close(): void {
    this.stop();
  }

  private kept(at = new Date()): Keeping {
    return { state: 'kept', at, ...(this.copyTroubles().length > 0 && { once: true }) };
  }

  /** The copies go on by themselves: the word for them changes when they do. */
  private mindCopies(): void {
    const { keeping } = this;
    if (keeping.state !== 'kept') return;
    this.keeping = this.kept(keeping.at);
    if (this.copyTroubles().length > 0 !== (keeping.once ?? false)) this.changed();
  }

  /** Reads the library; of two reads the one begun later is shown. */
  private async read(): Promise<void> {
    const turn = ++this.reads.begun;
    const snapshot = await this.ledger.read();
    await this.readings.follow(snapshot.passesOf);
    if (turn < this.reads.shown) return;
    this.reads.shown = turn;
    this.snapshot = snapshot;
  }

  private write(work: () => Promise<Kept | string | undefined>): Promise<boolean> {
    const written = this.queue.then(() => this.writeNow(work));
    this.queue = written;
    keepFirst(written);
    return written;
  }

  private async writeNow(work: () => Promise<Kept | string | undefined>): Promise<boolean> {
    this.keeping = { state: 'keeping' };
    this.dispatchEvent(new Event('bench-library-keeping'));
    try {
      await work();
      this.keeping = this.kept();
      this.trouble = undefined;
      await this.read();
      this.changed();
      return true;
    } catch (error) {
      this.keeping = this.kept();
      this.tell(error);
      return false;
    }
  }

  private async take(change: LedgerChange): Promise<void> {
    if (change.what === 'closed') this.tell(new StorageError(change.trouble));
    else if (!change.here || change.isShared) {
      await this.read();
      this.changed();
    }
  }

  private changed(): void {
    this.dispatchEvent(new Event('bench-library-change'));
  }
}
