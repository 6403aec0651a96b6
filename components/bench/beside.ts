import { html, nothing, type PropertyValues } from 'lit';
import { customElement } from 'lit/decorators.js';
import { beside, sayBeside, type Beside } from '../../src/answers/beside.ts';
import { sentence } from '../../src/answers/figure-words.ts';
import { measurableFactor } from '../../src/figures/measurable.ts';
import {
  differenceFigure,
  distanceFigure,
  readingText,
  thicknessFigure,
  UNIT_WORDS,
} from '../../src/report/format.ts';
import type { ChartLine } from '../charts/chart-data.ts';
import '../charts/profile-chart.ts';
import type { FigureRow } from '../figures-table/figures-table.ts';
import '../figures-table/figures-table.ts';
import '../map/blade-pair.ts';
import { downLines } from './profile-lines.ts';
import { differenceMarks, plateOf, type Plate } from './plate-data.ts';
import { isStale, QuestionElement } from './question-element.ts';

const KEY = [
  { mark: 'more', words: 'excess: can be scraped' },
  { mark: 'less', words: 'lack: cannot be put back' },
  { mark: 'bare', words: 'not measurable, or not read' },
] as const;

/** How far a reed is from its favourite. */
@customElement('bench-beside')
export class BesideQuestion extends QuestionElement {
  private compared: Beside | undefined;
  private plate: Plate = {};
  private lines: readonly ChartLine[] = [];

  override willUpdate(changed: PropertyValues) {
    const { benched, pass, favourite } = this;
    if (!benched?.model || !isStale(changed, ['benched', 'pass', 'favourite'])) return;
    this.compared = favourite?.benched.model && beside({ benched, pass }, favourite);
    if (!this.compared) return;
    const { maps } = this.compared;
    this.plate = plateOf(benched, pass, (blade, standing) => {
      const map = maps[blade];
      return map && { map, marks: differenceMarks(map, standing, measurableFactor(map)), isDifference: true };
    });
    this.lines = downLines({ benched, pass }, 0, favourite);
  }

  private get rows(): FigureRow[] {
    return (this.compared?.rows ?? []).map(({ title, own, other, difference }) => ({
      title,
      cells: [
        thicknessFigure(own, this.writing).value,
        thicknessFigure(other, this.writing).value,
        differenceFigure(difference, this.writing),
      ],
    }));
  }

  private get crossings(): FigureRow[] {
    return (this.compared?.crossings ?? []).map(({ thicknessMm, own, other }) => ({
      title: readingText(thicknessMm, this.writing),
      cells: [own, other].map((at) => (at ? distanceFigure(at, this.writing) : { none: 'not passed' })),
    }));
  }

  override render() {
    const { benched, favourite, compared, writing } = this;
    if (!benched) return nothing;
    if (!favourite)
      return html`<p class="say lone">
        No favourite yet. Open a reed that plays as you like it and mark it as a favourite; every other reed
        can then be set beside it.
      </p>`;
    if (!compared)
      return html`<p class="say lone">${favourite.benched.reed.label} has no readings to set beside.</p>`;
    const label = favourite.benched.reed.label;
    const own = benched.reed.label;
    const answer = sayBeside(compared, label, writing);
    const unit = UNIT_WORDS[writing.unit];
    return this.renderColumns(
      html`${this.renderAnswer(answer)}
        <div class="scroll">
          <bench-figures-table
            caption=${`${sentence(unit.name)}. ± is 95 %; in brackets: inside its doubt.`}
            .heads=${['Zone', own, label, 'Difference']}
            .rows=${this.rows}
          ></bench-figures-table>
        </div>
        <p class="note">
          Both are placed from the tip, in plain ${unit.name}.
          ${compared.notes.length > 0 ? html`<br />${compared.notes.join(' ')}` : nothing} Thickness explains
          only a part of how a reed plays.
        </p>`,
      html`<bench-blade-pair
        .a=${this.plate.A}
        .b=${this.plate.B}
        quantity="difference"
        .unit=${writing.unit}
        .decimal=${writing.decimal}
        caption=${`${own} less ${label}, ${unit.caption}, placed from the tip.`}
        label=${answer.say}
        .key=${KEY}
      ></bench-blade-pair>`,
      html`<section>
          <h2>Down the centre line <small>${unit.caption}, mm from the tip</small></h2>
          <bench-profile-chart
            .lines=${this.lines}
            .unit=${writing.unit}
            .decimal=${writing.decimal}
            label=${`The centre line of ${own} and of ${label}`}
          ></bench-profile-chart>
        </section>
        <bench-figures-table
          caption="Where the centre passes a thickness, mm from the tip"
          .heads=${[unit.caption, own, label]}
          .rows=${this.crossings}
        ></bench-figures-table>`,
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-beside': BesideQuestion;
  }
}
