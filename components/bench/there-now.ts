import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Place } from '../../shared/blade.ts';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { pictureWords } from '../../src/answers/picture-words.ts';
import type { Probed } from '../../src/answers/probe-words.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import { sayThereNow } from '../../src/answers/there-now.ts';
import { thicknessFigure, UNIT_WORDS } from '../../src/words/format.ts';
import type { ProfileLine } from '../map/map-data.ts';
import type { MapLineMoveEvent, MapProbeEvent } from '../map/map-events.ts';
import '../reed/reed-lamp.ts';
import '../reed/reed-map.ts';
import '../reed/reed-profile.ts';
import { libraryWords } from '../../src/answers/library-words.ts';
import { believableWords, PRINTED } from './printed.ts';
import { QuestionElement } from './question-element.ts';
import './reed-light.ts';
import '../read-next/read-next.ts';

/** What is there after a pass, and how sure. */
@customElement('bench-there-now')
export class ThereNowQuestion extends QuestionElement {
  /** Where the profile runs, seen from each blade's own bark side. */
  @state() private line: ProfileLine = { kind: 'down', across: 0 };
  @state() private printed: Probed = 'thickness';
  /** The place that pointer or keys rest on. */
  @state() private probe: Place | undefined;

  /** Every favourite of the style; what they span is drawn beside the profile. */
  @property({ attribute: false }) favourites: readonly ReedAtPass[] = [];

  /** Offer a round of the places that are worth reading. */
  @property({ type: Boolean, attribute: 'can-start' }) canStart = false;

  private handleLine({ line }: MapLineMoveEvent) {
    this.line = line;
  }

  private handleProbe({ place }: MapProbeEvent) {
    this.probe = place;
  }

  override render() {
    const { benched, pass, writing, favourite } = this;
    if (!benched?.model) return nothing;
    const figures = figuresOf({ benched, pass });
    const answer = sayThereNow(figures, writing, favourite?.benched.model && figuresOf(favourite));
    return this.renderColumns(
      this.renderAnswer(answer),
      html`${this.renderFigures('zones')} ${this.renderFolds()}`,
      this.renderPlate(),
      html`<bench-reed-profile
        bare
        .fitted=${benched}
        .pass=${this.passNumber}
        .favourites=${this.favourites}
        .line=${this.line}
        .unit=${writing.unit}
        .decimal=${writing.decimal}
        @bench-map-line-move=${this.handleLine}
      ></bench-reed-profile>`,
      true,
    );
  }

  /** The reed against the lamp, at the scale of the blades; on the staple a view turns along with the reed instead. */
  private renderLamp() {
    const { benched, writing, print } = this;
    if (print === 'staple' || !benched?.model?.blades.A || !benched.model.blades.B) return nothing;
    return html`<bench-reed-lamp
      bare
      slot="third"
      .fitted=${benched}
      .pass=${this.passNumber}
      .probe=${this.probe}
      .unit=${writing.unit}
      .decimal=${writing.decimal}
    ></bench-reed-lamp>`;
  }

  private renderPlate() {
    const { writing, printed } = this;
    return html`<bench-reed-map
      bare
      can-turn
      with-lamp
      .fitted=${this.benched}
      .pass=${this.passNumber}
      .shows=${printed}
      .stance=${this.print}
      .original=${this.original}
      .line=${this.line}
      .unit=${writing.unit}
      .decimal=${writing.decimal}
      @bench-map-line-move=${this.handleLine}
      @bench-map-probe=${this.handleProbe}
      @bench-print-choose=${this.handlePrint}
    >
      ${this.renderLamp()}
      <div slot="foot" class="choice" role="group" aria-label="Printed on the blades">
        ${(Object.keys(PRINTED) as Probed[]).map(
          (choice) =>
            html`<button aria-pressed=${choice === printed} @click=${() => (this.printed = choice)}>
              ${PRINTED[choice].words}
            </button>`,
        )}
      </div>
    </bench-reed-map>`;
  }

  private renderFolds() {
    const { benched, pass, writing } = this;
    const unit = UNIT_WORDS[writing.unit];
    const { fromLibrary } = benched!;
    const { noiseMm, noiseFrom } = benched!.model!;
    const noise = { valueMm: 0, uMm: noiseMm.A ?? noiseMm.B ?? 0 };
    const assumed = benched!.assembled.assumed(writing);
    return html`<div class="folds">
      ${FOLDED.map(([name, title]) => this.renderFold(title, () => this.renderFigures(name)))}
      ${this.renderFold(
        'How sure',
        () =>
          html`<p class="note">
              One reading is taken to be good to ±${thicknessFigure(noise, writing).doubt.slice(1)}
              ${unit.caption} (${NOISE_WORDS[noiseFrom]}). ${believableWords(benched!, writing)}
              ${assumed.length > 0 ? html`Assumed: ${assumed.join('; ')}.` : nothing}
            </p>
            ${fromLibrary ? html`<p class="note">${libraryWords(fromLibrary)}</p>` : nothing}
            ${this.renderFigures('believable')}`,
      )}
      ${
        pass === benched!.passes.length - 1
          ? this.renderFold(
              'Where to read next',
              () =>
                html`<bench-read-next
                  ?can-start=${this.canStart}
                  .benched=${benched}
                  .pass=${pass}
                  .writing=${writing}
                ></bench-read-next>`,
            )
          : nothing
      }
      ${this.renderFold('The picture in words', () =>
        pictureWords(benched!, pass, writing).map((words) => html`<p class="note">${words}</p>`),
      )}
      ${this.renderFold(
        'The lamp',
        () =>
          html`<bench-reed-light
            .benched=${benched}
            .pass=${pass}
            .decimal=${writing.decimal}
          ></bench-reed-light>`,
      )}
    </div>`;
  }
}

/** Tables that are folded, and what stands on the fold. */
const FOLDED = [
  ['crossings', 'Where the centre passes a thickness'],
  ['ratios', 'Ratios of zones'],
  ['extent', 'Thinnest reading and volume'],
] as const;

const NOISE_WORDS = {
  repeats: 'from repeated readings',
  study: 'from a repeat study of the gauge',
  passes: 'from cane that did not change between passes',
  declared: 'as the gauge promises',
  residuals: 'from the scatter about the surface',
} as const;

declare global {
  interface HTMLElementTagNameMap {
    'bench-there-now': ThereNowQuestion;
  }
}
