import { html, nothing, type PropertyValues } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { BLADES, facing, type Place } from '../../shared/blade.ts';
import { CROSSINGS_MM } from '../../src/answers/beside.ts';
import { sayThereNow, thereNow, type ThereNow } from '../../src/answers/there-now.ts';
import { centreLine, crossing } from '../../src/figures/crossing.ts';
import { estimate, pointFunctional } from '../../src/figures/functional.ts';
import {
  distanceFigure,
  distanceText,
  joined,
  readingText,
  signedText,
  thicknessFigure,
  UNIT_WORDS,
} from '../../src/report/format.ts';
import { acrossWords, sentence } from '../../src/answers/figure-words.ts';
import type { ChartLine } from '../charts/chart-data.ts';
import '../charts/profile-chart.ts';
import type { FigureRow } from '../figures-table/figures-table.ts';
import '../figures-table/figures-table.ts';
import '../map/blade-pair.ts';
import type { MapLineMoveEvent, MapProbeEvent } from '../map/map-events.ts';
import { downLines } from './centre-lines.ts';
import { thicknessPlate, type Plate } from './plate-data.ts';
import { isStale, QuestionElement } from './question-element.ts';
import './reed-relief.ts';

const KEY = [
  { mark: 'from-tip', words: 'hangs from the tip' },
  { mark: 'from-thread', words: 'hangs from the thread' },
  { mark: 'lozenge', words: 'near its floor' },
] as const;

/** What is there after a pass, and how sure. */
@customElement('bench-there-now')
export class ThereNowQuestion extends QuestionElement {
  private now: ThereNow | undefined;
  private plate: Plate = {};
  private lines: readonly ChartLine[] = [];
  @state() private probe: Place | undefined;
  /** Where across each blade the profile runs, seen from its own bark side. */
  @state() private across = 0;

  override willUpdate(changed: PropertyValues) {
    const { benched, pass, favourite } = this;
    if (!benched?.model) return;
    const isOther = isStale(changed, ['benched', 'pass', 'favourite']);
    if (isOther || changed.has('across')) this.lines = downLines({ benched, pass }, this.across, favourite);
    if (!isOther) return;
    this.now = thereNow(benched, pass, favourite);
    this.plate = thicknessPlate(benched, pass);
    this.probe = undefined;
  }

  private handleProbe(event: MapProbeEvent) {
    this.probe = event.place;
  }

  private handleLine({ line }: MapLineMoveEvent) {
    if (line.kind === 'down') this.across = line.across;
  }

  private get probeText(): string {
    const { probe, benched, writing } = this;
    const model = benched?.model;
    if (!probe || !model) return '';
    const found = [probe, facing(probe)]
      .filter(({ blade }) => model.blades[blade])
      .map((place) => {
        const figure = estimate(model, pointFunctional(model, { ...place, pass: this.pass }));
        return `${place.blade} ${acrossWords(place.across)} ${joined(thicknessFigure(figure, writing))}`;
      });
    return `${distanceText(probe.fromTipMm, writing)}: ${found.join(', facing it ')} ${UNIT_WORDS[writing.unit].caption}`;
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
    const { now, benched, writing } = this;
    if (!now || !benched) return nothing;
    const unit = UNIT_WORDS[writing.unit];
    const line =
      this.across === 0
        ? 'Down the centre line'
        : `Down this line, ${signedText(this.across, 2, writing)} of the half-width`;
    const answer = sayThereNow(benched, this.pass, now, writing, this.favourite?.benched.reed.label);
    return this.renderColumns(
      html`${this.renderAnswer(answer)}
        <bench-figures-table
          caption=${`${sentence(unit.name)}. ± is 95 %. “To floor” is the thinnest reading of the zone.`}
          .heads=${['Zone', 'Mean', 'A', 'B', 'To floor']}
          .rows=${this.rows}
        ></bench-figures-table>`,
      html`<bench-blade-pair
        .a=${this.plate.A}
        .b=${this.plate.B}
        .unit=${writing.unit}
        .decimal=${writing.decimal}
        caption="Bark side, tip up, mm from the tip."
        label=${answer.say}
        .key=${KEY}
        .probe=${this.probe}
        probe-text=${this.probeText}
        .line=${{ blade: 'A', line: { kind: 'down', across: this.across } }}
        @bench-map-line-move=${this.handleLine}
        @bench-map-probe=${this.handleProbe}
      ></bench-blade-pair>`,
      html`<section>
          <h2>${line} <small>${unit.caption}, mm from the tip</small></h2>
          <bench-profile-chart
            .lines=${this.lines}
            .unit=${writing.unit}
            .decimal=${writing.decimal}
            label=${`Thickness, both blades: ${line.toLowerCase()}`}
          ></bench-profile-chart>
        </section>
        <section>
          <h2>Relief <small>thickness drawn 8 ×</small></h2>
          <bench-reed-relief
            .benched=${benched}
            .pass=${this.pass}
            .writing=${writing}
            .probe=${this.probe}
            @bench-map-probe=${this.handleProbe}
          ></bench-reed-relief>
        </section>
        <bench-figures-table
          caption="Where the centre passes a thickness, mm from the tip"
          .heads=${[unit.caption, 'at']}
          .rows=${this.crossings}
        ></bench-figures-table>
        <p class="note">
          One reading is taken to be good to
          ±${thicknessFigure({ valueMm: 0, uMm: benched.model!.noiseMm.A ?? benched.model!.noiseMm.B ?? 0 }, writing).doubt.slice(1)}
          ${unit.caption} (${NOISE_WORDS[benched.model!.noiseFrom]}).
          ${benched.assembled.assumed.length > 0 ? html`Assumed: ${benched.assembled.assumed.join('; ')}.` : nothing}
        </p>`,
    );
  }
}

const NOISE_WORDS = {
  repeats: 'from repeated readings',
  study: 'from a repeat study of the gauge',
  passes: 'from cane that did not change between passes',
  declared: 'as declared for the gauge',
  residuals: 'from the scatter about the surface',
} as const;

declare global {
  interface HTMLElementTagNameMap {
    'bench-there-now': ThereNowQuestion;
  }
}
