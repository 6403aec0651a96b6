import { Task } from '@lit/task';
import { html, nothing, type ReactiveControllerHost, type TemplateResult } from 'lit';
import type { Pass, PassHead } from '../../shared/pass.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import type { PassFaults } from '../../src/faults/fault.ts';
import type { LibraryController } from '../store/library-controller.ts';
import type { FaultRemedyEvent, FaultTakeBackEvent } from './fault-events.ts';

/** Shows what was found in the shown pass of the reed on the bench. */
export class FaultWatch {
  private readonly search: Task<[FittedReed | undefined], readonly PassFaults[] | undefined>;
  private readonly library: LibraryController;

  constructor(
    host: ReactiveControllerHost,
    library: LibraryController,
    benched: () => FittedReed | undefined,
  ) {
    this.library = library;
    this.search = new Task(host, {
      task: async ([reed], { signal }) => {
        const { store } = library;
        if (!reed || !store) return undefined;
        const [{ found }] = await Promise.all([
          store.models.faults(reed.reed, reed.passes, signal),
          import('./fault-notice.ts'),
        ]);
        return found;
      },
      args: () => [benched()],
    });
  }

  /** The notice for a pass; what was taken for it shows at once. */
  render(pass: Pass | PassHead | undefined): TemplateResult | typeof nothing {
    if (!pass) return nothing;
    const found = this.search.value?.find(({ index }) => index === pass.index);
    return html`<bench-fault-notice
      .found=${found}
      .remedies=${pass.remedies}
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
