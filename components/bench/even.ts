import { html, nothing, type PropertyValues } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { zonesAt } from '../../src/answers/fitted-reed.ts';
import { evenness, sayEvenness, sayGouge } from '../../src/answers/even.ts';
import { localPlace, type LocalPlace } from '../../src/answers/local-place.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import { UNIT_WORDS } from '../../src/words/format.ts';
import type { PrintChooseEvent } from '../map/prints.ts';
import '../reed/reed-balance.ts';
import '../reed/reed-map.ts';
import '../reed/reed-opening.ts';
import { AGAINST, type Against } from './against.ts';
import { isStale } from './is-stale.ts';
import { QuestionElement } from './question-element.ts';
import './reed-light.ts';

/** Whether a reed is even, and whose doing it is. */
@customElement('bench-even')
export class EvenQuestion extends QuestionElement {
  private local: LocalPlace | undefined;
  @state() private against: Against = this.print === 'staple' ? 'facing' : 'mirror';

  override willUpdate(changed: PropertyValues) {
    const { benched, pass } = this;
    if (benched?.model && isStale(changed, ['benched', 'pass'])) this.local = localPlace(benched, pass);
  }

  /** On the staple the blades are folded onto each other: what is compared there is what faces. */
  protected override handlePrint(event: PrintChooseEvent) {
    super.handlePrint(event);
    if (event.print === 'staple') this.against = 'facing';
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
    const hasBoth = benched.model.blades.A && benched.model.blades.B;
    return this.renderColumns(
      this.renderAnswer(answer),
      html`${this.renderPicture(
          'blade, hand and side',
          html`<bench-reed-balance
            bare
            show="figures"
            .fitted=${benched}
            .pass=${this.passNumber}
            .unit=${writing.unit}
            .decimal=${writing.decimal}
          ></bench-reed-balance>`,
        )}
        ${gouged ? html`<p class="note">${sayGouge(gouged, writing)}</p>` : nothing}
        <p class="note">
          A tilt on the tongue looks like a habit of the hand: read six places with the reed turned to tell
          them apart, once a season.
        </p>`,
      html`<bench-reed-map
        bare
        can-turn
        with-lamp
        .fitted=${benched}
        .pass=${this.passNumber}
        .shows=${this.against}
        .stance=${this.print}
        .original=${this.original}
        .unit=${writing.unit}
        .decimal=${writing.decimal}
        @bench-print-choose=${this.handlePrint}
      >
        <div slot="foot" class="choice" role="group" aria-label="Compared with">
          ${(Object.keys(AGAINST) as Against[]).map(
            (against) =>
              html`<button aria-pressed=${against === this.against} @click=${() => (this.against = against)}>
                ${AGAINST[against].words}
              </button>`,
          )}
        </div>
      </bench-reed-map>`,
      hasBoth
        ? html`<section>
              <h2>The opening, seen from the cork <small>corners, ${unit.caption}</small></h2>
              ${this.renderPicture(
                'the opening seen from the cork',
                html`<bench-reed-opening
                  bare
                  .fitted=${benched}
                  .pass=${this.passNumber}
                  .unit=${writing.unit}
                  .decimal=${writing.decimal}
                ></bench-reed-opening>`,
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
