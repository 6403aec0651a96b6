import { html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { listed, sentence } from '../../src/words/figure-words.ts';
import { numberText, UNIT_WORDS, withUnit } from '../../src/words/format.ts';
import { zoneWords } from '../../src/blade/starting-styles.ts';
import type { StyleTraits } from '../../src/traits/common-traits.ts';
import { learnedFloors } from '../../src/traits/learned-floors.ts';
import { timeSpent } from '../../src/traits/time-spent.ts';
import { figureText } from '../figure-text.ts';
import type { FigureRow } from '../figures-table/laid-out.ts';
import '../figures-table/figures-table.ts';
import { LibraryController } from '../store/library-controller.ts';
import { pages, sentences } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const SHOWN = 6;

/** What failures teach, and where the work goes. */
@customElement('bench-teachings')
export class Teachings extends BenchElement {
  static override styles = [pages, sentences];

  private readonly library = new LibraryController(this);

  @property({ attribute: false }) traits: StyleTraits | undefined;

  override render() {
    const { traits } = this;
    if (!this.library.store || !traits) return nothing;
    return html`<div class="two">${this.renderFloors(traits)} ${this.renderTime(traits)}</div>`;
  }

  private renderFloors({ reeds, relations }: StyleTraits) {
    const { writing } = this.library;
    const floors = learnedFloors(relations, reeds[0]?.summary.zones ?? []);
    return html`<section>
      <h2>Floors that failures taught</h2>
      ${
        floors.length === 0
          ? html`<p class="say">
              Nothing can be said: no zone is surely thinner on the reeds that failed. Read a bad reed before
              it goes, and write why it was bad.
            </p>`
          : html`<ol>
                ${floors.map(({ title, floorMm, interval, under, above }) => {
                  const [low, high] = interval.map((mm) => figureText(mm, writing));
                  return html`<li>
                    ${title}: ${figureText(floorMm, writing)} (95 %: ${low} to ${high})
                    <small>
                      under it ${under.failed} of ${under.all} failed, above it ${above.failed} of
                      ${above.all}
                    </small>
                  </li>`;
                })}
              </ol>
              <p class="note">
                ${sentence(UNIT_WORDS[writing.unit].name)}, the zone’s mean. Failed means: last called “no”,
                or retired as never good.
              </p>`
      }
    </section>`;
  }

  private renderTime({ reeds }: StyleTraits) {
    const { writing, store } = this.library;
    const ids = new Set(reeds.map(({ reed }) => reed.id));
    const spent = timeSpent(store!.snapshot.live.pass.filter(({ reedId }) => ids.has(reedId)));
    const number = (value: number) => numberText(value, 0, writing);
    const facts = [
      spent.passes !== undefined && `${number(spent.passes)} ${spent.passes === 1 ? 'pass' : 'passes'}`,
      spent.days !== undefined && `${number(spent.days)} days from the first to the last`,
      spent.knifeMin !== undefined && `${withUnit(number(spent.knifeMin), 'min')} with the knife`,
      spent.gaugeMin !== undefined && `${withUnit(number(spent.gaugeMin), 'min')} at the gauge`,
    ].filter((fact) => fact !== false);
    return html`<section>
      <h2>Where the work goes</h2>
      <p class="say">
        ${facts.length > 0 ? `Half of your reeds take at most ${listed(facts)}.` : 'No pass of these reeds carries its times.'}
      </p>
      ${
        spent.places.length > 0
          ? html`<bench-figures-table
              caption="Strokes written down, by place"
              .heads=${['Place', 'Strokes', 'Share', 'Minutes a reed']}
              .rows=${spent.places.slice(0, SHOWN).map(({ zone, strokes, share, minutes }): FigureRow => ({ title: zoneWords(zone), cells: [String(strokes), `${number(100 * share)} %`, minutes === undefined ? { none: 'no minutes written down' } : number(minutes)] }))}
            ></bench-figures-table>`
          : nothing
      }
    </section>`;
  }
}
