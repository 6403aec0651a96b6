import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Station } from '../../shared/grid.ts';
import type { Question, Round } from '../../shared/round.ts';
import { FEWEST_REEDS } from '../../src/family/of-library.ts';
import { DOUBTS_MM, type ShortChoice } from '../../src/round/short-round.ts';
import { QUESTION_WORDS } from '../../src/round/short-words.ts';
import { COVERAGE, doubtText, UNIT_WORDS, type NumberFormat } from '../../src/words/format.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { boxes } from '../theme/forms.styles.ts';
import { RoundStartEvent } from './round-start-event.ts';

/** A short round as it may be begun. */
export interface OfferedShort {
  readonly places: readonly Station[];
  readonly choices: readonly ShortChoice[];
  /** Of the maker's reeds, how many tell what to expect; absent where too few do. */
  readonly reeds?: number;
  /** What the last one was asked. */
  readonly last?: NonNullable<Round['short']>;
}

/** A hundredth of a millimetre: what a dial tells. Common practice, no source. */
const USUAL = { question: 'zones', doubtMm: 0.01 } as const;
/** Its name among the rounds. */
export const SHORT_ROUND = 'Short round';

/**
 * What a short round is to answer and how surely, with the number of places that it takes.
 *
 * @event bench-round-start - Carries the places, the question and the doubt.
 */
@customElement('bench-short-start')
export class ShortStart extends BenchElement {
  static override styles = [
    controls,
    boxes,
    css`
      label {
        display: inline-flex;
        flex-wrap: wrap;
        gap: var(--bench-space-1) var(--bench-space-2);
        align-items: center;
      }
      .asked {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-2) var(--bench-space-4);
      }
      h2 {
        margin: 0;
        font-size: calc(21px * var(--bench-scale));
        font-weight: 600;
      }
      p {
        margin: var(--bench-space-1) 0 var(--bench-space-3);
        color: var(--bench-ink2);
      }
      button {
        margin: var(--bench-space-3) 0;
      }
    `,
  ];

  @state() private question: Question | undefined;
  @state() private doubtMm: number | undefined;

  @property({ attribute: false }) offered: OfferedShort = { places: [], choices: [] };
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  override focus() {
    this.renderRoot.querySelector('button')?.focus();
  }

  private get short(): NonNullable<Round['short']> {
    const { question, doubtMm } = this.offered.last ?? USUAL;
    return { question: this.question ?? question, doubtMm: this.doubtMm ?? doubtMm };
  }

  private begin() {
    const { places } = this.offered;
    this.dispatchEvent(new RoundStartEvent({ name: SHORT_ROUND, stations: places }, this.short));
  }

  override render() {
    const { choices, reeds } = this.offered;
    const { question, doubtMm } = this.short;
    const counts = choices.find((choice) => choice.question === question)?.counts;
    if (!counts) return nothing;
    const { writing } = this;
    const words =
      reeds === undefined
        ? `With fewer than ${FEWEST_REEDS} of your reeds of this style read, nothing is known of them beforehand.`
        : `${reeds} of your reeds tell what to expect.`;
    return html`<h2>${SHORT_ROUND}</h2>
      <p>It asks for no more places than it takes. ${words}</p>
      <div class="asked">
        <label>
          To know
          <select @change=${(event: Event) => (this.question = chosen(event) as Question)}>
            ${choices.map(
              (choice) =>
                html`<option value=${choice.question} ?selected=${choice.question === question}>
                  ${QUESTION_WORDS[choice.question].toLowerCase()}
                </option>`,
            )}
          </select>
        </label>
        <label>
          to, in ${UNIT_WORDS[writing.unit].name}
          <select @change=${(event: Event) => (this.doubtMm = Number(chosen(event)))}>
            ${DOUBTS_MM.map(
              (mm, k) =>
                html`<option value=${mm} ?selected=${mm === doubtMm}>
                  ${doubtText(mm / COVERAGE, writing)}: ${counts[k]} places
                </option>`,
            )}
          </select>
        </label>
      </div>
      <button @click=${this.begin}>Start the short round</button>`;
  }
}

const chosen = (event: Event) => (event.target as HTMLSelectElement).value;
