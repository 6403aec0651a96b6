import { html, nothing, type PropertyValues } from 'lit';
import { customElement } from 'lit/decorators.js';
import { BLADES, type Blade } from '../../shared/blade.ts';
import { sayTakenOff, takenOff, type TakenOff } from '../../src/answers/taken-off.ts';
import { isMeasurable } from '../../src/answers/figure-words.ts';
import { measurableFactor } from '../../src/figures/measurable.ts';
import type { ZoneRemoval } from '../../src/figures/removed.ts';
import {
  COVERAGE,
  differenceFigure,
  numberText,
  signedText,
  UNIT_WORDS,
  withUnit,
} from '../../src/report/format.ts';
import type { ChartLine } from '../charts/chart-data.ts';
import '../charts/profile-chart.ts';
import type { FigureCell, FigureRow } from '../figures-table/figures-table.ts';
import '../figures-table/figures-table.ts';
import '../map/blade-pair.ts';
import { passLines } from './profile-lines.ts';
import { differenceMarks, plateOf, type Plate } from './plate-data.ts';
import { isStale, QuestionElement } from './question-element.ts';
import './reed-film.ts';

const KEY = [
  { mark: 'more', words: 'taken off' },
  { mark: 'less', words: 'reads thicker: look for a fault' },
  { mark: 'bare', words: 'not measurable, or not read' },
] as const;

/** What a pass took off since an earlier one. */
@customElement('bench-taken-off')
export class TakenOffQuestion extends QuestionElement {
  private taken: TakenOff | undefined;
  private plate: Plate = {};
  private lines: readonly ChartLine[] = [];

  override willUpdate(changed: PropertyValues) {
    const { benched, pass, earlier: before } = this;
    if (!benched?.model || !isStale(changed, ['benched', 'pass', 'earlier'])) return;
    this.taken = pass > before ? takenOff(benched, { before, after: pass }) : undefined;
    if (!this.taken) return;
    const { maps } = this.taken;
    const { passes } = benched.assembled;
    const clippedMm = passes[before]!.overallLengthMm - passes[pass]!.overallLengthMm;
    this.plate = plateOf(benched, pass, (blade, standing) => {
      const map = maps[blade];
      return (
        map && {
          map,
          marks: differenceMarks(map, standing, measurableFactor(map)),
          isDifference: true,
          clippedMm,
        }
      );
    });
    const { blade, across } = this.mostPlace;
    this.lines = passLines({ benched, pass }, { kind: 'down', across }, blade, [before]);
  }

  /** The line on which most went; the centre of A where nothing is measurable. */
  private get mostPlace(): { blade: Blade; across: number } {
    const places = BLADES.flatMap((blade) => {
      const at = this.taken?.most[blade];
      return at ? [{ blade, across: at.across, valueMm: at.valueMm }] : [];
    });
    return places.sort((a, b) => b.valueMm - a.valueMm)[0] ?? { blade: 'A', across: 0 };
  }

  private get rows(): FigureRow[] {
    return this.rowsOf(({ mean }) => differenceFigure(mean, this.writing));
  }

  private get volumes(): FigureRow[] {
    const { writing } = this;
    return this.rowsOf(({ mean, volumeMm3, uMm3 }) => ({
      value: numberText(volumeMm3, 2, writing),
      doubt: `±${numberText(COVERAGE * uMm3, 2, writing)}`,
      inDoubt: !isMeasurable(mean),
    }));
  }

  private rowsOf(cell: (removal: ZoneRemoval) => FigureCell): FigureRow[] {
    return (this.taken?.rows ?? []).map(({ title, blades }) => ({
      title,
      cells: BLADES.map((blade) => {
        const removal = blades[blade];
        return removal ? cell(removal) : { none: `${blade} is not read` };
      }),
    }));
  }

  override render() {
    const { taken, benched, writing } = this;
    if (!benched) return nothing;
    if (!taken) return html`<p class="say lone">One pass so far. The next one shows here.</p>`;
    const unit = UNIT_WORDS[writing.unit];
    const [before, after] = [this.earlier, this.pass].map((at) => benched.assembled.passes[at]!.index);
    const answer = sayTakenOff(benched, taken, writing);
    const { blade, across } = this.mostPlace;
    return this.renderColumns(
      html`${this.renderAnswer(answer)}
        <div class="scroll">
          <bench-figures-table
            caption=${`Taken off, ${unit.caption}. In brackets: not measurable here. ± is 95 %.`}
            .heads=${['Zone', 'A', 'B']}
            .rows=${this.rows}
          ></bench-figures-table>
        </div>
        <details>
          <summary>Volume by zone, mm³</summary>
          <bench-figures-table
            caption="Taken off, mm³. Pale: not measurable here. ± is 95 %."
            .heads=${['Zone', 'A', 'B']}
            .rows=${this.volumes}
          ></bench-figures-table>
        </details>
        <p class="note">Passes are placed from the cork end. Zones are those of pass ${after}.</p>`,
      html`<bench-blade-pair
        .a=${this.plate.A}
        .b=${this.plate.B}
        quantity="difference"
        .unit=${writing.unit}
        .decimal=${writing.decimal}
        caption=${`Pass ${before} less pass ${after}, bark side, tip up.`}
        label=${answer.say}
        .key=${KEY}
      ></bench-blade-pair>`,
      html`<section>
          <h2>
            Where most went
            <small
              >${blade}, ${withUnit(signedText(across, 1, writing), 'of the half-width')}, ${unit.caption}, mm
              from the tip</small
            >
          </h2>
          <bench-profile-chart
            .lines=${this.lines}
            .unit=${writing.unit}
            .decimal=${writing.decimal}
            label=${`Blade ${blade} before and after`}
          ></bench-profile-chart>
        </section>
        <details>
          <summary>Film through the passes</summary>
          <bench-reed-film .benched=${benched} .writing=${writing}></bench-reed-film>
        </details>`,
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-taken-off': TakenOffQuestion;
  }
}
