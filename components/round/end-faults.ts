import { Task } from '@lit/task';
import { html, nothing, type ReactiveControllerHost, type TemplateResult } from 'lit';
import type { Pass } from '../../shared/pass.ts';
import type { Remedy } from '../../shared/remedy.ts';
import type { Act, Round } from '../../shared/round.ts';
import type { PassFaults } from '../../src/faults/fault.ts';
import { foldRound } from '../../src/round/fold-round.ts';
import { passFromRound } from '../../src/round/round-to-pass.ts';
import type { FaultRemedyEvent, FaultTakeBackEvent } from '../faults/fault-events.ts';
import type { LibraryController } from '../store/library-controller.ts';

/**
 * What the readings of a round show to be wrong at its end, against the passes before it: blades written for each other,
 * left for right, a moved zero. Each with the one act that puts it right in the pass that the round becomes; nothing is
 * put right by itself, and nothing holds the maker up.
 */
export class EndFaults {
  private readonly host: ReactiveControllerHost;
  private readonly library: LibraryController;
  private readonly search: Task<[Pass | undefined], PassFaults | undefined>;
  private ended: Pass | undefined;
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
          import('../faults/fault-notice.ts'),
        ]);
        return found.find(({ index }) => index === pass.index);
      },
      args: () => [this.ended],
    });
  }

  /** The round has come to its end with these acts. */
  look(round: Round, acts: readonly Act[]): void {
    const draft = passFromRound(round, foldRound(round, acts));
    // The pass has no identifier yet: the round's stands for it, and its acts tell its states apart.
    const { id, createdAt, updatedAt, formatVersion } = round;
    const stamp = { id, createdAt, updatedAt, formatVersion, versions: { [id]: acts.length } };
    this.ended = { ...draft, ...stamp };
    this.host.requestUpdate();
  }

  forget(): void {
    this.ended = undefined;
    this.remedies = [];
  }

  render(): TemplateResult | typeof nothing {
    const found = this.search.value;
    if (!found && this.remedies.length === 0) return nothing;
    return html`<bench-fault-notice
      .found=${found}
      .remedies=${this.remedies}
      ?accident=${this.ended?.scrape?.accident !== undefined}
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
