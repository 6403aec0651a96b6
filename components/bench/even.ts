import { html, nothing, type PropertyValues } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { BLADES, type Blade } from '../../shared/blade.ts';
import { zonesAt } from '../../src/answers/fitted-reed.ts';
import { evenness, sayEvenness, sayGouge } from '../../src/answers/even.ts';
import { localPlace, type LocalPlace } from '../../src/answers/local-place.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import {
  facingMap,
  mapDifference,
  mirroredMap,
  thicknessMap,
  type FigureMap,
} from '../../src/figures/surface-map.ts';
import { sentence } from '../../src/words/figure-words.ts';
import { UNIT_WORDS } from '../../src/words/format.ts';
import type { OpeningData } from '../charts/chart-data.ts';
import '../charts/opening.ts';
import '../charts/whiskers.ts';
import '../map/blade-pair.ts';
import type { PrintChooseEvent } from '../map/prints.ts';
import { openingOf } from './opening-data.ts';
import { differenceMarks, plateGrid, plateOf, type Plate, SEEN, WHOLE_MAP_NOTE } from './plate-data.ts';
import { isStale } from './is-stale.ts';
import { PRINTS, QuestionElement } from './question-element.ts';
import './reed-light.ts';

/** What the ends of the colours stand for. */
const ENDS = ['thinner', 'thicker'] as const;

const KEY = [
  { mark: 'more', words: 'thicker' },
  { mark: 'less', words: 'thinner' },
  { mark: 'bare', words: 'not measurable, or not read' },
] as const;

type Against = 'mirror' | 'facing' | 'other';

const AGAINST: Readonly<Record<Against, { words: string; heading: string; caption: string }>> = {
  mirror: {
    words: 'Mirror',
    heading: 'Left against right',
    caption: 'Each place less its mirror place on the same blade.',
  },
  facing: {
    words: 'Facing',
    heading: 'Each place against what faces it',
    caption: 'Each place less the place that faces it on the other blade.',
  },
  other: {
    words: 'A and B',
    heading: 'Blade against blade',
    caption: 'Each place less the same place of the other blade, seen from its own bark side.',
  },
};

/** Whether a reed is even, and whose doing it is. */
@customElement('bench-even')
export class EvenQuestion extends QuestionElement {
  private plate: Plate = {};
  private local: LocalPlace | undefined;
  private opening: OpeningData | undefined;
  @state() private against: Against = this.print === 'staple' ? 'facing' : 'mirror';

  override willUpdate(changed: PropertyValues) {
    const { benched, pass } = this;
    if (!benched?.model) return;
    const reed = isStale(changed, ['benched', 'pass']);
    if (reed) {
      this.opening = openingOf(benched, pass);
      this.local = localPlace(benched, pass);
    }
    if (!reed && !changed.has('against')) return;
    this.probe = undefined;
    this.maps = Object.fromEntries(BLADES.map((blade) => [blade, this.mapAgainst(blade, this.against)]));
    this.plate = this.plateAgainst();
  }

  /** On the staple the blades are folded onto each other: what is compared there is what faces. */
  protected override handlePrint(event: PrintChooseEvent) {
    super.handlePrint(event);
    if (event.print === 'staple') this.against = 'facing';
  }

  private plateAgainst(): Plate {
    return plateOf(this.benched!, this.pass, (blade, standing) => {
      const map = this.maps[blade];
      return map && { map, marks: differenceMarks(map, standing), isDifference: true };
    });
  }

  private mapAgainst(blade: Blade, against: Against): FigureMap | undefined {
    const model = this.benched!.model!;
    if (!model.blades[blade]) return undefined;
    const grid = plateGrid(this.benched!, this.pass);
    if (against === 'mirror') return mirroredMap(model, blade, this.pass, grid);
    const other = blade === 'A' ? 'B' : 'A';
    if (!model.blades[other]) return undefined;
    const theirs = thicknessMap(model, other, this.pass, grid);
    return mapDifference(
      thicknessMap(model, blade, this.pass, grid),
      against === 'facing' ? facingMap(theirs) : theirs,
    );
  }

  override render() {
    const { benched, writing } = this;
    if (!benched?.model) return nothing;
    const unit = UNIT_WORDS[writing.unit];
    const figures = figuresOf({ benched, pass: this.pass });
    const answer = sayEvenness(
      evenness(figures),
      writing,
      this.local && { found: this.local, placed: zonesAt(benched, this.pass) },
    );
    const gouged = this.original?.sideDifference;
    return this.renderColumns(
      this.renderAnswer(answer),
      html`${this.renderPicture('blade, hand and side', html`<bench-whiskers .rows=${figures.table('balance').rows} .unit=${writing.unit} .decimal=${writing.decimal}></bench-whiskers>`)}
        ${gouged ? html`<p class="note">${sayGouge(gouged, writing)}</p>` : nothing}
        <p class="note">
          A tilt on the tongue looks like a habit of the hand: read six places with the reed turned to tell
          them apart, once a season.
        </p>`,
      html`<bench-blade-pair
        .a=${this.plate.A}
        .b=${this.plate.B}
        quantity="difference"
        .print=${this.print}
        .prints=${PRINTS}
        @bench-print-choose=${this.handlePrint}
        .probe=${this.probe}
        probe-text=${this.probeText}
        @bench-map-probe=${this.handleProbe}
        .unit=${writing.unit}
        .decimal=${writing.decimal}
        heading=${AGAINST[this.against].heading}
        .ends=${ENDS}
        caption=${`${sentence(unit.caption)}. ${SEEN}`}
        note=${`${AGAINST[this.against].caption} ${WHOLE_MAP_NOTE}`}
        .key=${KEY}
      >
        ${this.renderBody({ plate: this.plate, carried: this.against === 'facing' ? 'bridges' : 'lifted', withLamp: true })}
        <div slot="foot" class="choice" role="group" aria-label="Compared with">
          ${(Object.keys(AGAINST) as Against[]).map(
            (against) =>
              html`<button aria-pressed=${against === this.against} @click=${() => (this.against = against)}>
                ${AGAINST[against].words}
              </button>`,
          )}
        </div>
      </bench-blade-pair>`,
      this.opening
        ? html`<section>
              <h2>The opening, seen from the cork <small>corners, ${unit.caption}</small></h2>
              ${this.renderPicture(
                'the opening seen from the cork',
                html`<bench-opening
                  .data=${this.opening}
                  .unit=${writing.unit}
                  .decimal=${writing.decimal}
                ></bench-opening>`,
              )}
            </section>
            <div class="folds">
              <details open>
                <summary>What light would show</summary>
                <bench-reed-light
                  .benched=${benched}
                  .pass=${this.pass}
                  .decimal=${writing.decimal}
                ></bench-reed-light>
              </details>
            </div>`
        : nothing,
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-even': EvenQuestion;
  }
}
