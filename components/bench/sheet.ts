import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { libraryWords } from '../../src/answers/library-words.ts';
import { zonesAt } from '../../src/answers/fitted-reed.ts';
import { evenness, sayEvenness } from '../../src/answers/even.ts';
import { localPlace } from '../../src/answers/local-place.ts';
import type { ReedFigures } from '../../src/answers/record/record.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import { sayTakenOff } from '../../src/answers/say-taken-off.ts';
import { sayThereNow } from '../../src/answers/there-now.ts';
import { knownOverallMm } from '../../src/reed/overall-lengths.ts';
import { distanceText } from '../../src/words/format.ts';
import { planTowards } from '../../src/plan/make-plan.ts';
import type { Followed } from '../../src/plan/make-target.ts';
import { NOTHING_TO_TAKE, sayStep, stepInWords } from '../../src/plan/say-step.ts';
import type { Step } from '../../src/plan/step.ts';
import '../reed/reed-map.ts';
import '../reed/reed-opening.ts';
import { SMALL } from '../relief/small-bodies.ts';
import { SlotBodies } from '../case/slot-bodies.ts';
import { KnifeController } from '../plan/knife-controller.ts';
import { adviceOf, isOtherAdvice, USUAL_CHOICES, type Advice } from '../store/choices.ts';
import { LibraryController } from '../store/library-controller.ts';
import { tokens } from '../theme/tokens.ts';
import { isStale } from './is-stale.ts';
import { QuestionElement, unbroken } from './question-element.ts';
import { PAPERS, sheetStyles, type Paper } from './sheet.styles.ts';
import { dayWords } from '../../src/words/day-words.ts';

/** A reed after a pass on one page of paper: its maps with their numbers, its figures, its opening, and room to write. */
@customElement('bench-sheet')
export class Sheet extends QuestionElement {
  static override styles = [...QuestionElement.styles, tokens, sheetStyles];

  /** Pages are set in the document: a shadow's own sheets cannot say how paper is cut. */
  private readonly page = new CSSStyleSheet();
  private advice: Advice = USUAL_CHOICES;
  private step: { readonly first: Step | undefined; readonly towards: string } | undefined;
  private readonly library = new LibraryController(this);
  private readonly bodies = new SlotBodies(this);
  private readonly knife = new KnifeController(this, this.library);

  /** What the reed is brought to. */
  @property({ attribute: false }) followed: Followed | undefined;
  @state() private paper: Paper = 'A4';

  override connectedCallback() {
    super.connectedCallback();
    const { ownerDocument } = this;
    ownerDocument.adoptedStyleSheets = [...ownerDocument.adoptedStyleSheets, this.page];
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    const { ownerDocument } = this;
    ownerDocument.adoptedStyleSheets = ownerDocument.adoptedStyleSheets.filter(
      (sheet) => sheet !== this.page,
    );
  }

  override willUpdate(changed: PropertyValues) {
    const { benched } = this;
    if (changed.has('paper')) {
      const { size, marginMm, widthMm } = PAPERS[this.paper];
      this.page.replaceSync(`@page { size: ${size}; margin: ${marginMm}mm; }`);
      this.style.setProperty('--sheet-width', `${widthMm}mm`);
    }
    const advice = adviceOf(this.library.choices);
    const isOther = isOtherAdvice(advice, this.advice);
    this.advice = advice;
    if (!benched?.model || !(isOther || isStale(changed, ['benched', 'pass', 'followed']))) return;
    this.step = this.nextStep();
  }

  private nextStep(): typeof this.step {
    const { benched, pass, followed } = this;
    if (!followed) return undefined;
    const { plan, target } = planTowards({ benched: benched!, pass }, followed, this.advice);
    return { first: plan.steps[0], towards: target.name };
  }

  private get facts(): string {
    const { benched, pass, writing } = this;
    const shown = benched!.passes[pass];
    const { reed } = benched!;
    const overallMm = knownOverallMm(benched!.passes, pass);
    const words = [
      `pass ${shown?.index ?? pass}`,
      shown?.takenAt && dayWords(shown.takenAt),
      overallMm !== undefined && `${distanceText(overallMm, writing)} overall`,
      shown?.openingMm && `opening ${distanceText(shown.openingMm, writing)}`,
      shown?.wetness,
      reed.purpose,
      reed.invented && 'an invented reed',
    ];
    return words.filter(Boolean).join(' · ');
  }

  override render() {
    const { benched, pass } = this;
    if (!benched?.model) return nothing;
    const figures = figuresOf({ benched, pass });
    return html`<div class="acts">
        <div class="choice" role="group" aria-label="Paper">
          ${(Object.keys(PAPERS) as Paper[]).map(
            (paper) =>
              html`<button aria-pressed=${paper === this.paper} @click=${() => (this.paper = paper)}>
                ${PAPERS[paper].words}
              </button>`,
          )}
        </div>
        <button @click=${() => print()}>Print one page</button>
      </div>
      <div class="scroll" tabindex="0" role="region" aria-label="The page">
        <article class="sheet" data-theme="day">${this.renderSheet(figures)}</article>
      </div>`;
  }

  /** The reed on its staple, once it is drawn, in the corner that the header leaves. */
  private renderSmallBody() {
    const { benched, pass } = this;
    this.bodies.take(benched!, pass);
    const body = benched!.model?.blades.A && this.bodies.of(benched!.reed.id, 'day');
    return body ? html`<img alt="" width=${SMALL.width} height=${SMALL.height} src=${body} />` : nothing;
  }

  private renderSheet(figures: ReedFigures) {
    const { benched, writing, favourite } = this;
    const { say, mind } = sayThereNow(figures, writing, favourite?.benched.model && figuresOf(favourite));
    return html`<header>
        <h1>${unbroken(benched!.reed.label)}</h1>
        <p>${this.facts}</p>
        ${this.renderSmallBody()}
      </header>
      <p class="say">${unbroken(say)} ${mind ? html`<em>${unbroken(mind)}</em>` : nothing}</p>
      <div class="maps">
        <bench-reed-map
          bare
          exportparts="blades, words"
          .fitted=${benched}
          .pass=${this.passNumber}
          .unit=${writing.unit}
          .decimal=${writing.decimal}
        ></bench-reed-map>
      </div>
      <div class="side">
        ${this.renderFigures('zones')}
        ${
          benched!.model!.blades.A && benched!.model!.blades.B
            ? html`<section>
                <h2>The opening, seen from the cork</h2>
                <bench-reed-opening
                  bare
                  .fitted=${benched}
                  .pass=${this.passNumber}
                  .unit=${writing.unit}
                  .decimal=${writing.decimal}
                ></bench-reed-opening>
              </section>`
            : nothing
        }
      </div>
      <div class="low">${this.renderEven(figures)} ${this.renderWriting()}</div>
      <div class="low">${this.renderTaken(figures)} ${this.renderNext()}</div>
      <footer class="foot">
        <p>
          Worked out by Hundredths from the readings. ± is 95 %; ${this.noteOfAssumed}thickness explains only
          a part of how a reed plays. ${benched!.fromLibrary ? libraryWords(benched!.fromLibrary) : nothing}
        </p>
        <p>Cut away from your fingers, with the reed on a steady rest. Planned above your floors.</p>
      </footer>`;
  }

  private get noteOfAssumed(): string {
    const assumed = this.benched!.assembled.assumed(this.writing);
    return assumed.length > 0 ? `assumed: ${assumed.join('; ')}; ` : '';
  }

  private sayEven(zones: ReturnType<typeof evenness>): string {
    const { benched, pass, writing } = this;
    const found = localPlace(benched!, pass);
    return sayEvenness(zones, writing, found && { found, placed: zonesAt(benched!, pass) }).say;
  }

  private renderEven(figures: ReedFigures) {
    const zones = evenness(figures);
    if (zones.length === 0) return nothing;
    return html`<section>
      <h2>Is it even?</h2>
      <p class="aside">${this.sayEven(zones)}</p>
      ${this.renderFigures('balance')}
    </section>`;
  }

  private renderTaken(figures: ReedFigures) {
    const { benched, pass, writing } = this;
    if (pass === 0) return nothing;
    const { say, mind } = sayTakenOff(benched!, figures.taken(pass - 1), writing);
    return html`<section>
      <h2>Taken off</h2>
      <p class="aside">${say} ${mind ? html`<em>${mind}</em>` : nothing}</p>
    </section>`;
  }

  private renderNext() {
    const { benched, step, writing } = this;
    if (!step) return nothing;
    const knife = this.knife.inHand(benched!.reed.id);
    const words = step.first
      ? stepInWords(sayStep(step.first, step.towards, knife, writing))
      : NOTHING_TO_TAKE;
    return html`<section>
      <h2>Next, and only this</h2>
      <p class="aside">${unbroken(words)}</p>
    </section>`;
  }

  private renderWriting() {
    return html`<section>
      <h2>Heard</h2>
      <div class="write" aria-hidden="true"><span></span><span></span><span></span></div>
    </section>`;
  }
}
