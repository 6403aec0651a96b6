import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { facing } from '../../shared/blade.ts';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { pictureWords } from '../../src/answers/picture-words.ts';
import { probeWords, type Probed } from '../../src/answers/probe-words.ts';
import type { ReedFigures } from '../../src/answers/record/record.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import { sayThereNow } from '../../src/answers/there-now.ts';
import { sentence } from '../../src/words/figure-words.ts';
import { thicknessFigure, UNIT_WORDS } from '../../src/words/format.ts';
import '../map/blade-pair.ts';
import '../lamp/lamp-blade.ts';
import type { OutlinePoint, ProfileLine } from '../map/map-data.ts';
import type { MapLineMoveEvent } from '../map/map-events.ts';
import { quantityUnit } from '../map/quantity-text.ts';
import './line-profile.ts';
import { SEEN, thicknessPlate, type Plate } from './plate-data.ts';
import { believableWords, PRINTED, readingKey } from './printed.ts';
import { isStale } from './is-stale.ts';
import { PRINTS, QuestionElement } from './question-element.ts';
import './reed-light.ts';
import '../read-next/read-next.ts';

/** What is there after a pass, and how sure. */
@customElement('bench-there-now')
export class ThereNowQuestion extends QuestionElement {
  private plate: Plate = {};
  /** The thickness, whatever is printed. */
  private light: Plate = {};
  /** Where the profile runs, seen from each blade's own bark side. */
  @state() private line: ProfileLine = { kind: 'down', across: 0 };
  @state() private printed: Probed = 'thickness';

  /** Every favourite of the style; what they span is drawn beside the profile. */
  @property({ attribute: false }) favourites: readonly ReedAtPass[] = [];

  /** Offer a round of the places that are worth reading. */
  @property({ type: Boolean, attribute: 'can-start' }) canStart = false;

  override willUpdate(changed: PropertyValues) {
    const { benched, pass } = this;
    if (!benched?.model) return;
    const isOther = isStale(changed, ['benched', 'pass']);
    if (isOther) this.probe = undefined;
    if (isOther || changed.has('printed')) this.plate = PRINTED[this.printed].plate(benched, pass);
    if (isOther) this.light = this.printed === 'thickness' ? this.plate : thicknessPlate(benched, pass);
  }

  private handleLine({ line }: MapLineMoveEvent) {
    this.line = line;
  }

  /** The probe as it is seen through A. */
  private get probeOnA(): OutlinePoint | undefined {
    const { probe } = this;
    return probe && (probe.blade === 'A' ? probe : facing(probe));
  }

  protected override get probeText(): string {
    const { probe, benched, pass, printed, writing } = this;
    return probe && benched?.model ? probeWords(benched, pass, probe, printed, writing) : '';
  }

  override render() {
    const { benched, pass, writing, favourite } = this;
    if (!benched?.model) return nothing;
    const figures = figuresOf({ benched, pass });
    const answer = sayThereNow(figures, writing, favourite?.benched.model && figuresOf(favourite));
    return this.renderColumns(
      this.renderAnswer(answer),
      html`${this.renderTable(figures.table('zones'))} ${this.renderFolds(figures)}`,
      this.renderPlate(),
      html`<bench-line-profile
        .benched=${benched}
        .pass=${pass}
        .favourites=${this.favourites}
        .line=${this.line}
        .writing=${writing}
        @bench-map-line-move=${this.handleLine}
      ></bench-line-profile>`,
      true,
    );
  }

  /** The reed against the lamp, at the scale of the blades; on the staple a view turns along with the reed instead. */
  private renderLamp() {
    return html`<bench-lamp-blade
      slot="third"
      .benched=${this.benched}
      .pass=${this.pass}
      .reed=${this.light}
      .probe=${this.probeOnA}
      .writing=${this.writing}
    ></bench-lamp-blade>`;
  }

  private renderPlate() {
    const { writing, printed } = this;
    return html`<bench-blade-pair
      .a=${this.plate.A}
      .b=${this.plate.B}
      .quantity=${PRINTED[printed].quantity}
      .unit=${writing.unit}
      .decimal=${writing.decimal}
      heading=${PRINTED[printed].words}
      caption=${`${sentence(quantityUnit(PRINTED[printed].quantity, writing.unit))}. ${SEEN}`}
      note=${PRINTED[printed].note(writing)}
      .print=${this.print}
      .prints=${PRINTS}
      .key=${readingKey(PRINTED[printed].quantity)}
      .probe=${this.probe}
      probe-text=${this.probeText}
      .line=${this.line}
      @bench-map-line-move=${this.handleLine}
      @bench-map-probe=${this.handleProbe}
      @bench-print-choose=${this.handlePrint}
    >
      ${this.renderBody({ withLamp: true })} ${this.print === 'staple' ? nothing : this.renderLamp()}
      <div slot="foot" class="choice" role="group" aria-label="Printed on the blades">
        ${(Object.keys(PRINTED) as Probed[]).map(
          (choice) =>
            html`<button aria-pressed=${choice === printed} @click=${() => (this.printed = choice)}>
              ${PRINTED[choice].words}
            </button>`,
        )}
      </div>
    </bench-blade-pair>`;
  }

  private renderFolds(figures: ReedFigures) {
    const { benched, pass, writing } = this;
    const unit = UNIT_WORDS[writing.unit];
    const { noiseMm, noiseFrom } = benched!.model!;
    const noise = { valueMm: 0, uMm: noiseMm.A ?? noiseMm.B ?? 0 };
    const assumed = benched!.assembled.assumed(writing);
    return html`<div class="folds">
      ${FOLDED.map(([name, title]) => this.renderFold(title, () => this.renderTable(figures.table(name))))}
      ${this.renderFold(
        'How sure',
        () =>
          html`<p class="note">
              One reading is taken to be good to ±${thicknessFigure(noise, writing).doubt.slice(1)}
              ${unit.caption} (${NOISE_WORDS[noiseFrom]}). ${believableWords(benched!, writing)}
              ${assumed.length > 0 ? html`Assumed: ${assumed.join('; ')}.` : nothing}
            </p>
            ${this.renderTable(figures.table('believable'))}`,
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
