import { css, html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Reed } from '../../shared/reed.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import { nearestProfiles, profileOf, type NearReed } from '../../src/plan/near-profiles.ts';
import { assembleReed } from '../../src/reed/assemble.ts';
import { amountText } from '../../src/words/format.ts';
import { SlotBodies } from '../case/slot-bodies.ts';
import { hrefOf } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { BenchElement } from '../theme/bench-element.ts';

const MOST = 5;
/** Reeds that are compared: those written on last. */
const MOST_COMPARED = 200;

/** The reeds of the library whose readings are most like those of a reed, at their last pass. */
@customElement('bench-near-reeds')
export class NearReeds extends BenchElement {
  static override styles = css`
    ol {
      margin: 0;
      padding: 0;
      list-style: none;
    }
    li {
      display: flex;
      gap: var(--bench-space-3);
      justify-content: space-between;
      align-items: center;
      border-top: 1px solid var(--bench-rule);
    }
    a {
      display: flex;
      gap: var(--bench-space-3);
      align-items: center;
      min-width: var(--bench-touch);
      min-height: var(--bench-touch);
    }
    p {
      margin: 0;
      color: var(--bench-ink3);
      font: var(--bench-font-caption);
    }
  `;

  private readonly library = new LibraryController(this);
  private readonly bodies = new SlotBodies(this);
  @state() private near: readonly NearReed<Reed>[] = [];

  @property({ attribute: false }) benched: FittedReed | undefined;
  @property({ type: Number }) pass = 0;

  override updated(changed: PropertyValues) {
    if (this.benched && (changed.has('benched') || changed.has('pass')))
      void this.look(this.benched, this.pass);
  }

  /** Looks through the reeds that were written on last. */
  private async look(benched: FittedReed, pass: number): Promise<void> {
    const { store } = this.library;
    if (!store) return;
    const reeds = store.reeds
      .filter(({ id }) => id !== benched.reed.id && store.passesOf(id).length > 0)
      .sort((a, b) => b.updatedAt.localeCompare(a.updatedAt))
      .slice(0, MOST_COMPARED);
    const others = [];
    for (const reed of reeds) {
      const passes = await store.readings.whole(store.passesOf(reed.id));
      if (this.benched !== benched || this.pass !== pass) return;
      if (passes.length === 0) continue;
      const assembled = assembleReed({ reed, passes });
      others.push({ reed, profile: profileOf({ assembled }, passes.length - 1) });
    }
    this.near = nearestProfiles(profileOf(benched, pass), others, MOST);
    this.bodies.follow(
      store,
      this.near.map(({ reed }) => reed),
    );
  }

  private renderBody({ id }: Reed) {
    const body = this.bodies.of(id, this.theme.name);
    return body ? html`<img alt="" height="44" src=${body} />` : nothing;
  }

  override render() {
    const { writing } = this.library;
    if (this.near.length === 0) return html`<p>No other reed was read at enough of the same places.</p>`;
    return html`<ol>
        ${this.near.map(
          ({ reed, rmsMm }) =>
            html`<li>
              <a href=${hrefOf({ at: 'bench', reedId: reed.id, question: 'there' })}
                >${this.renderBody(reed)}${reed.label}</a
              >
              <span>${amountText(rmsMm, writing)} apart${reed.favourite ? ', favourite' : nothing}</span>
            </li>`,
        )}
      </ol>
      <p>
        Root mean square over the profiles in the middle, half way out and near the edge, both blades
        together, each reed at its last pass. Likeness is no quality.
      </p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-near-reeds': NearReeds;
  }
}
