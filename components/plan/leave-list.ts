import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ScrapePlan } from '../../shared/scrape-plan.ts';
import { zonesAt, type ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { listed, placeWords } from '../../src/words/figure-words.ts';
import { placeOnBlade } from '../../src/answers/answer-words.ts';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import { planAndDone } from '../../src/plan/meant-and-done.ts';
import type { Left, Plan } from '../../src/plan/next-strokes.ts';
import { warningsOn } from '../../src/plan/warnings.ts';
import { amountText, stationText, type NumberFormat } from '../../src/words/format.ts';
import { stepStyles } from '../bench/question.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';

const REASONS: Readonly<Record<Left['reason'], string>> = {
  closed: 'a place there is at its floor, or under the target. No stroke near it.',
  floor: 'it is too near its floor.',
  doubt: 'too uncertain: read again first.',
};

const ACROSS_WORDS: readonly (readonly [number, string])[] = [
  [-0.8, 'left edge'],
  [-0.4, 'left'],
  [0, 'middle'],
  [0.4, 'right'],
  [0.8, 'right edge'],
];

/** What is to be minded, left alone, read first, and what cannot be put back. */
@customElement('bench-leave-list')
export class LeaveList extends BenchElement {
  static override styles = [
    stepStyles,
    css`
      .mind {
        font-style: italic;
      }
    `,
  ];

  @property({ attribute: false }) own: ReedAtPass | undefined;
  @property({ attribute: false }) plan: Plan | undefined;
  @property({ attribute: false }) cane: OriginalCane | undefined;
  /** The plan that this pass came after. */
  @property({ attribute: false }) done: ScrapePlan | undefined;
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  private get warnings() {
    const { own, cane, done, writing } = this;
    const joined = done && planAndDone(own!.benched, done);
    return warningsOn({
      own: own!,
      writing,
      ...(cane && { cane }),
      ...(joined && { done: joined.rows }),
    });
  }

  private renderReadFirst({ readFirst }: Plan) {
    if (readFirst.length === 0) return nothing;
    const places = readFirst.map(({ blade, fromTipMm, across }) => {
      const word = ACROSS_WORDS.find(([at]) => at === across)?.[1] ?? String(across);
      return `${blade}, ${stationText(fromTipMm, this.writing)}, ${word}`;
    });
    return html`<li>
      <b>Read here first:</b> ${places.join('; ')}. There the doubt alone stands in the way.
    </li>`;
  }

  override render() {
    const { own, plan, writing } = this;
    if (!own || !plan) return nothing;
    const zones = zonesAt(own.benched, own.pass);
    const lacks = Object.values(plan.lacks).map(
      ({ blade, fromTipMm, across, lackMm }) =>
        `${placeOnBlade(zones, blade, fromTipMm, across)} at ${placeWords(fromTipMm, writing)} is ${amountText(lackMm, writing)} under`,
    );
    return html`<ul>
      ${this.warnings.map(({ words }) => html`<li class="mind">${words}</li>`)}
      ${plan.left.map(
        ({ title, blade, side, reason }) =>
          html`<li>
            <b>Leave ${blade}’s ${side === 'both' ? '' : `${side} `}${title.toLowerCase()}:</b>
            ${REASONS[reason]}
          </li>`,
      )}
      ${this.renderReadFirst(plan)}
      ${lacks.length > 0 ? html`<li><b>Cannot be put back:</b> ${listed(lacks)}.</li>` : nothing}
    </ul>`;
  }
}
