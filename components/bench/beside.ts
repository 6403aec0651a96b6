import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { sentence } from '../../src/words/figure-words.ts';
import type { Gouge } from '../../src/blade/original-cane.ts';
import { mapGrid } from '../../src/figures/surface-map.ts';
import {
  balanceBeside,
  ratiosBeside,
  type BalanceBeside,
  type RatioBeside,
} from '../../src/plan/beside-figures.ts';
import { compareInWay, sayWay, type InWay } from '../../src/plan/compare-in-way.ts';
import type { ComparedZone } from '../../src/plan/compare.ts';
import { makeTarget, type Followed } from '../../src/plan/make-target.ts';
import { CONTRAST_WORDS } from '../../src/plan/signs.ts';
import { sayCompared, sayDistance } from '../../src/plan/say-compared.ts';
import { sayPlaced } from '../../src/plan/say-placed.ts';
import type { Way } from '../../src/plan/ways.ts';
import {
  differenceFigure,
  distanceFigure,
  ratioFigure,
  readingText,
  shareFigure,
  thicknessFigure,
  UNIT_WORDS,
} from '../../src/words/format.ts';
import type { ChartBand, ChartLine } from '../charts/chart-data.ts';
import '../charts/profile-chart.ts';
import type { FigureCell, FigureRow } from '../figures-table/figures-table.ts';
import '../figures-table/figures-table.ts';
import '../map/blade-pair.ts';
import { targetCentre } from '../plan/target-lines.ts';
import { PATCHES_NOTE, TARGET_ENDS, TARGET_KEY, targetPlate, VARIETY_KEY } from '../plan/target-plate.ts';
import { wayChoice } from '../plan/way-choice.ts';
import { downLines } from './profile-lines.ts';
import type { Plate } from './plate-data.ts';
import { isStale, QuestionElement, unbroken } from './question-element.ts';

const [ALONG, ACROSS] = [51, 31];

/** How far a reed is from what it is brought to. */
@customElement('bench-beside')
export class BesideQuestion extends QuestionElement {
  private compared: InWay | undefined;
  private problem = '';
  private ratios: readonly RatioBeside[] = [];
  private balance: readonly BalanceBeside[] = [];
  private plate: Plate = {};
  private lines: readonly ChartLine[] = [];
  private band: ChartBand | undefined;

  /** What it is set beside. */
  @property({ attribute: false }) followed: Followed | undefined;
  /** How a reed's cane was gouged, by the reed's id. */
  @property({ attribute: false }) gouges: ReadonlyMap<string, Gouge> = new Map();
  @state() private way: Way = 'plain';
  @state() private nearShown = false;

  override connectedCallback() {
    super.connectedCallback();
    void import('../plan/target-chooser.ts');
  }

  override willUpdate(changed: PropertyValues) {
    if (!isStale(changed, ['benched', 'pass', 'followed', 'way', 'gouges'])) return;
    this.compared = undefined;
    this.problem = '';
    try {
      this.compare();
    } catch (error) {
      this.problem = error instanceof Error ? error.message : String(error);
    }
  }

  private compare(): void {
    const { benched, pass, followed, gouges } = this;
    if (!benched?.model || !followed) return;
    const own = { benched, pass };
    const grid = mapGrid(benched.assembled.passes[pass]!.bladeLengthMm, ALONG, ACROSS);
    const target = makeTarget(followed, own, grid);
    this.compared = compareInWay(own, target, this.way, ({ id }) => gouges.get(id));
    this.plate = targetPlate(benched, pass, this.compared.excess);
    const { line, band } = targetCentre(this.compared.target);
    this.lines = [...downLines(own, 0, undefined), line];
    this.band = band;
    this.ratios = ratiosBeside(own, this.compared.zones);
    this.balance = balanceBeside(own, this.compared.target);
  }

  private handleNear(event: Event) {
    this.nearShown = (event.currentTarget as HTMLDetailsElement).open;
    if (this.nearShown) void import('../plan/near-reeds.ts');
  }

  private get rows(): FigureRow[] {
    const { writing } = this;
    return (this.compared?.zones ?? []).map((zone) => {
      const { title, own, other, difference, originalMm } = zone;
      const figures =
        this.way === 'share' && originalMm
          ? [own, other, difference].map((figure, i) => shareFigure(figure, originalMm, i === 2, writing))
          : [
              thicknessFigure(own, writing),
              thicknessFigure(other, writing),
              differenceFigure(difference, writing),
            ];
      const cells: FigureCell[] = [figures[0]!.value, figures[1]!.value, figures[2]!];
      return { title: this.zoneTitle(title, zone), cells };
    });
  }

  private zoneTitle(title: string, { share, spreadMm, difference }: ComparedZone): string {
    const within =
      spreadMm > 0 && Math.abs(difference.valueMm) <= spreadMm ? ', within your own variety' : '';
    return `${title}${share < 0.95 ? ', in part' : ''}${within}`;
  }

  private get crossings(): FigureRow[] {
    return (this.compared?.crossings ?? []).map(({ thicknessMm, own, other }) => ({
      title: readingText(thicknessMm, this.writing),
      cells: [own, other].map((at) => (at ? distanceFigure(at, this.writing) : { none: 'not passed' })),
    }));
  }

  private get ratioRows(): FigureRow[] {
    const { ratios, writing } = this;
    return ratios.map(({ title, own, other }) => ({
      title,
      cells: [ratioFigure(own, writing), other ? ratioFigure(other, writing) : { none: '–' }],
    }));
  }

  private get balanceRows(): FigureRow[] {
    const { balance, writing } = this;
    return balance.map(({ title, contrast, own, other }) => ({
      title: `${title}, ${CONTRAST_WORDS[contrast]}`,
      cells: [differenceFigure(own, writing), other ? differenceFigure(other, writing) : { none: '–' }],
    }));
  }

  private renderFigures(own: string, name: string) {
    const unit = UNIT_WORDS[this.writing.unit].caption;
    return html`${
        this.ratios.length > 0
          ? html`<details>
              <summary>Ratios of zones</summary>
              <bench-figures-table
                caption="Means of zones over each other. ± is 95 %."
                .heads=${['Ratio', own, name]}
                .rows=${this.ratioRows}
              ></bench-figures-table>
            </details>`
          : nothing
      }
      <details>
        <summary>Where either is uneven</summary>
        ${
          this.balance.length > 0
            ? html`<bench-figures-table
                caption=${`${sentence(unit)}. ± is 95 %; in brackets: inside its doubt.`}
                .heads=${['Zone', own, name]}
                .rows=${this.balanceRows}
              ></bench-figures-table>`
            : html`<p class="note">Nowhere measurably.</p>`
        }
      </details>`;
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
    const { benched, followed, compared, writing } = this;
    if (!benched) return nothing;
    if (!followed)
      return this.renderNothing(
        'No favourite yet. Mark a reed that plays as you like it as a favourite, or choose something else to set this one beside.',
      );
    if (!compared) return this.renderNothing(this.problem);
    const { name } = compared.target;
    const own = benched.reed.label;
    const answer = sayCompared(compared, writing);
    const unit =
      this.way === 'share' ? 'per cent of the cane before scraping' : UNIT_WORDS[writing.unit].name;
    return this.renderColumns(
      this.renderAnswer(answer),
      html`${this.renderChooser()} ${wayChoice(this.way, (way) => (this.way = way))}
        <p class="aside" role="status">${unbroken(sayWay(compared, writing))}</p>
        <div class="scroll" tabindex="0" role="region" aria-label=${`Zones of ${own} and of ${name}`}>
          <bench-figures-table
            caption=${`${sentence(unit)}. ± is 95 %; in brackets: inside its doubt.`}
            .heads=${['Zone', own, name, 'Difference']}
            .rows=${this.rows}
          ></bench-figures-table>
        </div>
        <p class="note">
          ${PATCHES_NOTE} ${compared.distance ? sayDistance(compared.distance, writing) : nothing} Thickness
          explains only a part of how a reed plays.
        </p>`,
      html`<bench-blade-pair
        .a=${this.plate.A}
        .b=${this.plate.B}
        quantity="difference"
        .unit=${writing.unit}
        .decimal=${writing.decimal}
        heading=${`${own} beside ${name}`}
        .ends=${TARGET_ENDS}
        caption=${`${own} less ${name}, ${UNIT_WORDS[writing.unit].caption}. ${this.placed}`}
        label=${answer.say}
        .key=${compared.target.from === 'a reed' ? TARGET_KEY : [...TARGET_KEY, VARIETY_KEY]}
      ></bench-blade-pair>`,
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
        <bench-figures-table
          caption="Where the centre passes a thickness, mm from the tip"
          .heads=${[UNIT_WORDS[writing.unit].caption, own, name]}
          .rows=${this.crossings}
        ></bench-figures-table>
        ${this.renderFigures(own, name)}
        <details @toggle=${this.handleNear}>
          <summary>Reeds most like this one</summary>
          ${
            this.nearShown
              ? html`<bench-near-reeds .benched=${benched} .pass=${this.pass}></bench-near-reeds>`
              : nothing
          }
        </details>`,
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-beside': BesideQuestion;
  }
}
