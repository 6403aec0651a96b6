import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Id } from '../../shared/ids.ts';
import type { KnifeInHand } from '../../src/plan/knife-yield.ts';
import type { LibraryController } from '../store/library-controller.ts';
import { lastKnife, logKey, readKnives, type Knives } from './yields.ts';

/** Keeps what the maker's knives are known to take, read anew when a log changes. */
export class KnifeController implements ReactiveController {
  private readonly host: ReactiveControllerHost;
  private readonly library: LibraryController;
  private logs = '';
  private knives: Knives | undefined;

  constructor(host: ReactiveControllerHost, library: LibraryController) {
    this.host = host;
    this.library = library;
    host.addController(this);
  }

  hostUpdated() {
    const { store } = this.library;
    if (!store) return;
    const logs = logKey(store);
    if (logs === this.logs) return;
    this.logs = logs;
    void readKnives(store).then((knives) => {
      this.knives = knives;
      this.host.requestUpdate();
    });
  }

  /** The knife that a reed is worked with. */
  inHand(reedId: Id | undefined): KnifeInHand {
    const { store } = this.library;
    const name = store && reedId !== undefined ? lastKnife(store, reedId) : undefined;
    return { name, known: this.knives?.yields.get(name ?? '') };
  }
}
