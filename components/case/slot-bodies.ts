import type { ReactiveControllerHost } from 'lit';
import type { Reed } from '../../shared/reed.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import { smallBlades } from '../bench/relief-blades.ts';
import { smallBody } from '../relief/small-bodies.ts';
import type { LibraryStore } from '../store/library-store.ts';
import type { Theme } from '../theme/palette.ts';
import { BARK } from './slot-picture.ts';

/** A reed that was read, and what tells its readings from others. */
interface Read {
  readonly key: string;
  readonly benched: FittedReed;
  readonly pass: number;
}

/** Pictures of reeds, as of a case, a life or a list, as small bodies, of bark where nothing was read; they come as the page finds time. */
export class SlotBodies {
  private readonly host: Pick<ReactiveControllerHost, 'requestUpdate'>;
  private readonly asked = new Map<string, string>();
  private readonly read = new Map<string, Read>();
  private readonly addresses = new Map<string, string | undefined>();

  constructor(host: Pick<ReactiveControllerHost, 'requestUpdate'>) {
    this.host = host;
  }

  /**
   * Fits reeds of a library and takes them, each once for what was read of it.
   *
   * @param also Told of each, too.
   */
  follow(store: LibraryStore, reeds: readonly Reed[], also?: (benched: FittedReed) => void): void {
    for (const reed of reeds) {
      const passes = store.passesOf(reed.id);
      const key = JSON.stringify([reed.versions, passes.map(({ versions }) => versions)]);
      if (passes.length === 0 || this.asked.get(reed.id) === key) continue;
      this.asked.set(reed.id, key);
      void store.models.settled(reed, passes).then((benched) => {
        this.take(benched);
        also?.(benched);
        this.host.requestUpdate();
      });
    }
  }

  /**
   * Takes the readings of a reed whose blade A, which lies above, was read.
   *
   * @param pass Place of the pass that is shown; the last unless it is said.
   */
  take(benched: FittedReed, pass = benched.passes.length - 1): void {
    const { reed, passes, model } = benched;
    const key = JSON.stringify([reed.id, reed.versions, passes.map(({ versions }) => versions), pass]);
    if (model?.blades.A) this.read.set(reed.id, { key, benched, pass });
  }

  /** The address of a reed's picture; undefined until it is drawn, and where it cannot be. */
  of(id: string, theme: Theme): string | undefined {
    const read = this.read.get(id);
    if (!read && this.asked.has(id)) return undefined;
    const name = `${theme} ${read?.key ?? 'bark'}`;
    if (!this.addresses.has(name)) void this.ask(name, theme, read);
    return this.addresses.get(name);
  }

  private async ask(name: string, theme: Theme, read: Read | undefined) {
    this.addresses.set(name, undefined);
    const blades = () => (read ? smallBlades(read.benched, read.pass) : BARK);
    this.addresses.set(name, await smallBody(name, theme, blades));
    this.host.requestUpdate();
  }
}
