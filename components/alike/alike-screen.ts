import { css, html, nothing, type PropertyValues } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { listed } from '../../src/words/figure-words.ts';
import { numberText, UNIT_WORDS } from '../../src/words/format.ts';
import { claimsOf, goodReeds } from '../../src/traits/claims.ts';
import { commonTraits, type StyleTraits } from '../../src/traits/common-traits.ts';
import { FEWEST_REEDS } from '../../src/traits/ways.ts';
import { CLAIM_RATE, type Relation } from '../../src/traits/relations.ts';
import {
  relationFigures,
  relationWords,
  sayTraits,
  sayVariation,
  silentOutcomes,
  wayName,
} from '../../src/traits/trait-words.ts';
import { hrefOf } from '../frame/routes.ts';
import '../map/usual-reed.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls, tables } from '../theme/base.styles.ts';
import { forms, heads, pages, sentences } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { marks } from '../marks/marks.styles.ts';
import './claim-chart.ts';
import './portraits.ts';
import { knownReeds, type Progress } from './summaries.ts';
import './teachings.ts';
import './way-view.ts';

/** What the maker's good reeds have in common, what the hand and the gouge do, and what failures teach. */
@customElement('bench-alike')
export class AlikeScreen extends BenchElement {
  static override styles = [
    controls,
    tables,
    forms,
    pages,
    marks,
    heads,
    sentences,
    css`
      .page {
        gap: var(--bench-space-4);
      }
      h1 {
        flex: 1 1 0;
        min-width: min(320px, 100%);
        max-width: none;
      }
      .claims,
      .ways {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(300px, 100%), 1fr));
        gap: var(--bench-space-4);
      }
      progress {
        width: min(360px, 100%);
        accent-color: var(--bench-ink);
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  private answered: unknown;
  @state() private progress: Progress | undefined;
  @state() private traits: readonly StyleTraits[] | undefined;
  @state() private chosen = 0;

  override updated(changed: PropertyValues<this>) {
    super.updated(changed);
    const snapshot = this.library.store?.snapshot;
    if (!snapshot || snapshot === this.answered) return;
    this.answered = snapshot;
    void this.answer();
  }

  private async answer(): Promise<void> {
    const store = this.library.store!;
    const { answered } = this;
    const work = knownReeds(store);
    for (;;) {
      const step = await work.next();
      if (this.answered !== answered || !this.isConnected) return;
      if (step.done) {
        this.traits = commonTraits(step.value);
        this.progress = undefined;
        return;
      }
      this.progress = step.value;
    }
  }

  override render() {
    if (!this.library.store) return nothing;
    const { traits } = this;
    if (!traits) return html`<div class="page">${this.renderProgress()}</div>`;
    const style = traits[Math.min(this.chosen, traits.length - 1)];
    return html`<div class="page">
      ${this.renderProgress()}
      <div class="head">
        <h1>${sayTraits(style?.relations ?? [], style?.reeds.length ?? 0)}</h1>
        ${this.renderStyles(traits)}
      </div>
      ${style ? this.renderStyle(style) : this.renderNone()}
    </div>`;
  }

  private renderNone() {
    return html`<bench-usual-reed>
      Your reeds will lie between the two of them that are furthest apart, each a mark that opens it. Read
      both blades of ${FEWEST_REEDS} reeds all over:
      <a href=${hrefOf({ at: 'case' })}>choose one in the case</a>.
    </bench-usual-reed>`;
  }

  private renderProgress() {
    const { progress } = this;
    if (!progress) return this.traits ? nothing : html`<p role="status">Looking through the reeds</p>`;
    return html`<p role="status">
      <label>
        Working out what was not worked out before: ${progress.done} of ${progress.of} reeds
        <progress max=${progress.of} value=${progress.done}></progress>
      </label>
    </p>`;
  }

  private renderStyles(traits: readonly StyleTraits[]) {
    if (traits.length < 2) return nothing;
    return html`<div class="choice" role="group" aria-label="Style">
      ${traits.map(
        ({ styleName, reeds }, i) =>
          html`<button aria-pressed=${i === this.chosen ? 'true' : 'false'} @click=${() => (this.chosen = i)}>
            ${styleName}, ${reeds.length}
          </button>`,
      )}
    </div>`;
  }

  private renderStyle(style: StyleTraits) {
    return html`${this.renderRelations(style)} ${this.renderWays(style)}
      <bench-portraits .reeds=${style.reeds}></bench-portraits>
      ${this.renderSure(style)}
      <bench-teachings .traits=${style}></bench-teachings>
      <p class="note">
        What goes together need not be the cause: lots, weather and the hand change too. Thickness explains
        only a part of how a reed plays. Everything is worked out on this machine from your own reeds.
      </p>`;
  }

  private renderRelations(style: StyleTraits) {
    const { writing } = this.library;
    const claims = claimsOf(style);
    if (claims.length === 0) return nothing;
    return html`<section>
      <h2>What goes with good trials <small>they go together; that is not yet a cause</small></h2>
      <div class="claims">
        ${claims.map((claim) => html`<bench-claim class="plate" .claim=${claim} .writing=${writing}></bench-claim>`)}
      </div>
    </section>`;
  }

  /** All that is sure enough, what is not, and how it was judged. */
  private renderSure({ relations }: StyleTraits) {
    if (relations.length === 0) return nothing;
    const said = relations.filter((relation) => relation.said);
    const silent = silentOutcomes(relations);
    const { writing } = this.library;
    const item = (relation: Relation) =>
      html`<li>${relationWords(relation)}<small>${relationFigures(relation, writing)}</small></li>`;
    return html`<section>
      ${
        said.length > 0
          ? html`<details>
              <summary>All ${said.length} that are sure enough</summary>
              <ol>
                ${said.map(item)}
              </ol>
            </details>`
          : nothing
      }
      ${silent.length > 0 ? html`<p class="say">Nothing can be said of ${listed(silent)}.</p>` : nothing}
      <p class="note">
        Rank correlation, from −1 (more of one, less of the other) to +1, with an interval of 95 % that allows
        for having been picked out. Corrected for so many comparisons: were nothing related, something would
        be said in fewer than ${numberText(1000 * CLAIM_RATE, 0, writing)} of 1000 such libraries.
      </p>
    </section>`;
  }

  private renderWays(style: StyleTraits) {
    const { styleId, reeds, variation } = style;
    const silent = sayVariation(variation);
    if (silent || 'tooFew' in variation)
      return html`<section>
        <h2>How your reeds differ</h2>
        <bench-usual-reed style-key=${styleId}
          >${reeds.length < FEWEST_REEDS ? nothing : silent} The two furthest apart will stand here with what
          parts them, and every reed between them.</bench-usual-reed
        >
      </section>`;
    const good = goodReeds(style);
    return html`<section>
      <h2>
        How your reeds differ
        <small
          >the mean of both blades, ${UNIT_WORDS[this.library.writing.unit].caption}, ${variation.n}
          reeds</small
        >
      </h2>
      <div class="ways">
        ${variation.ways.map(
          (way, k) =>
            html`<bench-way
              class="plate"
              .way=${way}
              heading=${wayName(way, this.library.writing)}
              .reeds=${reeds}
              .good=${good}
              .styleKey=${styleId}
              .writing=${this.library.writing}
              favourites=${favouritesWords(style, k)}
            ></bench-way>`,
        )}
      </div>
    </section>`;
  }
}

/** Where favourites lie along a way. */
function favouritesWords({ relations }: StyleTraits, k: number): string {
  const told = relations.find(
    ({ figure, outcome, said }) => said && outcome.name === 'favourite' && figure.name === `way-${k + 1}`,
  );
  return told
    ? `Favourites lie more to the ${told.rho > 0 ? 'right' : 'left'} than chance would put them.`
    : 'Where favourites lie cannot be told from chance.';
}
