import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { BLADES, type Place } from '../../shared/blade.ts';
import { zonesAt, type ReedAtPass } from '../../src/answers/benched-reed.ts';
import { sentence } from '../../src/words/figure-words.ts';
import { pictureWords } from '../../src/answers/picture-words.ts';
import { probeWords, type Probed } from '../../src/answers/probe-words.ts';
import { sayThereNow, thereNow, type ThereNow } from '../../src/answers/there-now.ts';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import { centreLine, crossing, CROSSINGS_MM } from '../../src/figures/crossing.ts';
import { zoneRatios, type ZoneRatio } from '../../src/figures/zone-ratios.ts';
import {
  distanceFigure,
  ratioFigure,
  readingText,
  thicknessFigure,
  UNIT_WORDS,
} from '../../src/words/format.ts';
import type { FigureRow } from '../figures-table/figures-table.ts';
import '../figures-table/figures-table.ts';
import '../map/blade-pair.ts';
import type { ProfileLine } from '../map/map-data.ts';
import type { MapLineMoveEvent, MapProbeEvent } from '../map/map-events.ts';
import { quantityUnit } from '../map/quantity-text.ts';
import './line-profile.ts';
import type { Plate } from './plate-data.ts';
import { believableWords, PRINTED } from './printed.ts';
import { isStale, QuestionElement } from './question-element.ts';
import './reed-light.ts';
import '../read-next/read-next.ts';
import './reed-relief.ts';

const KEY = [
  { mark: 'from-tip', words: 'hangs from the tip' },
  { mark: 'from-thread', words: 'hangs from the thread' },
  { mark: 'beyond', words: 'beyond the outermost readings' },
  { mark: 'lozenge', words: 'near its floor' },
] as const;

/** What is there after a pass, and how sure. */
@customElement('bench-there-now')
export class ThereNowQuestion extends QuestionElement {
  private now: ThereNow | undefined;
  private ratios: readonly ZoneRatio[] = [];
  private plate: Plate = {};
  @state() private isReadNextOpen = false;
  @state() private probe: Place | undefined;
  /** Where the profile runs, seen from each blade's own bark side. */
  @state() private line: ProfileLine = { kind: 'down', across: 0 };
  @state() private printed: Probed = 'thickness';

  /** Every favourite of the style; what they span is drawn beside the profile. */
  @property({ attribute: false }) favourites: readonly ReedAtPass[] = [];

  /** The cane that the blades were made of, where its gouge is known. */
  @property({ attribute: false }) original: OriginalCane | undefined;

  /** Offer a round of the places that are worth reading. */
  @property({ type: Boolean, attribute: 'can-start' }) canStart = false;

  override willUpdate(changed: PropertyValues) {
    const { benched, pass, favourite } = this;
    if (!benched?.model) return;
    const isOther = isStale(changed, ['benched', 'pass', 'favourite']);
    if (isOther) {
      this.now = thereNow(benched, pass, favourite);
      this.ratios = zoneRatios(benched.model, pass, zonesAt(benched, pass));
      this.probe = undefined;
    }
    if (isOther || changed.has('printed')) {
      this.plate = PRINTED[this.printed].plate(benched, pass);
    }
  }

  private handleProbe(event: MapProbeEvent) {
    this.probe = event.place;
  }

  private handleLine({ line }: MapLineMoveEvent) {
    this.line = line;
  }

  private get probeText(): string {
    const { probe, benched, pass, printed, writing } = this;
    return probe && benched?.model ? probeWords(benched, pass, probe, printed, writing) : '';
  }

  private get rows(): FigureRow[] {
    return (this.now?.zones ?? []).map(({ title, mean, blades, toFloorMm }) => ({
      title,
      marked: toFloorMm !== undefined && toFloorMm <= 0.015,
      cells: [
        mean ? thicknessFigure(mean, this.writing) : { none: 'not read' },
        ...BLADES.map((blade) => {
          const figure = blades[blade];
          return figure ? thicknessFigure(figure, this.writing).value : { none: `${blade} is not read` };
        }),
        toFloorMm === undefined ? { none: 'no floor here' } : readingText(toFloorMm, this.writing),
      ],
    }));
  }

  private get crossings(): FigureRow[] {
    const model = this.benched!.model!;
    return CROSSINGS_MM.map((thicknessMm) => {
      const found = crossing(model, this.pass, centreLine(model), thicknessMm);
      return {
        title: readingText(thicknessMm, this.writing),
        cells: [found ? distanceFigure(found, this.writing) : { none: 'the centre does not pass it' }],
      };
    });
  }

  override render() {
    const { now, benched, pass, writing } = this;
    if (!now || !benched) return nothing;
    const unit = UNIT_WORDS[writing.unit];
    const answer = sayThereNow(benched, pass, now, writing, this.favourite?.benched.reed.label);
    return this.renderColumns(
      this.renderAnswer(answer),
      html`<bench-figures-table
          caption=${`${sentence(unit.name)}. ± is 95 %. “To floor” is the thinnest reading of the zone.`}
          .heads=${['Zone', 'Mean', 'A', 'B', 'To floor']}
          .rows=${this.rows}
        ></bench-figures-table>
        ${this.renderFolds()}`,
      this.renderPlate(answer.say),
      html`<bench-line-profile
          .benched=${benched}
          .pass=${pass}
          .favourites=${this.favourites}
          .line=${this.line}
          .writing=${writing}
          @bench-map-line-move=${this.handleLine}
        ></bench-line-profile>
        <section>
          <h2>Relief</h2>
          <bench-reed-relief
            .benched=${benched}
            .pass=${pass}
            .writing=${writing}
            .original=${this.original}
            .probe=${this.probe}
            probe-text=${this.probeText}
            @bench-map-probe=${this.handleProbe}
          ></bench-reed-relief>
        </section>`,
    );
  }

  private renderPlate(label: string) {
    const { writing, printed } = this;
    return html`<bench-blade-pair
      .a=${this.plate.A}
      .b=${this.plate.B}
      .quantity=${printed}
      .unit=${writing.unit}
      .decimal=${writing.decimal}
      heading=${PRINTED[printed].words}
      caption=${`${sentence(quantityUnit(printed, writing.unit))}. ${PRINTED[printed].caption(this.benched!, writing)}`}
      label=${label}
      .key=${printed === 'thickness' ? KEY : KEY.filter(({ mark }) => mark !== 'lozenge')}
      .probe=${this.probe}
      probe-text=${this.probeText}
      .line=${this.line}
      @bench-map-line-move=${this.handleLine}
      @bench-map-probe=${this.handleProbe}
    >
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

  private handleReadNext(event: Event) {
    this.isReadNextOpen = (event.currentTarget as HTMLDetailsElement).open;
  }

  /** It takes a while to work out: only for those who look. */
  private renderReadNext() {
    return html`<details @toggle=${this.handleReadNext}>
      <summary>Where to read next</summary>
      ${
        this.isReadNextOpen
          ? html`<bench-read-next
              ?can-start=${this.canStart}
              .benched=${this.benched}
              .pass=${this.pass}
              .writing=${this.writing}
            ></bench-read-next>`
          : nothing
      }
    </details>`;
  }

  private renderRatios() {
    if (this.ratios.length === 0) return nothing;
    const rows = this.ratios.map(({ title, ratio }) => ({
      title,
      cells: [ratioFigure(ratio, this.writing)],
    }));
    return html`<details>
      <summary>Ratios of zones</summary>
      <bench-figures-table
        caption="Means of zones over each other: they survive another gouge, wetness and gauge better than thickness does. ± is 95 %."
        .heads=${['Ratio', 'here']}
        .rows=${rows}
      ></bench-figures-table>
    </details>`;
  }

  private renderFolds() {
    const { benched, pass, writing } = this;
    const model = benched!.model!;
    const unit = UNIT_WORDS[writing.unit];
    const noise = { valueMm: 0, uMm: model.noiseMm.A ?? model.noiseMm.B ?? 0 };
    const { assumed } = benched!.assembled;
    return html`<div class="folds">
      <details>
        <summary>Where ${CROSSINGS_MM.map((mm) => readingText(mm, writing)).join(', ')} are crossed</summary>
        <bench-figures-table
          caption="Where the centre passes a thickness, mm from the tip. ± is 95 %."
          .heads=${[unit.caption, 'at']}
          .rows=${this.crossings}
        ></bench-figures-table>
      </details>
      ${this.renderRatios()}
      <details>
        <summary>How sure</summary>
        <p class="note">
          One reading is taken to be good to ±${thicknessFigure(noise, writing).doubt.slice(1)}
          ${unit.caption} (${NOISE_WORDS[model.noiseFrom]}). ${believableWords(benched!, writing)}
          ${assumed.length > 0 ? html`Assumed: ${assumed.join('; ')}.` : nothing}
        </p>
      </details>
      ${pass === benched!.passes.length - 1 ? this.renderReadNext() : nothing}
      <details>
        <summary>The picture in words</summary>
        ${pictureWords(benched!, pass, writing).map((words) => html`<p class="note">${words}</p>`)}
      </details>
      <details>
        <summary>The lamp</summary>
        <bench-reed-light .benched=${benched} .pass=${pass} .decimal=${writing.decimal}></bench-reed-light>
      </details>
    </div>`;
  }
}

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
