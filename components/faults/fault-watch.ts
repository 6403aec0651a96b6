import { Task, TaskStatus } from '@lit/task';
import { html, nothing, type ReactiveControllerHost, type TemplateResult } from 'lit';
import type { Pass, PassHead } from '../../shared/pass.ts';
import { withSurfaces } from '../../src/answers/concurrent/fit-request.ts';
import type { BenchedReed } from '../../src/answers/benched-reed.ts';
import type { PassFaults } from '../../src/faults/fault.ts';
import type { LibraryController } from '../store/library-controller.ts';
import type { FaultRemedyEvent, FaultTakeBackEvent } from './fault-events.ts';

/** What was found in a reed's passes, and the reed as it is fitted when that is known. */
interface Watched {
  readonly found: readonly PassFaults[];
  readonly reed: BenchedReed;
  /** The reed that was looked at. */
  readonly of: BenchedReed;
}

/** Looks for faults in the reed on the bench when its picture stands, and shows those of the shown pass. */
export class FaultWatch {
  private readonly search: Task<[BenchedReed | undefined], Watched | undefined>;
  private readonly library: LibraryController;

  constructor(
    host: ReactiveControllerHost,
    library: LibraryController,
    benched: () => BenchedReed | undefined,
  ) {
    this.library = library;
    this.search = new Task(host, {
      task: async ([reed], { signal }) => {
        const { store } = library;
        if (!reed || !store) return undefined;
        const [{ found, settled }] = await Promise.all([
          store.models.faults(reed.reed, reed.passes, signal),
          import('./fault-notice.ts'),
        ]);
        return { found, reed: settled ? withSurfaces(reed, settled) : reed, of: reed };
      },
      args: () => [benched()],
    });
  }

  /** Figures may still move: the noise of the gauge is judged by passes that are being looked through for faults. */
  isSettling(reed: BenchedReed | undefined): boolean {
    return this.search.status === TaskStatus.PENDING && reed?.model?.noiseFrom === 'passes';
  }

  /** The reed as it is fitted once its faults are known; as it came until then. */
  settled(reed: BenchedReed): BenchedReed {
    const watched = this.search.value;
    return watched?.of === reed ? watched.reed : reed;
  }

  /** The notice for a pass; what was taken for it shows at once. */
  render(pass: Pass | PassHead | undefined): TemplateResult | typeof nothing {
    if (!pass) return nothing;
    const found = this.search.value?.found.find(({ index }) => index === pass.index);
    return html`<bench-fault-notice
      .found=${found}
      .remedies=${pass.remedies}
      ?accident=${pass.scrape?.accident !== undefined}
      .writing=${this.library.writing}
      @bench-fault-remedy=${({ remedy }: FaultRemedyEvent) =>
        this.change(pass, (remedies) => [...remedies, remedy], 'a fault put right')}
      @bench-fault-take-back=${({ at }: FaultTakeBackEvent) =>
        this.change(pass, (remedies) => remedies.filter((_, i) => i !== at), 'a pass as it was read')}
    ></bench-fault-notice>`;
  }

  private change(
    pass: Pass | PassHead,
    changed: (remedies: Pass['remedies']) => Pass['remedies'],
    label: string,
  ): void {
    const store = this.library.store!;
    void store.keepLatest(() => {
      const latest = store.passesOf(pass.reedId).find(({ id }) => id === pass.id) ?? pass;
      return [{ ...latest, remedies: changed(latest.remedies) }];
    }, label);
  }
}
