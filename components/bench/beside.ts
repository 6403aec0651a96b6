import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import { besideGrid } from '../../src/plan/compare.ts';
import { besideTables, type BesideTables } from '../../src/plan/beside-figures.ts';
import { compareInWay, sayWay, type InWay } from '../../src/plan/compare-in-way.ts';
import { makeTarget, type Followed } from '../../src/plan/make-target.ts';
import { sayCompared, sayDistance } from '../../src/plan/say-compared.ts';
import { sayPlaced } from '../../src/plan/say-placed.ts';
import type { ComparisonMode } from '../../src/plan/ways.ts';
import { UNIT_WORDS } from '../../src/words/format.ts';
import type { ChartBand, ChartLine } from '../charts/chart-data.ts';
import '../charts/profile-chart.ts';
import { targetCentre } from '../plan/target-lines.ts';
import { PATCHES_NOTE } from '../plan/target-plate.ts';
import { wayChoice } from '../plan/way-choice.ts';
import '../reed/reed-beside.ts';
import { downLines } from './profile-lines.ts';
import { isStale } from './is-stale.ts';
import { QuestionElement, unbroken } from './question-element.ts';

/** How far a reed is from what it is brought to. */
@customElement('bench-beside')
export class BesideQuestion extends QuestionElement {
  private compared: InWay | undefined;
  private problem = '';
  private tables: BesideTables | undefined;
  private lines: readonly ChartLine[] = [];
  private band: ChartBand | undefined;

  /** What it is set beside. */
  @property({ attribute: false }) followed: Followed | undefined;
  /** Cane as it was gouged, by the reed's id. */
  @property({ attribute: false }) canes: ReadonlyMap<string, OriginalCane> = new Map();
  @state() private way: ComparisonMode = 'plain';

  override connectedCallback() {
    super.connectedCallback();
    void import('../plan/target-chooser.ts');
  }

  override willUpdate(changed: PropertyValues) {
    if (!isStale(changed, ['benched', 'pass', 'followed', 'way', 'canes'])) return;
    this.compared = undefined;
    this.problem = '';
    try {
      this.compare();
    } catch (error) {
      this.problem = error instanceof Error ? error.message : String(error);
    }
  }

  private compare(): void {
    const { benched, pass, followed, canes } = this;
    if (!benched?.model || !followed) return;
    const own = { benched, pass };
    const target = makeTarget(followed, own, besideGrid(own));
    this.compared = compareInWay(own, target, this.way, ({ id }) => canes.get(id));
    const { line, band } = targetCentre(this.compared.target);
    this.lines = [...downLines(own, 0, undefined), line];
    this.band = band;
    this.tables = besideTables(this.compared);
  }

  private renderTables({ ratios, balance }: BesideTables) {
    return html`${
      ratios.rows.length > 0 ? this.renderFold(ratios.title, () => this.renderTable(ratios)) : nothing
    }
    ${this.renderFold(balance.title, () =>
      balance.rows.length > 0 ? this.renderTable(balance) : html`<p class="note">Nowhere measurably.</p>`,
    )}`;
  }

  private get placed(): string {
    return unbroken(sayPlaced({ benched: this.benched!, pass: this.pass }, this.followed!, this.writing));
  }

  private renderChooser() {
    return html`<bench-target-chooser
      .reed=${this.benched?.reed}
      .followed=${this.followed}
    ></bench-target-chooser>`;
  }

  private renderNothing(words: string) {
    return html`<div class="lone">
      <p class="say">${words}</p>
      ${this.renderChooser()}
    </div>`;
  }

  override render() {
    const { benched, followed, compared, tables, writing } = this;
    if (!benched) return nothing;
    if (!followed)
      return this.renderNothing(
        'No favourite yet. Mark a reed that plays as you like it as a favourite, or choose something else to set this one beside.',
      );
    if (!compared || !tables) return this.renderNothing(this.problem);
    const { name } = compared.target;
    const own = benched.reed.label;
    const answer = sayCompared(compared, writing);
    return this.renderColumns(
      this.renderAnswer(answer),
      html`${this.renderChooser()} ${wayChoice(this.way, (way) => (this.way = way))}
        <p class="aside" role="status">${unbroken(sayWay(compared, writing))}</p>
        <div class="scroll" tabindex="0" role="region" aria-label=${`Zones of ${own} and of ${name}`}>
          ${this.renderTable(tables.zones)}
        </div>
        <p class="note">
          ${PATCHES_NOTE} ${compared.distance ? sayDistance(compared.distance, writing) : nothing} Thickness
          explains only a part of how a reed plays.
        </p>`,
      html`<bench-reed-beside
        bare
        can-turn
        show="map"
        .fitted=${benched}
        .pass=${this.passNumber}
        .compared=${compared}
        .stance=${this.print}
        .original=${this.original}
        note=${this.placed}
        .unit=${writing.unit}
        .decimal=${writing.decimal}
        @bench-print-choose=${this.handlePrint}
      ></bench-reed-beside>`,
      html`<section>
          <h2>Down the centre line <small>${UNIT_WORDS[writing.unit].caption}, mm from the tip</small></h2>
          ${this.renderPicture(
            `down the centre line, beside ${name}`,
            html`<bench-profile-chart
              .lines=${this.lines}
              .band=${this.band}
              .unit=${writing.unit}
              .decimal=${writing.decimal}
              label=${`The centre line of ${own} and of ${name}`}
            ></bench-profile-chart>`,
          )}
        </section>
        ${this.renderTable(tables.crossings)} ${this.renderTables(tables)}
        ${this.renderFold('Reeds most like this one', () => {
          void import('../plan/near-reeds.ts');
          return html`<bench-near-reeds .benched=${benched} .pass=${this.pass}></bench-near-reeds>`;
        })}`,
    );
  }
}
