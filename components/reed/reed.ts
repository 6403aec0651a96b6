import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { html as withTag, literal } from 'lit/static-html.js';
import type { FittedReed, ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { sayFault } from '../../src/answers/fault-words.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import { sayThereNow } from '../../src/answers/there-now.ts';
import type { PassFaults } from '../../src/faults/fault.ts';
import { adjusters } from '../theme/base.styles.ts';
import type { Readings } from './given.ts';
import './reed-balance.ts';
import './reed-beside.ts';
import './reed-lamp.ts';
import './reed-map.ts';
import './reed-opening.ts';
import { listed, ReedPart, someOf } from './reed-part.ts';
import './reed-profile.ts';
import './reed-relief.ts';
import './reed-taken.ts';
import './reed-zones.ts';

/** What may be shown, by the word in `show`, in this order. */
const SHOWN = {
  maps: literal`bench-reed-map`,
  zones: literal`bench-reed-zones`,
  balance: literal`bench-reed-balance`,
  taken: literal`bench-reed-taken`,
  profile: literal`bench-reed-profile`,
  opening: literal`bench-reed-opening`,
  lamp: literal`bench-reed-lamp`,
  relief: literal`bench-reed-relief`,
} as const;
const WORDS = Object.keys(SHOWN) as (keyof typeof SHOWN)[];

/**
 * A reed from its file of readings in one tag: what is there, whether it is even, what was taken off, as maps, tables and a
 * relief, each figure with its ±. Fits on a worker beside the page; keeps nothing, and fetches nothing but `src` and
 * `compare`.
 *
 * @example
 * <bench-reed src="readings.csv" show="maps zones relief"></bench-reed>
 */
@customElement('bench-reed')
export class BenchReed extends ReedPart {
  static override styles = [
    ReedPart.styles,
    adjusters,
    css`
      header {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-2) var(--bench-space-4);
        align-items: center;
        margin-bottom: var(--bench-space-3);
      }
      h2 {
        margin: 0;
        font: var(--bench-font-reed);
      }
      .say {
        max-width: 40em;
        font: var(--bench-font-say);
      }
      .faults {
        padding-left: var(--bench-space-3);
        border-left: 4px solid var(--bench-stop);
      }
      .parts > * {
        break-inside: avoid;
        margin-bottom: var(--bench-space-5);
      }
      @container (min-width: 980px) {
        .parts {
          columns: 2;
          column-gap: var(--bench-space-6);
        }
      }
    `,
  ];

  /**
   * What is shown, words with blanks between: `maps`, `zones`, `balance`, `taken`, `profile`, `opening`, `lamp`, `relief`.
   * The relief's code is fetched only where it is shown.
   */
  @property({ reflect: true, useDefault: true }) show = 'maps zones balance taken relief';
  /** Address of the readings of another reed, a favourite for example, that this one is set beside. */
  @property({ reflect: true, useDefault: true }) compare = '';
  /** The other reed's readings themselves, as of `data`. */
  @property({ attribute: false }) compareData: Readings | undefined;

  protected override get misfit() {
    return super.misfit ?? someOf('show', this.show, WORDS);
  }

  protected override renderReed(at: ReedAtPass) {
    const { say, mind } = sayThereNow(figuresOf(at), this.writing);
    const hasOther = this.compare !== '' || this.compareData !== undefined;
    return html`${this.renderHead(at)}
      <p class="say" part="answer">${say} ${mind}</p>
      ${this.renderFaults(at.benched)}
      <div class="parts">
        ${WORDS.filter((word) => listed(this.show).includes(word)).map((word) => this.renderPart(word, at.benched))}
        ${hasOther ? this.renderBeside(at.benched) : nothing}
      </div>`;
  }

  private renderHead({ benched, pass }: ReedAtPass) {
    const numbers = benched.assembled.passes.map(({ index }) => index);
    return html`<header part="head">
      <h2>${benched.reed.label}</h2>
      ${
        this.labels.length > 1
          ? this.renderChoice('Reed', this.labels, benched.reed.label, (label) => (this.reed = label))
          : nothing
      }
      ${
        numbers.length > 1
          ? this.renderChoice('Pass', numbers, numbers[pass]!, (number) => (this.pass = Number(number)))
          : nothing
      }
    </header>`;
  }

  private renderChoice(
    words: string,
    choices: readonly (string | number)[],
    chosen: string | number,
    choose: (choice: string) => void,
  ) {
    return html`<label
      >${words}
      <select @change=${(event: Event) => choose((event.target as HTMLSelectElement).value)}>
        ${choices.map((choice) => html`<option value=${choice} ?selected=${choice === chosen}>${choice}</option>`)}
      </select>
    </label>`;
  }

  /** What the readings show to be wrong, or ask about. */
  private renderFaults({ assembled }: FittedReed) {
    const said = (this.found ?? []).flatMap(({ faults }: PassFaults, at) =>
      faults.map((fault) => `Pass ${assembled.passes[at]!.index}: ${sayFault(fault, this.writing)}`),
    );
    if (said.length === 0) return nothing;
    return html`<div class="faults" part="faults" role="status">
      ${said.map((sentence) => html`<p>${sentence}</p>`)}
    </div>`;
  }

  private renderPart(word: keyof typeof SHOWN, benched: FittedReed) {
    const { pass, unit, decimal } = this;
    return withTag`<${SHOWN[word]}
      bare
      .fitted=${benched}
      .pass=${pass}
      .unit=${unit}
      .decimal=${decimal}
    ></${SHOWN[word]}>`;
  }

  private renderBeside(benched: FittedReed) {
    const { pass, unit, decimal, compare, compareData } = this;
    return html`<bench-reed-beside
      bare
      .fitted=${benched}
      .pass=${pass}
      .unit=${unit}
      .decimal=${decimal}
      .reedStyle=${this.reedStyle}
      .compare=${compare}
      .compareData=${compareData}
    ></bench-reed-beside>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed': BenchReed;
  }
}
