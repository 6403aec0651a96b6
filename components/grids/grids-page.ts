import { css, html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { gridSchema, orderSchema, type Grid, type Order } from '../../shared/grid.ts';
import { labelSchema } from '../../shared/fields.ts';
import { assumedPlanform, halfWidthAt } from '../../src/blade/planform.ts';
import { LONG_SCRAPE, SHORT_SCRAPE } from '../../src/blade/starting-styles.ts';
import { rowsOf, stationsOfRows, withStationToggled } from '../../src/round/grid-rows.ts';
import { offeredPlans, type OfferedPlan } from '../../src/round/own-plans.ts';
import { roundPlans, USUAL_BLADE_MM, type Scrape } from '../../src/round/round-plans.ts';
import { USUAL_GOING } from '../../src/round/station-order.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './grid-rows-table.ts';
import type { GridRowsEvent } from './grid-rows-table.ts';
import { gridsStyles } from './grids.styles.ts';
import './station-picker.ts';
import type { StationToggleEvent } from './station-picker.ts';

const ORDER_WORDS: Readonly<Record<Order, string>> = {
  rows: 'row by row, each from the same side',
  'rows-turning': 'row by row, turning',
  columns: 'down each line, the middle first',
  'columns-turning': 'down one line and up the next',
  'as-listed': 'as they are listed',
};
const STYLES = { long: LONG_SCRAPE, short: SHORT_SCRAPE } as const;
const SCRAPES = ['long', 'short'] as const satisfies readonly Scrape[];
const NEW_NAME = 'My round';

/** What of a plan is the maker's to change. */
type Editable = Pick<Grid, 'name' | 'stations' | 'order' | 'bladeByBlade' | 'sameSideFirst'>;

/** Rounds and their stations: those to start from, and the maker's own, over the library around it. */
@customElement('bench-grids')
export class GridsPage extends BenchElement {
  static override styles = [
    controls,
    gridsStyles,
    css`
      :host {
        padding: var(--bench-space-5) var(--bench-page-margin) var(--bench-space-7);
      }
      h1 {
        margin: 0 0 var(--bench-space-3);
        font: var(--bench-font-say);
      }
      h2 {
        margin: 0 0 var(--bench-space-2);
        font: var(--bench-font-head);
      }
      .columns {
        display: grid;
        grid-template-columns: minmax(0, 3fr) minmax(0, 2fr);
        gap: var(--bench-space-5) var(--bench-space-6);
        margin-top: var(--bench-space-4);
      }
      @media (max-width: 1200px) {
        .columns {
          grid-template-columns: minmax(0, 7fr) minmax(0, 3fr);
        }
      }
      @media (max-width: 900px) {
        .columns {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @state() private scrape: Scrape = 'long';
  @state() private chosen = 'Quick';
  @state() private problem = '';

  private get styleId(): string {
    return STYLES[this.scrape].key;
  }

  private get plans(): OfferedPlan[] {
    return offeredPlans(roundPlans(this.scrape), this.library.store?.snapshot.live.grid ?? [], this.styleId);
  }

  private readonly halfWidthMm = (fromTipMm: number) => {
    const lengthMm = USUAL_BLADE_MM[this.scrape];
    return halfWidthAt(assumedPlanform(lengthMm, STYLES[this.scrape].tipWidthMm), lengthMm - fromTipMm);
  };

  private async change(plan: OfferedPlan, changed: Partial<Editable>) {
    const { own, name, stations } = plan;
    const before = own ?? {
      kind: 'grid' as const,
      styleId: this.styleId,
      ...USUAL_GOING,
      name,
      stations: [...stations],
    };
    const checked = gridSchema.shape.stations.safeParse(changed.stations ?? before.stations);
    this.problem = checked.success ? '' : 'A round has 1 to 800 stations. This was left as it was.';
    if (!checked.success) return;
    await this.library.store?.keep([{ ...before, ...changed }], `the round ${changed.name ?? name}`);
  }

  private async handleName(plan: OfferedPlan, text: string) {
    const name = labelSchema.safeParse(text);
    const isTaken = this.plans.some((other) => other !== plan && other.name === text.trim());
    this.problem = !name.success || isTaken ? 'Give it a name of its own, up to 80 letters.' : '';
    if (this.problem || !name.success) return;
    await this.change(plan, { name: name.data });
    this.chosen = name.data;
  }

  private async handleNew() {
    const names = new Set(this.plans.map(({ name }) => name));
    const name = Array.from({ length: names.size + 1 }, (_, i) =>
      i === 0 ? NEW_NAME : `${NEW_NAME} ${i + 1}`,
    ).find((one) => !names.has(one))!;
    const { stations } = this.plans.find((plan) => plan.name === this.chosen) ?? this.plans[0]!;
    await this.change({ name, stations }, {});
    this.chosen = name;
  }

  private async handleAway({ own, name }: OfferedPlan) {
    if (own) await this.library.store?.remove([own.id], `the round ${name}`);
  }

  override render() {
    if (!this.library.store) return nothing;
    const plan = this.plans.find(({ name }) => name === this.chosen) ?? this.plans[0]!;
    return html`<h1>Rounds and their stations</h1>
      <div class="line">
        <div class="choice" role="group" aria-label="Style">
          ${SCRAPES.map(
            (scrape) =>
              html`<button aria-pressed=${scrape === this.scrape} @click=${() => (this.scrape = scrape)}>
                ${STYLES[scrape].name}
              </button>`,
          )}
        </div>
        <div class="choice" role="group" aria-label="Round">
          ${this.plans.map(
            ({ name, stations }) =>
              html`<button aria-pressed=${name === plan.name} @click=${() => (this.chosen = name)}>
                ${name}, ${stations.length}
              </button>`,
          )}
        </div>
        <button @click=${this.handleNew}>New round</button>
      </div>
      ${this.renderPlan(plan)}`;
  }

  private renderPlan(plan: OfferedPlan) {
    const rows = rowsOf(plan.stations);
    return html`<div class="columns">
      <section aria-label=${plan.name}>
        ${this.renderHead(plan)}
        <bench-grid-rows-table
          .rows=${rows}
          .halfWidthMm=${this.halfWidthMm}
          .decimal=${this.library.choices.decimal}
          @bench-grid-rows=${({ rows: changed }: GridRowsEvent) =>
            void this.change(plan, { stations: stationsOfRows(changed) })}
        ></bench-grid-rows-table>
        <p class="problem" role="status">${this.problem}</p>
      </section>
      <bench-station-picker
        .stations=${plan.stations}
        blade-length-mm=${USUAL_BLADE_MM[this.scrape]}
        .halfWidthMm=${this.halfWidthMm}
        .decimal=${this.library.choices.decimal}
        @bench-station-toggle=${({ place }: StationToggleEvent) =>
          void this.change(plan, { stations: withStationToggled(plan.stations, place) })}
      ></bench-station-picker>
    </div>`;
  }

  private renderHead(plan: OfferedPlan) {
    const going = { ...USUAL_GOING, ...plan };
    const isStandIn = roundPlans(this.scrape).some(({ name }) => name === plan.name);
    const tick = (key: 'bladeByBlade' | 'sameSideFirst', words: string) =>
      html`<label class="tick">
        <input
          type="checkbox"
          .checked=${going[key]}
          @change=${(event: Event) => void this.change(plan, { [key]: (event.target as HTMLInputElement).checked })}
        />
        ${words}
      </label>`;
    return html`<h2>${plan.name}, ${plan.stations.length} stations${plan.own ? '' : ', to start from'}</h2>
      <div class="line">
        <label>
          Name
          <input
            name="name"
            maxlength="80"
            .value=${plan.name}
            ?disabled=${isStandIn}
            @change=${(event: Event) => void this.handleName(plan, (event.target as HTMLInputElement).value)}
          />
        </label>
        <label>
          Order of going
          <select
            name="order"
            @change=${(event: Event) =>
              void this.change(plan, { order: orderSchema.parse((event.target as HTMLSelectElement).value) })}
          >
            ${orderSchema.options.map(
              (order) =>
                html`<option value=${order} ?selected=${order === going.order}>
                  ${ORDER_WORDS[order]}
                </option>`,
            )}
          </select>
        </label>
        ${tick('bladeByBlade', 'A whole, then B')} ${tick('sameSideFirst', 'Same side of the reed first')}
        ${
          plan.own
            ? html`<button @click=${() => void this.handleAway(plan)}>
                ${isStandIn ? 'Back to the usual stations' : 'Throw away'}
              </button>`
            : nothing
        }
      </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-grids': GridsPage;
  }
}
