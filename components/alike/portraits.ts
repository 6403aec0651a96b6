import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { listed, sentence } from '../../src/words/figure-words.ts';
import { COVERAGE, differenceFigure, joined, UNIT_WORDS } from '../../src/words/format.ts';
import type { KnownReed } from '../../src/traits/columns.ts';
import { STARTING_GOUGE } from '../../src/cane/wished-gouge.ts';
import { placeZones } from '../../src/blade/zones.ts';
import { startingStyle } from '../../src/blade/starting-styles.ts';
import { USUAL_OVERALL_MM } from '../../src/reed/overall-lengths.ts';
import {
  handPortrait,
  sidesByLot,
  type LotSides,
  type MeanDifference,
  type ZoneHand,
} from '../../src/traits/portrait.ts';
import { handMap, sidesMap, type HalvesMap } from '../../src/traits/portrait-map.ts';
import { FEWEST_REEDS } from '../../src/traits/ways.ts';
import type { FigureRow } from '../figures-table/laid-out.ts';
import '../figures-table/figures-table.ts';
import '../map/blade-map.ts';
import { styleBlade } from '../map/style-blade.ts';
import { marks } from '../marks/marks.styles.ts';
import '../picture/picture.ts';
import { LibraryController } from '../store/library-controller.ts';
import { pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './turned-form.ts';

/** As many lots as are drawn, the most uneven first; the table has all. */
const DRAWN_LOTS = 4;

/** A mean difference as a figure whose ± is its interval. */
const asFigure = ({ mean, interval }: MeanDifference) => ({
  valueMm: mean,
  uMm: (interval[1] - interval[0]) / 2 / COVERAGE,
});

/** What the knife hand does over the last reeds, and what the gouge does by lot. */
@customElement('bench-portraits')
export class Portraits extends BenchElement {
  static override styles = [
    pages,
    marks,
    css`
      .both {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(480px, 100%), 1fr));
        gap: var(--bench-space-4);
      }
      .beside {
        display: grid;
        grid-template-columns: minmax(0, 150px) minmax(0, 1fr);
        gap: var(--bench-space-4);
        align-items: start;
      }
      .lots {
        display: flex;
      }
      figure {
        flex: 0 1 130px;
        min-width: 0;
        margin: 0;
        font: var(--bench-font-caption);
        text-align: center;
      }
      @media (max-width: 640px) {
        .beside {
          grid-template-columns: minmax(0, 1fr);
        }
        .beside > bench-picture {
          max-width: 220px;
        }
      }
    `,
  ];

  private readonly library = new LibraryController(this);

  /** Reeds of one style. */
  @property({ attribute: false }) reeds: readonly KnownReed[] = [];

  override render() {
    if (!this.library.store || this.reeds.length === 0) return nothing;
    return html`<div class="both">${this.renderHand()} ${this.renderGouge()}</div>`;
  }

  private renderHand() {
    const { reeds } = this;
    const { writing, store } = this.library;
    const gauge = store!.snapshot.live.gauge.at(-1);
    const portrait = handPortrait(reeds, gauge?.reversalHandMm);
    const told = 'zones' in portrait ? portrait.zones.filter((zone) => zone.told) : [];
    const [most] = [...told].sort((a, b) => Math.abs(b.mean) - Math.abs(a.mean));
    const words =
      'tooFew' in portrait
        ? `${sentence(String(portrait.tooFew))} reeds are too few to call anything a habit of the hand; it takes ${FEWEST_REEDS}.`
        : most
          ? `Over your last ${most.n} reeds the right of both blades is ${most.mean < 0 ? 'thinner' : 'thicker'} than the left, most at the ${most.title.toLowerCase()}.`
          : 'The hand leaves no difference between right and left that can be told.';
    return html`<section class="plate">
      <h2>The knife hand <small>right less left, both blades</small></h2>
      <p class="say">${words}</p>
      ${'zones' in portrait ? this.renderHands(portrait.zones) : nothing}
      <p class="note">
        ${
          gauge?.reversalHandMm === undefined
            ? 'A tilt on the tongue looks just the same: read six places with the reed turned, once a season.'
            : `The gauge’s own ${differenceFigure({ valueMm: gauge.reversalHandMm, uMm: 0 }, writing).value} is taken off.`
        }
      </p>
      <details>
        <summary>Tell the hand from a tilt</summary>
        <bench-turned-form .gauge=${gauge}></bench-turned-form>
      </details>
    </section>`;
  }

  private get styleId(): string {
    return this.reeds[0]!.reed.styleId;
  }

  /** Both halves of a blade, each by how much more it has than the other. */
  private renderHalves(map: HalvesMap, label: string) {
    return html`<bench-blade-map
      plain
      quantity="difference"
      .data=${styleBlade(this.styleId, map, map)}
      label=${label}
    ></bench-blade-map>`;
  }

  private renderHands(zones: readonly ZoneHand[]) {
    const { writing } = this.library;
    return html`<div class="beside">
      ${this.renderHandMap(zones)}
      <bench-figures-table
        caption=${`${sentence(UNIT_WORDS[writing.unit].name)}. ± is 95 % for all zones together; in brackets: inside its doubt.`}
        .heads=${['Zone', 'Right less left']}
        .rows=${zones.map((zone): FigureRow => ({ title: zone.title, cells: [differenceFigure(asFigure(zone), writing)] }))}
      ></bench-figures-table>
    </div>`;
  }

  private renderHandMap(zones: readonly ZoneHand[]) {
    const style = startingStyle(this.styleId);
    const frame = { lengths: style.lengths, overallLengthMm: USUAL_OVERALL_MM };
    const label = 'What the knife hand does to both blades, each in its own view; dots: not to be told';
    return html`<bench-picture
      caption=${`${label}, ${UNIT_WORDS[this.library.writing.unit].caption}`}
      file-name="the knife hand"
    >
      ${this.renderHalves(handMap(zones, placeZones(style, frame, USUAL_OVERALL_MM)), label)}
    </bench-picture>`;
  }

  private renderLots(lots: readonly (LotSides & { readonly code: string })[]) {
    const { writing } = this.library;
    const label = 'Side 1, on the left of blade A, and side 2 over the back, by lot; dots: not to be told';
    return html`<bench-picture
      caption=${`${label}, ${UNIT_WORDS[writing.unit].caption}`}
      file-name="the gouge by lot"
    >
      <div class="lots">
        ${lots.map(
          (lot) =>
            html`<figure>
              <figcaption part="words">lot ${lot.code}</figcaption>
              ${this.renderHalves(sidesMap(lot), `Lot ${lot.code}: ${label}`)}
              <span part="words">${joined(differenceFigure(asFigure(lot), writing))}</span>
            </figure>`,
        )}
      </div>
    </bench-picture>`;
  }

  private renderGouge() {
    const { reeds } = this;
    const { writing, store } = this.library;
    const lots = sidesByLot(reeds);
    const limitMm = (this.library.choices.gouge ?? STARTING_GOUGE).mostSideDifferenceMm;
    const code = (id: string) => store!.snapshot.live.lot.find((lot) => lot.id === id)?.code ?? 'a lot';
    const told = lots.filter((lot) => lot.told);
    const words =
      lots.length === 0
        ? 'No lot has three reeds that are read all over yet.'
        : told.length === 0
          ? 'No lot leaves one side thicker than the other, as far as can be told.'
          : `Lot ${listed(told.map(({ lotId }) => code(lotId)))} leaves one side of the reed thicker than the other: the gouge, the shape or the tie.`;
    return html`<section class="plate">
      <h2>The gouge <small>side 1 less side 2 over the back</small></h2>
      <p class="say">${words}</p>
      ${
        lots.length > 0
          ? html`${this.renderLots(lots.slice(0, DRAWN_LOTS).map((lot) => ({ ...lot, code: code(lot.lotId) })))}
              <bench-figures-table
                caption=${`${sentence(UNIT_WORDS[writing.unit].name)}. ± is 95 % for all lots together.`}
                .heads=${['Lot', 'Reeds', 'Side 1 less 2']}
                .rows=${lots.map((lot): FigureRow => ({
                  title: code(lot.lotId),
                  cells: [String(lot.n), differenceFigure(asFigure(lot), writing)],
                  ...(lot.told &&
                    Math.abs(lot.mean) >= limitMm && {
                      odd: 'large enough to reject the piece, by your limit',
                    }),
                }))}
              ></bench-figures-table>`
          : nothing
      }
    </section>`;
  }
}
