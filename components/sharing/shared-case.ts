import type { Id } from '../../shared/ids.ts';
import type { Chosen } from '../../src/sharing/chosen.ts';
import { CarrierError, type Carrier } from '../../src/sharing/carrier.ts';
import { readAsGuest } from '../../src/sharing/guest.ts';
import { forgetProgress } from '../../src/sharing/progress.ts';
import type { Login } from '../../src/sharing/pouch-carrier.ts';
import { Sharing } from '../../src/sharing/sharing.ts';
import { awayWords, stateWords, troubleWords } from '../../src/sharing/sharing-words.ts';
import type { LibraryStore } from '../store/library-store.ts';
import { enterAddress, mayAsk } from './shared-address.ts';

/** What a maker has entered for a shared case. It is kept for this device alone, beside the library and not in it. */
export interface Entered extends Login {
  /** What all is locked with that is sent; empty where it is not. */
  readonly passphrase: string;
  readonly chosen: Chosen;
  /** `tried`: only asked whether it is there; nothing of the library was sent. */
  readonly is: 'tried' | 'on' | 'paused';
}

const ENTERED = 'shared case';

/** What was entered before notes could be left out has them. */
const withNotes = (entered: Entered | undefined) =>
  entered && { ...entered, chosen: { ...entered.chosen, notes: entered.chosen.notes ?? true } };

async function carrierOf({ passphrase, ...login }: Entered, end?: AbortSignal): Promise<Carrier> {
  const { openCarrier } = await import('../../src/sharing/pouch-carrier.ts');
  const carrier = openCarrier(login, end);
  if (!passphrase) return carrier;
  const { sealing } = await import('../../src/sharing/sealed.ts');
  return sealing(carrier, passphrase, login.name);
}

/** What came of trying an address: good, or what is wrong. */
interface Trial {
  readonly isGood: boolean;
  readonly words: string;
}

/** Asks whether all is right, and sends nothing. @throws CarrierError */
async function tried(entered: Entered): Promise<Trial> {
  const plain = await carrierOf({ ...entered, passphrase: '' });
  await plain.greet();
  const { isSealed } = await import('../../src/sharing/sealed.ts');
  if (await isSealed(plain)) {
    if (!entered.passphrase)
      return { isGood: false, words: 'This case is locked with a passphrase: enter it, too.' };
    await (await carrierOf(entered)).greet();
  }
  return { isGood: true, words: 'The server answers, and the name and the password are right.' };
}

/** Something that is shown of sharing is no longer as it was. */
class SharedCaseEvent extends Event {
  constructor() {
    super('bench-shared-case');
  }
}

/** The shared case of a library, where it has one: one window of all that are open keeps it in step. */
class SharedCase extends EventTarget {
  entered: Entered | undefined;
  sharing: Sharing | undefined;
  trial: Trial | undefined;
  private readonly store: LibraryStore;
  private done: Promise<unknown> = Promise.resolve();
  private end = new AbortController();
  private toldOf: Sharing | undefined;

  constructor(store: LibraryStore) {
    super();
    this.store = store;
    const wake = () => this.sharing?.wake();
    document.addEventListener('visibilitychange', wake);
    addEventListener('online', wake);
    store.addEventListener('bench-library-change', () => void this.knowLent());
    void this.begin();
  }

  private async begin(): Promise<void> {
    this.entered = withNotes((await this.store.ledger.recall(ENTERED)) as Entered | undefined);
    this.nameReader();
    await this.knowLent();
    this.tell();
    if (this.entered?.is === 'tried') await this.attempt();
    if (this.entered?.is === 'on') this.start();
  }

  /** In a class or workshop each has an own name on what they read. */
  private nameReader(): void {
    const { entered } = this;
    const isOfClass = entered?.chosen.role === 'class' && entered.is !== 'tried';
    this.store.readerName = isOfClass ? entered.name : undefined;
  }

  /** What a guest has read of the case stays as it is there. */
  private async knowLent(): Promise<void> {
    const isGuest = this.entered?.chosen.role === 'guest' && this.entered.is !== 'tried';
    const lent = isGuest ? await readAsGuest(this.store.ledger) : new Set<Id>();
    if (lent.size === this.store.lent.size) return;
    this.store.lent = lent;
    await this.store.refresh();
  }

  /** Asks an address whether there is a case, and whether name and password are right. Loads the page anew where it may not ask there yet. */
  async try(entered: Omit<Entered, 'is'>): Promise<void> {
    this.trial = undefined;
    await this.enter({ ...entered, is: 'tried' });
    enterAddress(entered.address);
    if (mayAsk(entered.address)) await this.attempt();
    else location.reload();
  }

  private async attempt(): Promise<void> {
    const { entered } = this;
    if (!entered) return;
    try {
      this.trial = await tried(entered);
    } catch (error) {
      this.trial = { isGood: false, words: await this.why(error, entered.address) };
    }
    this.tell();
  }

  private async why(error: unknown, address: string): Promise<string> {
    if (!(error instanceof CarrierError) || error.trouble !== 'away') return troubleWords(error);
    const { answersAt } = await import('../../src/sharing/bounded-fetch.ts');
    const answers = navigator.onLine && (await answersAt(address));
    return awayWords({ hasNetwork: navigator.onLine, answers, origin: location.origin });
  }

  /** Shares from now on. */
  async share(): Promise<void> {
    if (!this.entered) return;
    await this.stop();
    await this.enter({ ...this.entered, is: 'on' });
    this.start();
  }

  async pause(): Promise<void> {
    if (!this.entered) return;
    await this.enter({ ...this.entered, is: 'paused' });
    await this.stop();
  }

  /** Forgets address, name and password. Everything here stays. */
  async leave(): Promise<void> {
    await this.stop();
    await this.enter(undefined);
    await forgetProgress(this.store.ledger);
    enterAddress(undefined);
    // The page that is loaded anew may ask itself alone.
    location.reload();
  }

  private async enter(entered: Entered | undefined): Promise<void> {
    this.entered = entered;
    this.nameReader();
    await this.store.ledger.remember(ENTERED, entered);
    this.tell();
  }

  private async stop(): Promise<void> {
    this.end.abort();
    this.sharing?.stop();
    await this.done;
    this.sharing = undefined;
    this.tell();
  }

  private start(): void {
    this.end = new AbortController();
    const { signal } = this.end;
    // Held for as long as this window shares: another one takes over when it is closed.
    this.done = navigator.locks
      .request('hundredths shared case', { signal }, () => this.run(signal))
      .catch((error: unknown) => {
        if (!signal.aborted) this.store.tell(error);
      });
  }

  private async run(signal: AbortSignal): Promise<void> {
    const { entered, store } = this;
    const carrier = entered && (await carrierOf(entered, signal));
    if (!carrier || signal.aborted) return;
    this.sharing = new Sharing({
      ledger: store.ledger,
      carrier,
      chosen: entered.chosen,
      by: entered.name,
      isWatched: () => document.visibilityState === 'visible',
      changed: () => this.follow(),
    });
    this.tell();
    await this.sharing.run();
  }

  /** What does not pass by itself is said wherever the maker is, once. */
  private follow(): void {
    const { sharing, store } = this;
    if (sharing?.state.is === 'trouble' && this.toldOf !== sharing) {
      this.toldOf = sharing;
      store.trouble = {
        words: `The case is not shared any more: ${stateWords(sharing.state)} Setup has more.`,
      };
      void store.refresh();
    }
    this.tell();
  }

  private tell(): void {
    this.dispatchEvent(new SharedCaseEvent());
  }
}

export type { SharedCase };

const cases = new WeakMap<LibraryStore, SharedCase>();

/** The one for a library. */
export function sharedCaseOf(store: LibraryStore): SharedCase {
  const known = cases.get(store);
  if (known) return known;
  const made = new SharedCase(store);
  cases.set(store, made);
  return made;
}
