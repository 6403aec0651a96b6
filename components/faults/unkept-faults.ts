import { Task } from '@lit/task';
import { html, nothing, type ReactiveControllerHost, type TemplateResult } from 'lit';
import type { Pass } from '../../shared/pass.ts';
import type { Remedy } from '../../shared/remedy.ts';
import type { PassFaults } from '../../src/faults/fault.ts';
import type { LibraryController } from '../store/library-controller.ts';
import type { FaultRemedyEvent, FaultTakeBackEvent } from './fault-events.ts';

/**
 * What the readings of a pass show to be wrong before it is kept, against the passes before it: blades written for each
 * other, left for right, a moved zero. Each with the one act that puts it right in the pass; nothing is put right by
 * itself, and nothing holds the maker up.
 */
export class UnkeptFaults {
  private readonly host: ReactiveControllerHost;
  private readonly library: LibraryController;
  private readonly search: Task<[Pass | undefined], PassFaults | undefined>;
  private pass: Pass | undefined;
  /** Acts that the maker took. */
  remedies: readonly Remedy[] = [];

  constructor(host: ReactiveControllerHost, library: LibraryController) {
    this.host = host;
    this.library = library;
    this.search = new Task(host, {
      task: async ([pass], { signal }) => {
        const { store } = library;
        const reed = pass && store?.reed(pass.reedId);
        if (!reed) return undefined;
        const [{ found }] = await Promise.all([
          store!.models.faults(reed, [...store!.passesOf(reed.id), pass], signal),
          import('./fault-notice.ts'),
        ]);
        return found.find(({ index }) => index === pass.index);
      },
      args: () => [this.pass],
    });
  }

  /** Looks at a pass that is to be kept; at none, where there is nothing to set it beside. */
  look(pass: Pass | undefined): void {
    if (pass?.id !== this.pass?.id) this.remedies = [];
    this.pass = pass;
    this.host.requestUpdate();
  }

  render(): TemplateResult | typeof nothing {
    const found = this.search.value;
    if (!found && this.remedies.length === 0) return nothing;
    return html`<bench-fault-notice
      .found=${found}
      .remedies=${this.remedies}
      ?accident=${this.pass?.scrape?.accident !== undefined}
      .writing=${this.library.writing}
      @bench-fault-remedy=${({ remedy }: FaultRemedyEvent) => this.change([...this.remedies, remedy])}
      @bench-fault-take-back=${({ at }: FaultTakeBackEvent) =>
        this.change(this.remedies.filter((_, i) => i !== at))}
    ></bench-fault-notice>`;
  }

  private change(remedies: readonly Remedy[]): void {
    this.remedies = remedies;
    this.host.requestUpdate();
  }
}
