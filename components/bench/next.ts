import { html, nothing, type PropertyValues } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { Blade } from '../../shared/blade.ts';
import { zonesAt } from '../../src/answers/benched-reed.ts';
import { listed, placeWords } from '../../src/answers/figure-words.ts';
import { nearFloors, placeOnBlade } from '../../src/answers/there-now.ts';
import { measurableFactor } from '../../src/figures/measurable.ts';
import { mapGrid } from '../../src/figures/surface-map.ts';
import { versionAt, type Version } from '../../src/plan/closest-version.ts';
import { excessOver, type ExcessMap } from '../../src/plan/excess.ts';
import { nextStrokes, type Left, type Plan, type Step } from '../../src/plan/next-strokes.ts';
import { targetFromReed, type Target } from '../../src/plan/target.ts';
import {
  amountText,
  bareAmount,
  COVERAGE,
  numberText,
  UNIT_WORDS,
  withUnit,
} from '../../src/report/format.ts';
import type { FigureRow } from '../figures-table/figures-table.ts';
import '../caution/caution.ts';
import '../figures-table/figures-table.ts';
import type { OutlinePoint } from '../map/map-data.ts';
import '../map/blade-pair.ts';
import { differenceMarks, plateOf, type Plate } from './plate-data.ts';
import { isStale, QuestionElement, unbroken } from './question-element.ts';

const KEY = [
  { mark: 'more', words: 'excess: can be scraped' },
  { mark: 'less', words: 'lack: cannot be put back' },
  { mark: 'next-strokes', words: 'next strokes' },
  { mark: 'bare', words: 'not measurable, or not read' },
] as const;
const CLIPS_MM = [0, 0.1, 0.2, 0.3, 0.5, 0.7, 1];
const REASONS: Readonly<Record<Left['reason'], string>> = {
  closed: 'a reading there is at or under its floor. No stroke within 2 mm of it.',
  floor: 'it is too near its floor.',
  doubt: 'the doubt is larger than what is left above the floor. Read it again first.',
};

/** What to scrape next towards the favourite, what to leave, and what a clip would make of it. */
@customElement('bench-next')
export class NextQuestion extends QuestionElement {
  private target: Target | undefined;
  private excess: Partial<Record<Blade, ExcessMap>> = {};
  private plan: Plan | undefined;
  private plate: Plate = {};
  private versions: readonly Version[] = [];
  @state() private shownStep = 0;

  override willUpdate(changed: PropertyValues) {
    if (!this.benched?.model || !this.favourite?.benched.model) return;
    if (isStale(changed, ['benched', 'pass', 'favourite'])) {
      this.shownStep = 0;
      this.makePlan();
    } else if (!changed.has('shownStep')) return;
    this.plate = this.plateOfPlan();
  }

  private makePlan(): void {
    const [benched, favourite] = [this.benched!, this.favourite!];
    const geometry = benched.assembled.passes[this.pass]!;
    const other = favourite.benched.assembled.passes[favourite.pass]!;
    const lastMm = Math.min(
      geometry.bladeLengthMm,
      other.bladeLengthMm,
      Math.max(0, ...other.readings.map(({ fromTipMm }) => fromTipMm)),
    );
    this.target = targetFromReed(favourite, mapGrid(lastMm, 51, 31));
    this.excess = excessOver(benched.model!, this.pass, this.target);
    const closed = nearFloors(benched, this.pass)
      .filter(({ marginMm }) => marginMm <= 0.0105)
      .map(({ reading }) => reading);
    this.plan = nextStrokes({
      excess: this.excess,
      zones: zonesAt(benched, this.pass, 'tip'),
      floors: benched.assembled.style.floors,
      geometry,
      closed,
    });
    this.versions = CLIPS_MM.map((clip) => versionAt(benched.model!, this.pass, this.target!, clip));
  }

  private get step(): Step | undefined {
    return this.plan?.steps[this.shownStep];
  }

  private plateOfPlan(): Plate {
    const outlines = this.stepOutlines();
    const plate = plateOf(this.benched!, this.pass, (blade, standing) => {
      const map = this.excess[blade];
      return map && { map, marks: differenceMarks(map, standing, measurableFactor(map)), isDifference: true };
    });
    return Object.fromEntries(
      Object.entries(plate).map(([blade, data]) => [
        blade,
        this.step?.blades.includes(blade as Blade) ? { ...data, nextStrokes: outlines } : data,
      ]),
    );
  }

  /** Outlines of the step's zone, on the side that is meant. */
  private stepOutlines(): readonly (readonly OutlinePoint[])[] {
    const { step } = this;
    const zone = step && zonesAt(this.benched!, this.pass, 'tip').find(({ name }) => name === step.zone);
    return (zone?.outlines ?? [])
      .filter((outline) => {
        const side = outline.reduce((sum, [, across]) => sum + across, 0);
        return step!.side === 'both' || (step!.side === 'left' ? side < 0 : side > 0);
      })
      .map((outline) => outline.map(([fromTipMm, across]) => ({ fromTipMm, across })));
  }

  private handleOther() {
    this.shownStep = (this.shownStep + 1) % Math.max(1, this.plan?.steps.length ?? 1);
  }

  private renderStep(step: Step, label: string) {
    const { writing } = this;
    const where = step.blades.length === 2 ? 'both blades' : `blade ${step.blades.join('')}`;
    const side = step.side === 'both' ? '' : `, ${step.side} side`;
    const span = `from ${numberText(step.fromMm, 1, writing)} to ${withUnit(numberText(step.toMm, 1, writing), 'mm')}`;
    const more = (this.plan?.steps.length ?? 0) > 1;
    return html`<section class="step" aria-label="The next step">
      <p class="note">Next, and only this</p>
      <p class="say">${step.title}, ${where}${side}, ${span}</p>
      <p class="take">
        Take <b>${bareAmount(step.takeMm, writing)}</b>
        <span>
          of the ${amountText(step.excessMm, writing)}
          <small>±${bareAmount(COVERAGE * step.uMm, writing)}</small> above ${unbroken(label)}
        </span>
      </p>
      <p>A few strokes a blade, in turn. Then read the places again, and play.</p>
      ${more ? html`<button @click=${this.handleOther}>Not this</button>` : nothing}
    </section>`;
  }

  private renderLeft(plan: Plan) {
    const { writing } = this;
    const zones = zonesAt(this.benched!, this.pass);
    const lacks = Object.entries(plan.lacks).map(
      ([blade, { fromTipMm, across, lackMm }]) =>
        `${placeOnBlade(zones, blade as Blade, fromTipMm, across)} at ${placeWords(fromTipMm, writing)} is ${amountText(lackMm, writing)} under`,
    );
    return html`<ul>
      ${plan.left.map(
        ({ title, blade, reason }) =>
          html`<li><b>Leave ${blade}’s ${title.toLowerCase()}:</b> ${REASONS[reason]}</li>`,
      )}
      ${
        plan.readFirst.length > 0
          ? html`<li>
              <b>Read first:</b>
              ${listed(plan.readFirst.map(({ blade, fromTipMm, across }) => `${placeOnBlade(zones, blade, fromTipMm, across)} at ${placeWords(fromTipMm, writing)}`))}.
            </li>`
          : nothing
      }
      ${lacks.length > 0 ? html`<li><b>Cannot be put back:</b> ${listed(lacks)}.</li>` : nothing}
    </ul>`;
  }

  private get clipRows(): FigureRow[] {
    const [now] = this.versions;
    return this.versions.map((version) => ({
      title: version.clipMm === 0 ? 'as it is' : `clip ${numberText(version.clipMm, 1, this.writing)}`,
      marked: now !== undefined && version.misfit < now.misfit && version === this.bestVersion,
      cells: [this.inUnit(version.excessMm), this.inUnit(version.lackMm)],
    }));
  }

  private inUnit(mm: number): string {
    return numberText(
      mm / { hundredths: 0.01, mm: 1, thou: 0.0254 }[this.writing.unit],
      this.writing.unit === 'mm' ? 3 : 1,
      this.writing,
    );
  }

  private get bestVersion(): Version | undefined {
    return this.versions.reduce<Version | undefined>(
      (best, version) => (!best || version.misfit < best.misfit ? version : best),
      undefined,
    );
  }

  private get clipSentence(): string {
    const closest = this.bestVersion;
    const label = this.favourite!.benched.reed.label;
    return !closest || closest.clipMm === 0
      ? `A clip would take this reed further from ${label}.`
      : `A clip of ${withUnit(numberText(closest.clipMm, 1, this.writing), 'mm')} would bring it nearer to ${label}. A clip cannot be undone.`;
  }

  override render() {
    const { benched, favourite, plan, writing } = this;
    if (!benched) return nothing;
    if (!favourite) {
      return html`<p class="say lone">
        A plan needs something to follow. Mark a reed as a favourite, and the next strokes towards it show
        here.
      </p>`;
    }
    if (!plan) return nothing;
    const label = favourite.benched.reed.label;
    const { step } = this;
    const unit = UNIT_WORDS[writing.unit];
    return this.renderColumns(
      html`${step ? this.renderStep(step, label) : html`<p class="say">Nothing measurable to take. Play it.</p>`}
        ${this.renderLeft(plan)} <bench-caution about="knife dust"></bench-caution>
        <p class="note">
          At most half the excess, one zone, never below a floor; floors are starting values that you can
          change. Thickness explains only a part of how a reed plays.
        </p>`,
      html`<bench-blade-pair
        .a=${this.plate.A}
        .b=${this.plate.B}
        quantity="difference"
        .unit=${writing.unit}
        .decimal=${writing.decimal}
        caption=${`${benched.reed.label} less ${label}, ${unit.caption}, placed from the tip.`}
        label=${step ? `Next strokes: ${step.title}` : 'Nothing measurable to take'}
        .key=${KEY}
      ></bench-blade-pair>`,
      html`<section>
        <h2>If you clip <small>nothing is cut until you cut it</small></h2>
        <bench-figures-table
          caption=${`Mean excess and mean lack over both blades, ${unit.caption}`}
          .heads=${['', 'Excess', 'Lack']}
          .rows=${this.clipRows}
        ></bench-figures-table>
        <p class="aside">${this.clipSentence}</p>
      </section>`,
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-next': NextQuestion;
  }
}
