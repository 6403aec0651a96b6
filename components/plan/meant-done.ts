import { css, html, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Strokes } from '../../shared/pass.ts';
import type { ScrapePlan } from '../../shared/scrape-plan.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import { acrossWords, placeWords } from '../../src/words/figure-words.ts';
import { meantSteps } from '../../src/plan/kept-plan.ts';
import { planAndDone, type Done, type MeantAndDone } from '../../src/plan/meant-and-done.ts';
import { pastPlans, sayPastPlans, type PastPlans } from '../../src/plan/past-plans.ts';
import { sayDone } from '../../src/plan/say-done.ts';
import {
  amountText,
  bareAmount,
  COVERAGE,
  differenceFigure,
  UNIT_WORDS,
  type NumberFormat,
} from '../../src/words/format.ts';
import type { FigureRow } from '../figures-table/laid-out.ts';
import '../figures-table/figures-table.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './scrape-form.ts';

const VERDICTS: Readonly<Record<Done['verdict'], string>> = {
  'as meant': 'as meant',
  less: 'less',
  more: 'more',
  'not measurable': 'in doubt',
};

/** A kept plan beside what the pass after it took: where the knife did what was meant, where not, what is still to do. */
@customElement('bench-meant-done')
export class MeantDone extends BenchElement {
  static override styles = css`
    section {
      display: grid;
      gap: var(--bench-space-3);
    }
    h2 {
      margin: 0;
      font: var(--bench-font-head);
    }
    p {
      margin: 0;
    }
    .say {
      font: var(--bench-font-say);
    }
    .scroll {
      overflow-x: auto;
    }
  `;

  private joined: MeantAndDone | undefined;

  @property({ attribute: false }) benched: FittedReed | undefined;
  /** Place of the pass that was read after the plan. */
  @property({ type: Number }) pass = 0;
  @property({ attribute: false }) plan: ScrapePlan | undefined;
  /** Every plan that was kept for the reed. */
  @property({ attribute: false }) plans: readonly ScrapePlan[] = [];
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  private past: PastPlans | undefined;

  override willUpdate(changed: PropertyValues) {
    const { benched } = this;
    if (!benched || !(changed.has('benched') || changed.has('plan') || changed.has('plans'))) return;
    this.joined = this.plan && planAndDone(benched, this.plan);
    this.past = pastPlans(this.plans.flatMap((plan) => planAndDone(benched, plan)?.rows ?? []));
  }

  private get rows(): FigureRow[] {
    const { writing } = this;
    return (this.joined?.rows ?? []).map(({ title, blade, side, meantMm, done, stillOver, verdict }) => ({
      title: `${title}, ${blade}${side === 'both' ? '' : ` ${side}`}`,
      marked: verdict === 'more',
      cells: [
        bareAmount(meantMm, writing),
        differenceFigure(done, writing),
        VERDICTS[verdict],
        differenceFigure(stillOver, writing),
      ],
    }));
  }

  /** The strokes that the plan meant, in the form in which they are logged. */
  private get meant(): Strokes[] {
    return meantSteps(this.plan!).map(({ zone, side, blades, strokes }) => ({
      zone,
      side,
      blade: blades.length === 2 ? 'both' : blades[0]!,
      ...(strokes !== undefined && { strokes }),
    }));
  }

  override render() {
    const { joined, plan, benched, writing } = this;
    if (!joined || !plan || !benched) return nothing;
    const unit = UNIT_WORDS[writing.unit].caption;
    return html`<section aria-label="Meant and done">
      <h2>Meant and done</h2>
      <p class="say" role="status">${sayDone(joined.rows)} ${this.outsideWords}</p>
      <div class="scroll" tabindex="0" role="region" aria-label="Places meant and done">
        <bench-figures-table
          caption=${`Towards ${plan.towards}, ${unit}. ± is 95 %; in brackets: not measurable.`}
          .heads=${['Place', 'Meant', 'Done', 'How', 'Still over']}
          .rows=${this.rows}
        ></bench-figures-table>
      </div>
      <p>${sayPastPlans(this.past, writing)}</p>
      <details>
        <summary>What the knife did</summary>
        <bench-scrape-form
          .pass=${benched.passes[this.pass]}
          .zones=${benched.assembled.style.zones}
          .meant=${this.meant}
          knife=${plan.knife ?? ''}
        ></bench-scrape-form>
      </details>
    </section>`;
  }

  private get outsideWords(): string {
    const outside = this.joined?.outside;
    if (!outside) return '';
    const { blade, fromTipMm, across, lost } = outside;
    const { writing } = this;
    const doubt = bareAmount(COVERAGE * lost.uMm, writing);
    return `Outside what you meant, ${blade} lost ${amountText(lost.valueMm, writing)} (±${doubt}) at ${placeWords(fromTipMm, writing)}, ${acrossWords(across)}.`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-meant-done': MeantDone;
  }
}
