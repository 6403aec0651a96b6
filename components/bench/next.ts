import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ScrapePlan } from '../../shared/scrape-plan.ts';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import { previewClip, type ClipPreview } from '../../src/plan/clip-preview.ts';
import { planTowards, type MadePlan } from '../../src/plan/make-plan.ts';
import type { Followed } from '../../src/plan/make-target.ts';
import { sayStep } from '../../src/plan/say-step.ts';
import type { Step } from '../../src/plan/step.ts';
import { stationText, UNIT_WORDS } from '../../src/words/format.ts';
import { BLEND_MM } from '../../src/figures/crossing.ts';
import { targetCrossing } from '../../src/plan/target-crossing.ts';
import type { Target } from '../../src/plan/target.ts';
import type { ChartCrossing, ChartLine } from '../charts/chart-data.ts';
import '../caution/caution.ts';
import '../charts/profile-chart.ts';
import '../plan/clip-ruler.ts';
import type { ClipSlideEvent } from '../plan/clip-ruler.ts';
import '../plan/closest.ts';
import { KnifeController } from '../plan/knife-controller.ts';
import { plansAround, plansOf, takeUp, type KeptPlans } from '../plan/kept-plans.ts';
import '../plan/leave-list.ts';
import '../plan/plan-plate.ts';
import '../plan/plan-step.ts';
import '../plan/what-to-try.ts';
import { targetCentre } from '../plan/target-lines.ts';
import { PATCHES_NOTE } from '../plan/target-plate.ts';
import { adviceOf, isOtherAdvice, USUAL_CHOICES, type Advice } from '../store/choices.ts';
import { LibraryController } from '../store/library-controller.ts';
import { downLines } from './profile-lines.ts';
import { isStale } from './is-stale.ts';
import { QuestionElement } from './question-element.ts';

/** What to scrape next towards the target, what to leave, what a clip would make of it, and what the last plan came to. */
@customElement('bench-next')
export class NextQuestion extends QuestionElement {
  private readonly library = new LibraryController(this);
  private readonly knife = new KnifeController(this, this.library);
  private advice: Advice = USUAL_CHOICES;
  private made: MadePlan | undefined;
  private problem = '';
  private lines: readonly ChartLine[] = [];
  private asItIs: ClipPreview | undefined;
  private clipped: ClipPreview | undefined;

  /** What the reed is brought to. */
  @property({ attribute: false }) followed: Followed | undefined;
  /** Cane as it was gouged, by the reed's id. */
  @property({ attribute: false }) canes: ReadonlyMap<string, OriginalCane> = new Map();
  @state() private shownStep = 0;
  @state() private clipMm = 0;

  private get own(): ReedAtPass {
    return { benched: this.benched!, pass: this.pass };
  }

  override willUpdate(changed: PropertyValues) {
    if (!this.benched?.model) return;
    const advice = adviceOf(this.library.choices);
    const isOther = isOtherAdvice(advice, this.advice);
    this.advice = advice;
    if (isOther || isStale(changed, ['benched', 'pass', 'followed'])) {
      this.shownStep = 0;
      this.clipMm = 0;
      this.makePlan();
    }
    if (!this.made || !isStale(changed, ['benched', 'pass', 'followed', 'tipLast', 'shownStep', 'clipMm']))
      return;
    this.clipped = this.clipMm > 0 ? previewClip(this.own, this.made.target, this.clipMm) : this.asItIs;
  }

  private makePlan(): void {
    this.made = undefined;
    this.problem = '';
    if (!this.followed) return;
    const { own } = this;
    try {
      this.made = planTowards(own, this.followed, this.advice);
      const { target } = this.made;
      this.asItIs = previewClip(own, target, 0);
      this.lines = [...downLines(own, 0, undefined), targetCentre(target).line];
    } catch (error) {
      this.problem = error instanceof Error ? error.message : String(error);
    }
  }

  private get step(): Step | undefined {
    return this.made?.plan.steps[this.shownStep];
  }

  private get plans(): readonly ScrapePlan[] {
    return plansOf(this.library.store, this.benched?.reed.id);
  }

  private get kept(): KeptPlans {
    return plansAround(this.plans, this.benched!.passes, this.pass);
  }

  private async handleKeep() {
    const { store } = this.library;
    const { made, step } = this;
    if (store && made && step)
      await takeUp(store, this.own, made, step, this.knife.inHand(this.benched?.reed.id));
  }

  private handleTipLast({ target }: Event) {
    void this.library.store?.choose({ tipLast: (target as HTMLInputElement).checked });
  }

  private handleOther() {
    this.shownStep = (this.shownStep + 1) % Math.max(1, this.made?.plan.steps.length ?? 1);
  }

  private handleSlide({ clipMm }: ClipSlideEvent) {
    this.clipMm = clipMm;
  }

  override render() {
    const { benched, followed, made } = this;
    if (!benched) return nothing;
    if (!followed) {
      return html`<div class="lone">
        ${this.renderDone()}
        <p class="say">
          A plan needs something to follow. Mark a reed as a favourite, or choose under Beside what this one
          is brought to.
        </p>
        ${this.renderTry()}
      </div>`;
    }
    if (!made) return html`<p class="say lone">${this.problem}</p>`;
    return this.renderColumns(
      this.renderAnswerColumn(made),
      this.renderUnderAnswer(),
      this.renderPlate(made),
      this.renderEvidence(made),
    );
  }

  private renderDone() {
    const { done } = this.kept;
    if (!done) return nothing;
    void import('../plan/meant-done.ts');
    return html`<bench-meant-done
      .benched=${this.benched}
      .pass=${this.pass}
      .plan=${done}
      .plans=${this.plans}
      .writing=${this.writing}
    ></bench-meant-done>`;
  }

  private renderAnswerColumn(made: MadePlan) {
    const { step, writing } = this;
    const { id } = this.benched!.reed;
    return html`${this.renderDone()}
      <bench-plan-step
        .said=${step && sayStep(step, made.target.name, this.knife.inHand(id), writing)}
        .others=${made.plan.steps.length - 1}
        .kept=${this.kept.made !== undefined}
        .reedId=${id}
        @bench-plan-keep=${this.handleKeep}
        @bench-plan-other=${this.handleOther}
      ></bench-plan-step>
      <bench-leave-list
        .own=${this.own}
        .plan=${made.plan}
        .cane=${this.canes.get(id)}
        .done=${this.kept.done}
        .writing=${writing}
      ></bench-leave-list>`;
  }

  /** What holds for every step: under the plate where there is no room beside it. */
  private renderUnderAnswer() {
    return html`<label class="line">
        <input type="checkbox" .checked=${this.advice.tipLast} @change=${this.handleTipLast} />
        Leave the tip until last
      </label>
      <bench-caution about="knife dust"></bench-caution>
      <p class="note">
        At most half the excess, one zone at a time, planned above your floors. Strokes stay
        ${stationText(this.advice.marginMm, this.writing)} from a floor or a lack. ${PATCHES_NOTE} Thickness
        explains only a part of how a reed plays.
      </p>
      ${this.renderTry()}`;
  }

  private renderTry() {
    return html`<bench-what-to-try
      .benched=${this.benched}
      .pass=${this.pass}
      .target=${this.made?.target}
    ></bench-what-to-try>`;
  }

  private renderPlate(made: MadePlan) {
    const { benched, writing } = this;
    return html`<bench-plan-plate
      bare
      can-turn
      .fitted=${benched}
      .pass=${this.passNumber}
      .made=${made}
      .step=${this.step}
      .clipped=${this.clipMm > 0 ? this.clipped : undefined}
      .stance=${this.print}
      .original=${this.original}
      .unit=${writing.unit}
      .decimal=${writing.decimal}
      @bench-print-choose=${this.handlePrint}
    ></bench-plan-plate>`;
  }

  /** Where the centre passes the blend's thickness, here and on the target. */
  private crossings(target: Target): ChartCrossing[] {
    const own = this.clipped?.crossings.find(({ thicknessMm }) => thicknessMm === BLEND_MM)?.at;
    const theirs = targetCrossing(target, BLEND_MM);
    return [
      ...(own ? [{ at: own.valueMm, thicknessMm: BLEND_MM, look: 'A' as const }] : []),
      ...(theirs ? [{ at: theirs.valueMm, thicknessMm: BLEND_MM, look: 'favourite' as const }] : []),
    ];
  }

  private renderEvidence({ target }: MadePlan) {
    const { writing } = this;
    const unit = UNIT_WORDS[writing.unit].caption;
    return html`<section>
        <h2>Down the centre line <small>${unit}, mm from the tip</small></h2>
        ${this.renderPicture(
          `down the centre line, towards ${target.name}`,
          html`<bench-profile-chart
            .lines=${this.lines}
            .crossings=${this.crossings(target)}
            .unit=${writing.unit}
            .decimal=${writing.decimal}
            label=${`The centre line of ${this.benched!.reed.label} and of ${target.name}`}
          ></bench-profile-chart>`,
        )}
      </section>
      <section>
        <h2>If you clip <small>nothing is cut until you cut it</small></h2>
        <bench-clip-ruler
          .now=${this.asItIs}
          .then=${this.clipped}
          towards=${target.name}
          .writing=${writing}
          @bench-clip-slide=${this.handleSlide}
        ></bench-clip-ruler>
        <bench-closest
          .own=${this.own}
          .followed=${this.followed}
          .asItIs=${this.asItIs}
          .writing=${writing}
          @bench-clip-slide=${this.handleSlide}
        ></bench-closest>
      </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-next': NextQuestion;
  }
}
