import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import { keyed } from 'lit/directives/keyed.js';
import type { Lot, Piece, Shape } from '../../shared/cane.ts';
import type { Id } from '../../shared/ids.ts';
import { lotOf } from '../../src/cane/lot-of.ts';
import { byGouger, gougeDrift, hasMoved } from '../../src/cane/gouge-drift.ts';
import { countWord, listed, sentence } from '../../src/words/figure-words.ts';
import { hrefOf, type CaneRoute } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls } from '../theme/base.styles.ts';
import { fields, forms, pages } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import '../caution/caution.ts';
import './gouge-drift.ts';
import './lot-panel.ts';
import './lot-table.ts';
import './new-cane.ts';
import type { NewCane } from './new-cane.ts';
import './piece-panel.ts';
import './shape-panel.ts';

/** The cane: lots and what became of them, pieces and how they were gouged, shapes and how they differ. */
@customElement('bench-cane')
export class CaneScreen extends LitElement {
  static override styles = [
    base,
    controls,
    forms,
    fields,
    pages,
    css`
      .page {
        display: grid;
        grid-template-columns: minmax(0, 440px) minmax(0, 1fr);
        gap: var(--bench-space-5) 44px;
        padding: var(--bench-space-4) var(--bench-page-margin) var(--bench-space-7);
      }
      h1 {
        grid-column: 1 / -1;
      }
      .left {
        display: grid;
        gap: var(--bench-space-6);
        align-content: start;
      }
      li a {
        display: inline-flex;
        align-items: center;
        min-height: var(--bench-touch);
        padding-right: var(--bench-space-4);
        font: var(--bench-font-aside);
        text-underline-offset: 3px;
      }
      ul {
        margin: 0;
        padding: 0;
        list-style: none;
      }
      li {
        border-bottom: 1px solid var(--bench-rule);
      }
      .back {
        display: none;
        align-items: center;
        min-height: var(--bench-touch);
      }
      @media (max-width: 1000px) {
        .page {
          grid-template-columns: minmax(0, 1fr);
        }
        .page[data-shown] .left {
          display: none;
        }
        .page[data-shown] .back {
          display: inline-flex;
        }
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);
  @query('bench-new-cane') private readonly asker!: NewCane;

  @property({ attribute: false }) route: CaneRoute = { at: 'cane' };

  private get lots(): readonly Lot[] {
    return this.library.store!.snapshot.live.lot;
  }

  private get shapes(): readonly Shape[] {
    return this.library.store!.snapshot.live.shape;
  }

  override render() {
    if (!this.library.store) return nothing;
    const { lots } = this;
    return html`<div class="page" ?data-shown=${this.route.shown !== undefined}>
      <h1>${this.sentence(lots)}</h1>
      <div class="left">
        <section>
          <bench-lot-table .shownId=${this.shownLotId}></bench-lot-table>
          <div class="acts"><button @click=${() => this.asker.show('lot')}>New lot</button></div>
        </section>
        <section>
          <h2>Shapes</h2>
          ${this.renderShapes()}
          <div class="acts"><button @click=${() => this.asker.show('shape')}>New shape</button></div>
        </section>
        <bench-caution about="machine knife dust"></bench-caution>
      </div>
      <div>
        <a class="back" href=${hrefOf({ at: 'cane' })}>All lots and shapes</a>
        ${this.renderShown(lots)}
      </div>
      <bench-new-cane></bench-new-cane>
    </div>`;
  }

  private sentence(lots: readonly Lot[]) {
    if (lots.length === 0) return 'No lots. A reed needs none.';
    const { piece, reed } = this.library.store!.snapshot.live;
    const ofLots = reed.filter((one) => lotOf(one, lots)).length;
    const counted = (count: number, one: string) => `${countWord(count)} ${count === 1 ? one : `${one}s`}`;
    const words = `${counted(lots.length, 'lot')}, ${counted(piece.length, 'piece')} gouged, ${counted(ofLots, 'reed')} made.`;
    return html`${sentence(words)} <em>${this.machineWords(piece)}</em>`;
  }

  private machineWords(pieces: readonly Piece[]): string {
    const judged = byGouger(pieces).flatMap(({ gouger, pieces: own }) =>
      (['centre', 'sideDifference'] as const).map((figure) => ({
        gouger: gouger || 'the gouge',
        moved: hasMoved(gougeDrift(own, figure)),
      })),
    );
    const moved = [...new Set(judged.filter((one) => one.moved).map(({ gouger }) => gouger))];
    if (moved.length > 0)
      return `${sentence(listed(moved))} ${moved.length === 1 ? 'has' : 'have'} changed lately: look at the blade.`;
    return judged.some((one) => one.moved === false) ? 'The gouge is steady.' : '';
  }

  private get shownLotId(): Id | undefined {
    const { shown } = this.route;
    if (shown?.kind === 'lot') return shown.id;
    return this.shownPiece?.lotId;
  }

  private get shownPiece(): Piece | undefined {
    const { shown } = this.route;
    return shown?.kind === 'piece'
      ? this.library.store!.snapshot.live.piece.find(({ id }) => id === shown.id)
      : undefined;
  }

  private renderShapes() {
    const { shapes } = this;
    if (shapes.length === 0) return html`<p class="quiet">None yet. A shape gives a blade its outline.</p>`;
    return html`<ul>
      ${shapes.map(
        ({ id, name, invented }) =>
          html`<li>
            <a href=${hrefOf({ at: 'cane', shown: { kind: 'shape', id } })}
              >${name}${invented ? ', invented' : ''}</a
            >
          </li>`,
      )}
    </ul>`;
  }

  private renderShown(lots: readonly Lot[]) {
    const { shown } = this.route;
    if (shown?.kind === 'shape') {
      const shape = this.shapes.find(({ id }) => id === shown.id);
      return shape
        ? keyed(
            shape.id,
            html`<bench-shape-panel .shape=${shape} .shapes=${this.shapes}></bench-shape-panel>`,
          )
        : nothing;
    }
    const piece = this.shownPiece;
    if (piece) return keyed(piece.id, html`<bench-piece-panel .piece=${piece}></bench-piece-panel>`);
    const lot = lots.find(({ id }) => id === this.shownLotId);
    return lot
      ? keyed(lot.id, html`<bench-lot-panel .lot=${lot}></bench-lot-panel>`)
      : this.renderMachines(lots);
  }

  /** The gouge of every machine over all lots. */
  private renderMachines(lots: readonly Lot[]) {
    const codes = new Map(lots.map(({ id, code }) => [id, code]));
    return byGouger(this.library.store!.snapshot.live.piece).map(
      ({ gouger, pieces }) =>
        html`<bench-gouge-drift .pieces=${pieces} .codes=${codes} .of=${gouger}></bench-gouge-drift>`,
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-cane': CaneScreen;
  }
}
