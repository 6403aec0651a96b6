import { css, html, nothing, type PropertyValues } from 'lit';
import { customElement } from 'lit/decorators.js';
import { BLADES, type Blade } from '../../shared/blade.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import { sayTakenOff } from '../../src/answers/say-taken-off.ts';
import type { TakenOff } from '../../src/answers/taken-off.ts';
import { zonesAt } from '../../src/answers/fitted-reed.ts';
import { outsideMeant } from '../../src/answers/outside-meant.ts';
import { placeOnBlade } from '../../src/answers/answer-words.ts';
import { acrossWords, placeWords } from '../../src/words/figure-words.ts';
import {
  joined,
  quantityText,
  thicknessFigure,
  UNIT_WORDS,
  volumeFigure,
  withUnit,
} from '../../src/words/format.ts';
import type { ChartLine } from '../charts/chart-data.ts';
import '../charts/profile-chart.ts';
import { hrefOf } from '../frame/routes.ts';
import '../reed/reed-taken.ts';
import { adjusters } from '../theme/base.styles.ts';
import { passLines } from './profile-lines.ts';
import { isStale } from './is-stale.ts';
import { QuestionElement } from './question-element.ts';
import './reed-film.ts';
import './reed-passes.ts';

const pairStyles = css`
  .pair {
    display: flex;
    gap: var(--bench-space-3);
  }
`;

/** What a pass took off since an earlier one. */
@customElement('bench-taken-off')
export class TakenOffQuestion extends QuestionElement {
  static override styles = [...QuestionElement.styles, adjusters, pairStyles];

  private taken: TakenOff | undefined;
  private lines: readonly ChartLine[] = [];

  override willUpdate(changed: PropertyValues) {
    const { benched, pass, earlier: before } = this;
    if (!benched?.model || !isStale(changed, ['benched', 'pass', 'earlier'])) return;
    this.taken = pass > before ? figuresOf({ benched, pass }).taken(before) : undefined;
    if (!this.taken) return;
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

  override render() {
    const { taken, benched, writing } = this;
    if (!benched) return nothing;
    if (!taken) return html`<p class="say lone">One pass so far. The next one shows here.</p>`;
    const unit = UNIT_WORDS[writing.unit];
    const answer = sayTakenOff(benched, taken, writing);
    const { blade, across } = this.mostPlace;
    return this.renderColumns(
      this.renderAnswer(answer),
      html`${this.renderTaken('zones')}
        <div class="folds">
          ${this.renderFold('Patch by patch', () => this.renderTaken('patches'))}
          ${this.renderFold('Volume by zone, mm³', () => this.renderTaken('volumes'))}
          ${this.renderFold('Outside what you meant', () => this.renderOutside(taken))}
        </div>`,
      this.renderTaken('map', this.renderPair()),
      html`<section>
          <h2>
            Where most went
            <small>${blade}, ${acrossWords(across)}, ${unit.caption}, mm from the tip</small>
          </h2>
          ${this.renderPicture(
            'where most went',
            html`<bench-profile-chart
              .lines=${this.lines}
              .unit=${writing.unit}
              .decimal=${writing.decimal}
              label=${`Blade ${blade} before and after`}
            ></bench-profile-chart>`,
          )}
        </section>
        <div class="folds">
          <details open>
            <summary>All passes at a glance</summary>
            <bench-reed-passes .benched=${benched} .pass=${this.pass} .writing=${writing}></bench-reed-passes>
          </details>
          <details>
            <summary>Film through the passes</summary>
            ${this.renderPicture('film', html`<bench-reed-film .benched=${benched} .original=${this.original} .writing=${writing}></bench-reed-film>`)}
          </details>
        </div>`,
    );
  }

  private renderTaken(show: string, foot: unknown = nothing) {
    const { benched, writing } = this;
    return html`<bench-reed-taken
      bare
      can-turn
      show=${show}
      .fitted=${benched}
      .pass=${this.passNumber}
      .since=${benched?.assembled.passes[this.earlier]?.index}
      .stance=${this.print}
      .original=${this.original}
      .unit=${writing.unit}
      .decimal=${writing.decimal}
      @bench-print-choose=${this.handlePrint}
      >${foot}</bench-reed-taken
    >`;
  }

  private renderOutside(taken: TakenOff) {
    const { benched, pass, writing } = this;
    const outside = outsideMeant(benched!, taken);
    if (typeof outside === 'string') return html`<p class="note">${outside}</p>`;
    const { volumeMm3, uMm3, allMm3, most } = outside;
    const gone = joined(volumeFigure({ value: volumeMm3, u: uMm3 }, writing));
    const volume = `${withUnit(gone, 'mm³')} of ${quantityText('volume', allMm3, writing)} in all`;
    const where = most && placeOnBlade(zonesAt(benched!, pass), most.blade, most.fromTipMm, most.across);
    return html`<p>${volume} went where no strokes are written down. ± is 95 %.</p>
      <p>
        ${
          most
            ? `Most at ${placeWords(most.fromTipMm, writing)}: ${where} lost ${joined(thicknessFigure(most, writing))} ${UNIT_WORDS[writing.unit].caption}.`
            : 'No place there lost a measurable amount.'
        }
      </p>`;
  }

  /** Which two passes: any, the earlier one first. */
  private renderPair() {
    const passes = this.benched!.assembled.passes;
    const choice = (words: string, chosen: number, from: number, to: number, go: (pass: number) => void) =>
      html`<label
        >${words}
        <select @change=${(event: Event) => go(Number((event.target as HTMLSelectElement).value))}>
          ${passes.slice(from, to).map(({ index }, k) => html`<option value=${from + k} ?selected=${from + k === chosen}>pass ${index}</option>`)}
        </select>
      </label>`;
    const go = (earlier: number, pass: number) => {
      const { reed } = this.benched!;
      location.hash = hrefOf({
        at: 'bench',
        reedId: reed.id,
        question: 'taken',
        pass: passes[pass]!.index,
        before: passes[earlier]!.index,
      });
    };
    return html`<div slot="foot" class="pair">
      ${choice('From', this.earlier, 0, this.pass, (earlier) => go(earlier, this.pass))}
      ${choice('to', this.pass, 1, passes.length, (pass) => go(Math.min(this.earlier, pass - 1), pass))}
    </div>`;
  }
}
